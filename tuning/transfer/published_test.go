package transfer

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"testing"

	"detent/tuning/ride"
	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// textbookCar is the car of the worked example in D. C. Barton, J. D. Fieldhouse,
// Automotive Chassis Engineering, Springer 2018, ch. 3, p. 174, with tyres that
// do not give and the roll stiffness split evenly, which the example leaves open.
func textbookCar(t *testing.T) Car {
	linear, err := ride.Kneed(ride.Knee{Low: 2000, High: 2000, At: 1}, ride.Knee{Low: 2000, High: 2000, At: 1})
	if err != nil {
		t.Fatal(err)
	}
	const track, wheelbase = 1.46, 2.5
	axle := func(distance, centre, unsprung float64) Axle {
		return Axle{
			Distance: unit.Length(distance), Track: track, RollCentre: unit.Length(centre),
			Unsprung: unit.Mass(unsprung / 2), Wheel: 10000, Tyre: 1e12, Damper: linear,
			Bar: 28650.0/2 - 10000*track*track/2,
		}
	}
	c := Car{
		Sprung: 1280, RollInertia: 500, PitchInertia: 2000, UnsprungHeight: 0.28,
		Front:       axle(0.46*wheelbase, 0.07, 140),
		Rear:        axle(0.54*wheelbase, 0.32, 180),
		Overturning: true,
	}
	c.Height = unit.Length(0.365 + c.rollAxis())
	return c
}

func TestTextbookLoadTransfer(t *testing.T) {
	c := textbookCar(t)
	ay := 0.6 * gravity
	rearLinks := c.carried(Rear) * 0.32 / 1.46 * ay
	rear := func() float64 {
		high := c
		high.UnsprungHeight = 0.30 // the example's rear wheels stand higher
		return high.linkLoad(Rear) * ay
	}()
	steady, err := c.Steady(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	links := c.carried(Front) * 0.07 / 1.46 * ay
	for _, f := range []struct {
		form       string
		got        float64
		printed    string
		recomputed float64 // with the example's own figures, more digits
	}{
		{"%.0f", links, "195", 195.06},
		{"%.0f", rearLinks, "760", 759.60},
		{"%.0f", c.linkLoad(Front)*ay - links, "158", 158.04},
		{"%.0f", rear - rearLinks, "218", 217.70},
		{"%.4f", float64(steady.Roll), "0.0194", 0.019413},
		{"%.1f", float64(steady.Roll) * 180 / math.Pi * gravity, "10.9", 10.911},
	} {
		if got := fmt.Sprintf(f.form, f.got); got != f.printed {
			t.Errorf("%s, printed %s", got, f.printed)
		}
		tuningtest.Near(t, f.printed+" recomputed", f.got, f.recomputed, 5e-5)
	}
}

// The worked cases: an independent scipy 1.10.1 program, invented cars, not a
// published source.
type workedCar struct {
	Parameters map[string]any
	Derived    struct {
		M          float64
		HRollAxis  float64    `json:"h_roll_axis"`
		L          float64    `json:"L"`
		Static     [4]float64 `json:"static_loads"`
		AxleRoll   [2]float64 `json:"axle_roll_stiffness_susp"`
		PitchIndex float64    `json:"pitch_dynamic_index"`
	}
	Checks struct {
		LongitudinalN float64 `json:"longitudinal_transfer_N_axle"`
	}
	Lateral struct {
		Ay    float64
		Roll  float64 `json:"roll_rad"`
		Front float64 `json:"LT_front"`
		Rear  float64 `json:"LT_rear"`
		Share float64 `json:"front_share"`
		Rigid struct {
			Roll  float64 `json:"roll_rad"`
			Front float64 `json:"LT_front"`
			Rear  float64 `json:"LT_rear"`
		} `json:"rigid_tyre"`
	} `json:"lateral_steady"`
	Longitudinal struct {
		Ax [][2]float64 `json:"ax_points"`
	} `json:"longitudinal_ramp"`
}

// workedCars reads the cars that package cases answers questions about.
func workedCars(t testing.TB) map[string]workedCar {
	t.Helper()
	raw, err := os.ReadFile("../cases/testdata/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var all struct{ Cars map[string]workedCar }
	if err := json.Unmarshal(raw, &all); err != nil {
		t.Fatal(err)
	}
	if len(all.Cars) == 0 {
		t.Fatal("no cars in the cases")
	}
	return all.Cars
}

func (w workedCar) build(t testing.TB) Car {
	t.Helper()
	figure := func(name string) float64 { v, _ := w.Parameters[name].(float64); return v }
	damper := func(name string) ride.Damper {
		figures := w.Parameters[name].(map[string]any)
		side := func(side string) ride.Knee {
			return ride.Knee{
				Low:  unit.Damping(figures[side+"_lo"].(float64)),
				High: unit.Damping(figures[side+"_hi"].(float64)),
				At:   unit.Speed(figures[side+"_knee"].(float64)),
			}
		}
		d, err := ride.Kneed(side("bump"), side("reb"))
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	axle := func(distance, end string) Axle {
		return Axle{
			Distance: unit.Length(figure(distance)), Track: unit.Length(figure("t" + end)),
			RollCentre: unit.Length(figure("h_rc_" + end)), Unsprung: unit.Mass(figure("mu" + end)),
			Wheel: unit.Stiffness(figure("kw" + end)), Tyre: unit.Stiffness(figure("kt" + end)),
			Bar: unit.RollRate(figure("K_arb_" + end)), Anti: unit.Share(figure("anti_" + end)),
			Damper: damper("d" + end),
		}
	}
	return Car{
		Sprung: unit.Mass(figure("ms")), RollInertia: unit.Inertia(figure("Ixx")),
		PitchInertia: unit.Inertia(figure("Iyy")), Height: unit.Length(figure("h_s")),
		UnsprungHeight: unit.Length(figure("h_u")), Front: axle("a", "f"), Rear: axle("b", "r"),
	}
}

// moved compares a steady corner with its roll and load movement.
func moved(t *testing.T, c Car, ay, roll, front, rear float64) {
	t.Helper()
	steady, err := c.Steady(unit.Acceleration(ay), 0)
	if err != nil {
		t.Fatal(err)
	}
	m := Moment{Loads: steady.Loads}
	tuningtest.Near(t, "roll", float64(steady.Roll), roll, 1e-6)
	tuningtest.Near(t, "front load moved", float64(m.Moved(Front)), front, 1e-6)
	tuningtest.Near(t, "rear load moved", float64(m.Moved(Rear)), rear, 1e-6)
	share, _ := m.FrontShare()
	tuningtest.Near(t, "front share", float64(share), front/(front+rear), 1e-6)
}

// The stepped car comes to rest where the closed form says, in both directions
// at once, with links and overturning moment.
func TestSettlesAtClosedForm(t *testing.T) {
	for _, o := range ordinaryCars() {
		c := o.build(t)
		trace, err := c.Drive(Manoeuvre{
			Lateral:      Course{{0, 0}, {0.5, 6}},
			Longitudinal: Course{{0.2, 0}, {0.6, -3}},
		}, []unit.Seconds{30})
		if err != nil {
			t.Fatal(err)
		}
		steady, err := c.Steady(6, -3)
		if err != nil {
			t.Fatal(err)
		}
		for i, load := range steady.Loads {
			tuningtest.Near(t, o.name+" load", float64(trace[0].Loads[i]), float64(load), 1e-6)
		}
		tuningtest.Near(t, o.name+" roll", float64(trace[0].Roll), float64(steady.Roll), 1e-6)
	}
}

// With linear dampers and k² = a·b a step of the road under the front axle
// leaves the rear alone, and nothing else does: the car of the case and its
// figures are not told beyond k²/ab, so the smaller and larger body must only
// move it by the same order, some tens of newtons in 2000.
func TestPitchDecoupling(t *testing.T) {
	const height = 0.01
	for _, index := range []float64{0.8, 1, 1.2} {
		c := workedCars(t)["C3_roadster"].build(t)
		c.PitchInertia = unit.Inertia(index) * unit.Inertia(float64(c.Sprung)*float64(c.Front.Distance*c.Rear.Distance))
		var front, rear float64
		for _, x := range afterFrontStep(t, c, height) {
			front = max(front, float64(c.Front.Tyre)*math.Abs(x[wheel]))
			rear = max(rear, float64(c.Rear.Tyre)*math.Abs(x[wheel+RL]))
		}
		tuningtest.Near(t, "front load", front, 2000, 1e-9)
		if index == 1 && rear > 1e-9 {
			t.Errorf("k² = ab: the rear load changes by %g N", rear)
		}
		if index != 1 && (rear < 10 || rear > 100) {
			t.Errorf("k² = %g ab: the rear load changes by %g N", index, rear)
		}
	}
}

// afterFrontStep follows a car after the road has stepped up under its front
// wheels, as deviation from where it will come to rest: front up by the height,
// body and all, rear as it was.
func afterFrontStep(t *testing.T, c Car, height float64) []state {
	t.Helper()
	for _, a := range []*Axle{&c.Front, &c.Rear} {
		linear, err := ride.Kneed(ride.Knee{Low: 2200, High: 2200, At: 1}, ride.Knee{Low: 2200, High: 2200, At: 1})
		if err != nil {
			t.Fatal(err)
		}
		a.Damper = linear
	}
	var x state
	x[wheel+FL], x[wheel+FR] = -height, -height
	x[heave] = -height * float64(c.Rear.Distance/c.Wheelbase())
	x[pitch] = height / float64(c.Wheelbase())
	chassis, still := newChassis(c), line{}
	states := []state{x}
	for i := range 1000 {
		t := float64(i) * 2e-3
		chassis.follow(&x, &still, &still, t, t+2e-3, longStep)
		states = append(states, x)
	}
	return states
}
