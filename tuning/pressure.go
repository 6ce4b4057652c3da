package tuning

import "detent/tuning/unit"

// Pressures are those of the four tyres, by corner; 0 is not said.
type Pressures [Corners]unit.Pressure

// Known tells whether any was said.
func (p Pressures) Known() bool { return p != Pressures{} }

// Heat is how warm the tyres were when their pressures were taken; "" is not
// said.
type Heat string

// The two ways to take pressures.
const (
	TakenCold Heat = "cold"
	TakenHot  Heat = "hot"
)
