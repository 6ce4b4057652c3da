package figures

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"detent/tuning"
	"detent/tuning/unit"
)

// nineCars are invented cars of every layout, with dampers of every kind. What is
// not told of them is assumed.
func nineCars() []tuning.Car {
	car := func(name string, engine tuning.Engine, drive tuning.Drive, tyre tuning.Tyre, front, rear tuning.Damper, mass unit.Mass, share unit.Share, springs [2]unit.Stiffness) tuning.Car {
		c := unknownCar(engine, drive, tyre, front)
		c.Name, c.Mass, c.FrontShare = name, mass, share
		c.Dampers[tuning.Rear] = rear
		for axle := range c.Ends {
			c.Ends[axle].Spring = springs[axle]
		}
		return c
	}
	two, four := dampers(2, 30), dampers(4, 24)
	single := car("club single-seater", tuning.MidEngine, tuning.RearDrive, tuning.Slick, four, four, 560, 0.44, [2]unit.Stiffness{90e3, 105e3})
	single.Aero = tuning.HighAero
	return []tuning.Car{
		car("small front-driven hatchback", tuning.FrontEngine, tuning.FrontDrive, tuning.RoadTyre, dampers(1, 30), dampers(1, 30), 1080, 0.61, [2]unit.Stiffness{25e3, 27e3}),
		car("quick front-driven hatchback", tuning.FrontEngine, tuning.FrontDrive, tuning.SemiSlick, two, dampers(2, 20), 1240, 0.62, [2]unit.Stiffness{55e3, 60e3}),
		car("rear-driven saloon", tuning.FrontEngine, tuning.RearDrive, tuning.RoadTyre, dampers(2, 12), dampers(2, 12), 1450, 0.52, [2]unit.Stiffness{28e3, 34e3}),
		car("rear-driven coupé", tuning.FrontEngine, tuning.RearDrive, tuning.SemiSlick, dampers(3, 16), dampers(3, 16), 1320, 0.51, [2]unit.Stiffness{62e3, 72e3}),
		car("light kit car", tuning.FrontEngine, tuning.RearDrive, tuning.Slick, two, two, 590, 0.49, [2]unit.Stiffness{32e3, 38e3}),
		car("mid-engined sports car", tuning.MidEngine, tuning.RearDrive, tuning.SemiSlick, four, four, 1260, 0.43, [2]unit.Stiffness{52e3, 80e3}),
		car("rear-engined sports car", tuning.RearEngine, tuning.RearDrive, tuning.RoadTyre, two, two, 1380, 0.39, [2]unit.Stiffness{30e3, 62e3}),
		car("four-wheel-drive saloon", tuning.FrontEngine, tuning.FourDrive, tuning.RoadTyre, dampers(2, 20), dampers(2, 20), 1560, 0.57, [2]unit.Stiffness{34e3, 38e3}),
		single,
	}
}

// advise is the trade's answer for a car that stands at its start.
func advise(t testing.TB, car tuning.Car, at tuning.Setting, what tuning.What, where tuning.Where) tuning.Advice {
	t.Helper()
	rear := tuning.Rear
	advice, err := tuning.Advise(car, at, tuning.Complaint{What: what, Where: where, Axle: &rear}, tuning.History{}, tuning.DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	return advice
}

// judge judges one remedy.
func judge(t testing.TB, m Model, c tuning.Complaint, at tuning.Setting, r tuning.Remedy) (Judgement, bool) {
	t.Helper()
	j, ok, err := m.Judge(c, at, r)
	if err != nil {
		t.Fatal(err)
	}
	return j, ok
}

// places are where in the corner a complaint is tried.
func places(what tuning.What) []tuning.Where {
	if what.SplitsByPlace() {
		return []tuning.Where{tuning.Entry, tuning.Mid, tuning.Exit}
	}
	return []tuning.Where{tuning.Anywhere}
}

// The table of what the model says of every remedy for every complaint on nine
// cars at their starts: any change of the model is seen in it.
func TestNineCars(t *testing.T) {
	var got strings.Builder
	for _, stands := range []struct {
		name string
		at   func(testing.TB, tuning.Car) tuning.Setting
	}{{"at their starts", start}, {"far on the stiff side", stiffSide}, {"far on the soft side", softSide}} {
		fmt.Fprintf(&got, "Remedies of nine cars that stand %s\n%-18s %8s %8s %10s %8s   %s\n", stands.name,
			"", "agrees", "neutral", "disagrees", "silent", "points, least to most")
		for _, w := range tuning.Whats {
			for _, where := range places(w.What) {
				tableRow(t, &got, w.What, where, stands.at)
			}
		}
		got.WriteString("\n")
	}
	t.Log("\n" + got.String())
	golden(t, "nine-cars.txt", got.String())
}

// stiffSide and softSide put every adjuster at five sixths and one sixth of its
// range.
func stiffSide(_ testing.TB, car tuning.Car) tuning.Setting { return part(car, 5) }
func softSide(_ testing.TB, car tuning.Car) tuning.Setting  { return part(car, 1) }

func part(car tuning.Car, sixths int) (at tuning.Setting) {
	for corner := range at {
		d := car.Dampers[tuning.Corner(corner).Axle()]
		for _, a := range d.Adjusters() {
			at[corner][a] = sixths * d.Range[a] / 6
		}
	}
	return at
}

// tableRow judges the remedies of all cars for one complaint.
func tableRow(t *testing.T, out *strings.Builder, what tuning.What, where tuning.Where, stands func(testing.TB, tuning.Car) tuning.Setting) {
	t.Helper()
	row := map[Word]int{}
	least, most := math.Inf(1), math.Inf(-1)
	for _, car := range nineCars() {
		m, at := modelOf(t, car), stands(t, car)
		advice := advise(t, car, at, what, where)
		for _, r := range advice.Remedies {
			j, ok := judge(t, m, advice.Complaint, at, r)
			if !ok {
				row[Unknown]++
				continue
			}
			row[j.Word]++
			least, most = min(least, j.Points), max(most, j.Points)
			checkJudgement(t, m, advice.Complaint, at, r, j)
		}
	}
	fmt.Fprintf(out, "%-18s %8d %8d %10d %8d", strings.TrimSpace(string(what)+" "+string(where)), row[Agrees], row[Neutral], row[Disagrees], row[Unknown])
	if least <= most {
		fmt.Fprintf(out, "   %.2f to %.2f", least, most)
	}
	out.WriteString("\n")
}

// checkJudgement asserts what holds of every judgement.
func checkJudgement(t *testing.T, m Model, c tuning.Complaint, at tuning.Setting, r tuning.Remedy, j Judgement) {
	t.Helper()
	if w, ok, err := m.Word(c, at, r); err != nil || !ok || w != j.Word {
		t.Errorf("%s: the word alone is %q (%v, %v), with its reasons %q", c.What, w, ok, err, j.Word)
	}
	for _, v := range []float64{j.Points, j.Most, j.Does.Before, j.Does.After} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s: %+v has a figure that is none", c.What, j)
		}
	}
	needed := floor
	if j.Counts == Mechanism {
		needed = mechanismFloor
	}
	toward := map[Word]float64{Agrees: +1, Disagrees: -1}[j.Word]
	if j.Word != Neutral && (toward*j.Points < needed || j.Leans == Either) {
		t.Errorf("%s: %s with %g points, leaning %s", c.What, j.Word, j.Points, j.Leans)
	}
	if j.Does.Mechanism == NoMechanism || j.Counts == Nothing {
		t.Errorf("%s: %+v measures nothing", c.What, j)
	}
	if j.Peak.Inside && (j.Peak.Best <= 0 || j.Peak.Best >= m.car.Dampers[j.Peak.Axle].Range[j.Peak.Adjuster] || j.Peak.At != ClicksOf(at, j.Peak.Axle)[j.Peak.Adjuster]) {
		t.Errorf("%s: a peak at %+v", c.What, j.Peak)
	}
}

// A car of wild figures on which, two clicks from today's, the front dampers do
// not pull the body down at all: its rebound and bump are alike there. Per cent of
// nothing measure nothing, so the remedy is not judged, with its reasons or
// without, whichever way it turns.
func TestNothingBeforeIsNotJudged(t *testing.T) {
	bars := [tuning.Axles]unit.Stiffness{0, 2.182537518441677}
	car := unknownCar(tuning.RearEngine, tuning.FourDrive, tuning.RoadTyre, dampers(3, 3))
	car.Ends[tuning.Front] = tuning.End{Spring: 40526.176858082414, MotionRatio: 1.7193829112214043, Unsprung: 5, Bar: &bars[tuning.Front]}
	car.Ends[tuning.Rear] = tuning.End{Spring: 339604.150100708, MotionRatio: 0.2, Unsprung: 6.962315231561661, TyreRate: 50e3, Bar: &bars[tuning.Rear]}
	m, at := modelOf(t, car), start(t, car)
	c := tuning.Complaint{What: tuning.PacksDown, Where: tuning.Exit}
	for _, to := range []int{2, 3} {
		var moves []tuning.Move
		for _, corner := range tuning.Front.Corners() {
			moves = append(moves, tuning.Move{Corner: corner, Adjuster: tuning.Rebound, From: at[corner][tuning.Rebound], To: to})
		}
		r := tuning.Remedy{Kind: tuning.TurnClicks, Moves: moves}
		j, _, err := m.Judge(c, at, r)
		var unanswered Unanswered
		if !errors.As(err, &unanswered) || unanswered.Task != CompareMechanism || j != (Judgement{}) {
			t.Errorf("to %d: %+v, %v", to, j, err)
		}
		if w, _, err := m.Word(c, at, r); w != Unknown || err == nil {
			t.Errorf("to %d: the word alone is %q, %v", to, w, err)
		}
	}
}

// A change has a part only of something that was there before.
func TestPartOfAnEffect(t *testing.T) {
	for _, c := range []struct {
		before, after, part float64
		ok, hardly          bool
	}{
		{2, 3, 0.5, true, false},
		{-2, -3, -0.5, true, false},
		{2, 2.01, 0.005, true, true},
		{0.03, 0, -1, true, false},
		{0, 0, 0, true, true},
		{0, 0.03, 0, false, false},
		{1e-320, 0.03, 0, false, false},
	} {
		e := Effect{Before: c.before, After: c.after}
		part, ok := e.Part()
		if ok != c.ok || ok && math.Abs(part-c.part) > 1e-9 || e.Hardly() != c.hardly {
			t.Errorf("from %g to %g: part %g, %v, hardly %v", c.before, c.after, part, ok, e.Hardly())
		}
	}
}
