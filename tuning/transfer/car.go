package transfer

import (
	"cmp"
	"errors"
	"fmt"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Car is what the model needs to know of a car. Left and right are alike.
type Car struct {
	Sprung         unit.Mass    // the body, without wheels
	RollInertia    unit.Inertia // of the body about its centre of gravity
	PitchInertia   unit.Inertia
	Height         unit.Length // of the body's centre of gravity
	UnsprungHeight unit.Length // of the wheels' centres of gravity
	Front, Rear    Axle
	// Overturning adds the moment of the body's weight as it leans out, about
	// the roll axis: m_s·g·(h_s − h_ra)·φ.
	Overturning bool
}

// Axle is one axle. Rates, masses and damper are of one of its wheels, at the
// wheel.
type Axle struct {
	Distance   unit.Length // from the body's centre of gravity
	Track      unit.Length
	RollCentre unit.Length // its height
	Unsprung   unit.Mass
	Wheel      unit.Stiffness
	Tyre       unit.Stiffness
	Bar        unit.RollRate // of the anti-roll bar, 0 without one
	Damper     ride.Damper
	Anti       unit.Share // of the longitudinal load that goes through the links
}

// Check returns an error naming the first figure that is not physical.
func (c Car) Check() error {
	return cmp.Or(
		unit.Positive("sprung mass", c.Sprung),
		unit.Positive("roll inertia", c.RollInertia),
		unit.Positive("pitch inertia", c.PitchInertia),
		unit.Positive("height of the centre of gravity", c.Height),
		unit.Positive("unsprung height", c.UnsprungHeight),
		c.Front.check("front"),
		c.Rear.check("rear"),
		c.checkOverturning(),
	)
}

func (a Axle) check(end string) error {
	err := cmp.Or(
		unit.Positive("distance", a.Distance),
		unit.Positive("track", a.Track),
		unit.Between("roll centre", a.RollCentre, -10, 10),
		unit.Positive("unsprung mass", a.Unsprung),
		unit.Positive("wheel rate", a.Wheel),
		unit.Positive("tyre rate", a.Tyre),
		unit.NotNegative("anti-roll bar", a.Bar),
		unit.Between("anti share", a.Anti, -2, 2),
		a.Damper.Check(),
	)
	if err != nil {
		return fmt.Errorf("%s axle: %w", end, err)
	}
	return nil
}

// checkOverturning refuses a body that its springs cannot hold up.
func (c Car) checkOverturning() error {
	if c.Overturning && c.overturning() >= c.Front.rollRate()+c.Rear.rollRate() {
		return errors.New("the car falls over: its roll stiffness is less than the overturning moment of its body")
	}
	return nil
}

func (c Car) axles() [2]Axle { return [2]Axle{c.Front, c.Rear} }

// Wheelbase is the distance between the axles.
func (c Car) Wheelbase() unit.Length { return c.Front.Distance + c.Rear.Distance }

// Mass is the whole car's.
func (c Car) Mass() unit.Mass { return c.Sprung + c.unsprung() }

func (c Car) unsprung() unit.Mass { return 2 * (c.Front.Unsprung + c.Rear.Unsprung) }

// carried is the part of the body's mass on an axle, m_s·b/L or m_s·a/L.
func (c Car) carried(axle int) float64 {
	other := c.axles()[1-axle]
	return float64(c.Sprung) * float64(other.Distance/c.Wheelbase())
}

// StaticLoads are the tyre loads at rest.
func (c Car) StaticLoads() ([4]unit.Force, error) {
	if err := c.Check(); err != nil {
		return [4]unit.Force{}, err
	}
	return c.staticLoads(), nil
}

func (c Car) staticLoads() (loads [4]unit.Force) {
	for i := range loads {
		loads[i] = unit.Force((c.carried(i/2)/2 + float64(c.axles()[i/2].Unsprung)) * gravity)
	}
	return loads
}

// rollRate is the roll stiffness of an axle, springs, bar and tyres in series.
func (a Axle) rollRate() float64 {
	springs, tyres := a.springRoll(), a.tyreRoll()
	return springs * tyres / (springs + tyres)
}

// springRoll is the roll stiffness of springs and bar, k_w·t²/2 + K_arb.
func (a Axle) springRoll() float64 {
	t := float64(a.Track)
	return float64(a.Wheel)*t*t/2 + float64(a.Bar)
}

// tyreRoll is the roll stiffness of the tyres alone, k_t·t²/2.
func (a Axle) tyreRoll() float64 {
	t := float64(a.Track)
	return float64(a.Tyre) * t * t / 2
}

// rollAxis is the height of the roll axis below the body's centre of gravity,
// (h_rc,f·b + h_rc,r·a)/L.
func (c Car) rollAxis() float64 {
	f, r := c.Front, c.Rear
	return float64((f.RollCentre*r.Distance + r.RollCentre*f.Distance) / c.Wheelbase())
}

// overturning is the moment of the leaning body's weight for each radian of
// roll, or nothing where it is left out.
func (c Car) overturning() float64 {
	if !c.Overturning {
		return 0
	}
	return float64(c.Sprung) * gravity * (float64(c.Height) - c.rollAxis())
}

// rollArm is the moment on the body for each unit of a_y, with each axle's
// share of the side force entering at its roll centre: m_s·(h_s − h_ra).
func (c Car) rollArm() float64 {
	return float64(c.Sprung) * (float64(c.Height) - c.rollAxis())
}

// linkLoad is the load an axle moves from its left to its right wheel at once
// for each unit of a_y: the body's share through the links, F_y·h_rc/t, and the
// wheels' own, m_u,axle·h_u/t.
func (c Car) linkLoad(axle int) float64 {
	a := c.axles()[axle]
	links := c.carried(axle) * float64(a.RollCentre/a.Track)
	wheels := 2 * float64(a.Unsprung) * float64(c.UnsprungHeight/a.Track)
	return links + wheels
}

// pitchLoad is the load moved from the front axle to the rear for each unit of
// a_x, (m_s·h_s + m_u,tot·h_u)/L.
func (c Car) pitchLoad() float64 {
	moment := float64(c.Sprung)*float64(c.Height) + float64(c.unsprung())*float64(c.UnsprungHeight)
	return moment / float64(c.Wheelbase())
}
