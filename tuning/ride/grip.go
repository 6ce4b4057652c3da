package ride

import (
	"cmp"
	"math"

	"detent/tuning/unit"
)

// Surface is the kind of ground that a window is computed for.
type Surface int

const (
	Smooth Surface = iota // class A, kerbs of 10 mm
	Bumpy                 // class B, kerbs of 30 mm
	Rough                 // class C, kerbs of 40 mm
)

// Surfaces lists every surface, smoothest first.
var Surfaces = [...]Surface{Smooth, Bumpy, Rough}

// surfaces has what each surface is, with the class means of ISO 8608.
var surfaces = [...]struct {
	word string
	road Spectrum
	kerb float64 // height of the one bump, m
}{
	Smooth: {"smooth", 16e-6, 0.010},
	Bumpy:  {"bumpy", 64e-6, 0.030},
	Rough:  {"rough", 256e-6, 0.040},
}

// windowSpeed is the speed at which rough ground and kerbs are met.
const windowSpeed = unit.Speed(35)

// Spectrum is the roughness of the surface.
func (s Surface) Spectrum() Spectrum { return surfaces[s].road }

func (s Surface) road() Road { return Road{Spectrum: surfaces[s].road, Speed: windowSpeed} }

// String is the word the surface goes by.
func (s Surface) String() string { return surfaces[s].word }

// Grip compares settings of one corner: the mean side force of its tyre in
// three trials, each relative to a tyre at its rest load, and their product. It
// tells one setting of a car from another; it is no promise of lap time.
type Grip struct {
	Road  unit.Ratio // on rough ground
	Body  unit.Ratio // while the body takes a load, loaded and unloaded side averaged
	Kerb  unit.Ratio // over one bump
	Index unit.Ratio // the product of the three
}

// Grip returns the grip of a corner with a damper on a surface, for a tyre of
// ordinary sensitivity.
func (c Corner) Grip(d Damper, s Surface) (Grip, error) {
	if err := cmp.Or(c.Check(), d.Check()); err != nil {
		return Grip{}, err
	}
	hop, err := newTrial(c, d)
	if err != nil {
		return Grip{}, err
	}
	return c.gripOn(d, s, hop, hop.body().at(Ordinary)), nil
}

// gripOn returns the grip on a surface. The body's part is the same on every
// surface, so the caller gives it.
func (c Corner) gripOn(d Damper, s Surface, hop *trial, body float64) Grip {
	road := c.onRoad(d, s.road()).Grip(Ordinary)
	kerb := hop.kerb(surfaces[s].kerb).at(Ordinary)
	return Grip{
		Road:  road,
		Body:  unit.Ratio(body),
		Kerb:  unit.Ratio(kerb),
		Index: road * unit.Ratio(body*kerb),
	}
}

// OnRoad returns what a road does to the tyre of a corner. The linear damper that
// takes the same power stands for the damper (see Equivalent).
func (c Corner) OnRoad(d Damper, road Road) (Unrest, error) {
	if err := cmp.Or(c.Check(), d.Check(), road.Check()); err != nil {
		return Unrest{}, err
	}
	return c.onRoad(d, road), nil
}

func (c Corner) onRoad(d Damper, road Road) Unrest { return c.unrest(c.equivalent(d, road), road) }

// Grip is the mean side force on the road, R = E[Y(x)] − L, for x normal with
// mean 1 and the variance of the load. With Φ and φ at 1/σ:
// E[x; x>0] = Φ + σφ, E[x²; x>0] = (1+σ²)·Φ + σφ, and so
// E[Y] = Φ + σφ − s·σ²·Φ.
func (u Unrest) Grip(s Sensitivity) unit.Ratio {
	sigma := math.Sqrt(u.Load)
	above := math.Erfc(-1/(sigma*math.Sqrt2)) / 2
	edge := sigma * math.Exp(-1/(2*u.Load)) / math.Sqrt(2*math.Pi)
	return unit.Ratio(above + edge - float64(s)*u.Load*above - u.Lag)
}

// OverKerb is what the one bump of a surface does to a corner.
type OverKerb struct {
	Air  unit.Seconds // how long the tyre is off the road
	mean mean
}

// OverKerb takes a corner with a damper over the one bump of a surface.
func (c Corner) OverKerb(d Damper, s Surface) (OverKerb, error) {
	if err := cmp.Or(c.Check(), d.Check()); err != nil {
		return OverKerb{}, err
	}
	hop, err := newTrial(c, d)
	if err != nil {
		return OverKerb{}, err
	}
	over := hop.kerb(surfaces[s].kerb)
	return OverKerb{Air: unit.Seconds(over.air * kerbWatch), mean: over}, nil
}

// Grip is the mean side force for a tyre of some sensitivity.
func (k OverKerb) Grip(s Sensitivity) unit.Ratio { return unit.Ratio(k.mean.at(s)) }
