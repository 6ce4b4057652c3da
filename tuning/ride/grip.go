package ride

import (
	"cmp"
	"math"

	"detent/tuning/unit"
)

// Surface is the kind of ground a window is looked for on.
type Surface int

const (
	Smooth Surface = iota // class A, kerbs of 10 mm
	Bumpy                 // class B, kerbs of 30 mm
)

// windowSpeed is the speed at which rough ground and kerbs are met.
const windowSpeed = unit.Speed(35)

// road is the rough ground of a surface, with the class means of ISO 8608.
func (s Surface) road() Road {
	if s == Bumpy {
		return Road{Spectrum: 64e-6, Speed: windowSpeed}
	}
	return Road{Spectrum: 16e-6, Speed: windowSpeed}
}

// kerb is the height of the one bump of a surface, in m.
func (s Surface) kerb() float64 {
	if s == Bumpy {
		return 0.030
	}
	return 0.010
}

// String is the word the surface goes by.
func (s Surface) String() string {
	if s == Bumpy {
		return "bumpy"
	}
	return "smooth"
}

// Grip compares settings of one corner: the mean side force of its tyre in
// three trials, each relative to a tyre at its rest load, and their product. It
// tells one setting of a car from another; it is no promise of lap time.
type Grip struct {
	Road  unit.Ratio // on rough ground
	Body  unit.Ratio // while the body takes a load, loaded and unloaded side averaged
	Kerb  unit.Ratio // over one bump
	Index unit.Ratio // the product of the three
}

// sensitivity is how much side force per load a tyre loses as its load rises, s
// in Y(x) = x·(1+s) − s·x². Typical; textbooks give a range.
const sensitivity = 0.2

// SideForce is what a tyre can give sideways at a load ratio x = F/F0, relative
// to its rest load: Y(x) = x·(1+s) − s·x², and nothing off the ground.
func SideForce(x unit.Ratio) unit.Ratio { return unit.Ratio(sideForce(float64(x))) }

func sideForce(x float64) float64 {
	if x <= 0 {
		return 0
	}
	return x*(1+sensitivity) - sensitivity*x*x
}

// Grip returns the grip of a corner with a damper on a surface.
func (c Corner) Grip(d Damper, s Surface) (Grip, error) {
	if err := cmp.Or(c.Check(), d.Check()); err != nil {
		return Grip{}, err
	}
	hop, err := newTrial(c, d)
	if err != nil {
		return Grip{}, err
	}
	road := c.roadGrip(d, s.road())
	body := (hop.bodyGrip(+1) + hop.bodyGrip(-1)) / 2
	kerb := hop.kerbGrip(s.kerb())
	return Grip{
		Road:  unit.Ratio(road),
		Body:  unit.Ratio(body),
		Kerb:  unit.Ratio(kerb),
		Index: unit.Ratio(road * body * kerb),
	}, nil
}

// roadGrip is E[Y(x)] for x normal with mean 1 and the deviation of the tyre
// load over its rest load. With Φ and φ at u = 1/σ:
// E[x; x>0] = Φ + σφ, E[x²; x>0] = (1+σ²)·Φ + σφ.
func (c Corner) roadGrip(d Damper, road Road) float64 {
	sigma := float64(c.response(c.equivalent(d, road), road).Tyre) / c.weight()
	u := 1 / sigma
	above := math.Erfc(-u/math.Sqrt2) / 2
	edge := sigma * math.Exp(-u*u/2) / math.Sqrt(2*math.Pi)
	return (1+sensitivity)*(above+edge) - sensitivity*((1+sigma*sigma)*above+edge)
}
