package bot

import (
	"slices"
	"strings"

	"detent/bot/say"
	"detent/tuning"
)

// Care says which cautions a message carries. A message that names clicks to turn
// always carries some.
type Care struct {
	Turns  bool `json:"turns,omitempty"`  // clicks to turn are named: the short caution
	Stiff  bool `json:"stiff,omitempty"`  // an adjuster ends in its stiffest fifth
	Search bool `json:"search,omitempty"` // it is a step of the grip search
	Full   bool `json:"full,omitempty"`   // all cautions of the reply, on the first such answer of a person's day
}

// The cautions that a message carries; the reply has them in full.
const (
	shortCare  = "Let it cool; turn gently, never past the stop; first laps easy; closed circuit only."
	searchCare = "Come in at the first hop."
)

// CareFor is the care of an answer that names moves of a car.
func CareFor(car tuning.Car, moves []tuning.Move) Care {
	care := Care{Turns: true}
	for _, m := range moves {
		care.Stiff = care.Stiff || m.From != m.To && 5*m.To > 4*car.Dampers[m.Corner.Axle()].Range[m.Adjuster]
	}
	return care
}

// say returns the cautions as the message shows them, "" where it names no
// clicks. That figures are estimates stands beside the figures, so it is left
// out here.
func (c Care) say(cautions []string) string {
	if !c.Turns {
		return ""
	}
	said, stiff := []string{shortCare}, say.Caution(tuning.TooStiff)
	if c.Full && len(cautions) > 0 {
		said = slices.DeleteFunc(slices.Clone(cautions), func(s string) bool { return s == say.Caution(tuning.Estimate) })
	}
	if c.Stiff && !slices.Contains(said, stiff) {
		said = append(said, stiff)
	}
	if c.Search {
		said = append(said, searchCare)
	}
	return strings.Join(said, " ")
}
