package figures

import (
	"fmt"
	"strings"
	"testing"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

// floating is a car whose dampers hold far too little at the soft stop and gain a
// great deal by each click, so that every probe feels a step; invented.
func floating(t testing.TB) tuning.Car {
	car := knownCar(t)
	var csv strings.Builder
	csv.WriteString("click,speed_mm_s,bump_n,rebound_n\n")
	for _, click := range []int{0, 16} {
		for _, speed := range []float64{60, 300} {
			force := (1 + 5*float64(click)) * speed / 60
			fmt.Fprintf(&csv, "%d,%g,%.1f,%.1f\n", click, speed, force, 2*force)
		}
	}
	for axle := range car.Curves {
		car.Curves[axle] = table(t, csv.String())
	}
	return car
}

// afloat is where that car floats.
func afloat() (at tuning.Setting) {
	for corner := range at {
		at[corner][tuning.Bump], at[corner][tuning.Rebound] = 3, 3
	}
	return at
}

// Where an axle floats, softer loses it grip and stiffer gains it on every road
// and however it is driven: there the model speaks.
func TestSpeaksWhereDriverCanFeel(t *testing.T) {
	car := floating(t)
	m, at := modelOf(t, car), afloat()
	for _, c := range []struct {
		what  tuning.What
		where tuning.Where
		words []Word
	}{
		// Softer at the end that is to gain loses it most; stiffer at the other end
		// gains there, a little less than counts two clicks further on.
		{tuning.Oversteer, tuning.Entry, []Word{Neutral, Disagrees}},
		{tuning.Oversteer, tuning.Mid, []Word{Neutral, Disagrees}},
		{tuning.Oversteer, tuning.Exit, []Word{Disagrees, Neutral}},
		{tuning.Understeer, tuning.Entry, []Word{Disagrees, Neutral}},
		{tuning.LowGrip, tuning.Anywhere, []Word{Agrees}},
		{tuning.Hops, tuning.Anywhere, []Word{Disagrees, Disagrees}},
		{tuning.Wheelspin, tuning.Exit, []Word{Disagrees}},
	} {
		advice := advise(t, car, at, c.what, c.where)
		for i, r := range advice.Remedies {
			j, ok := judge(t, m, advice.Complaint, at, r)
			if !ok || i >= len(c.words) || j.Word != c.words[i] {
				t.Errorf("%s %s, remedy %d: %s with %.2f points, %v", c.what, c.where, i+1, j.Word, j.Points, c.words)
			}
			checkJudgement(t, m, advice.Complaint, at, r, j)
		}
	}
}

// A change taken back, a return to the start and what the model cannot tell of are
// given no verdict.
func TestNoMeasure(t *testing.T) {
	car := nineCars()[1]
	m, at := modelOf(t, car), start(t, car)
	moves := advise(t, car, at, tuning.Understeer, tuning.Entry).Remedies[0].Moves
	for name, c := range map[string]struct {
		what   tuning.What
		remedy tuning.Remedy
	}{
		"undo":          {tuning.Understeer, tuning.Remedy{Kind: tuning.TakeBack, Moves: moves}},
		"half back":     {tuning.Understeer, tuning.Remedy{Kind: tuning.HalfBack, Moves: moves}},
		"start":         {tuning.Nervous, tuning.Remedy{Kind: tuning.ReturnBaseline, Moves: moves}},
		"slow turn-in":  {tuning.SlowTurnIn, tuning.Remedy{Kind: tuning.TurnClicks, Moves: moves}},
		"nervous":       {tuning.Nervous, tuning.Remedy{Kind: tuning.TurnClicks, Moves: moves}},
		"one-sided":     {tuning.OneSided, tuning.Remedy{Kind: tuning.TurnClicks, Moves: moves}},
		"nothing turns": {tuning.Understeer, tuning.Remedy{Kind: tuning.TurnClicks}},
	} {
		j, ok, err := m.Judge(tuning.Complaint{What: c.what}, at, c.remedy)
		if ok || err != nil || j != (Judgement{}) {
			t.Errorf("%s: %+v, %v, %v", name, j, ok, err)
		}
		if w, ok, err := m.Word(tuning.Complaint{What: c.what}, at, c.remedy); ok || err != nil {
			t.Errorf("%s: the word %s, %v", name, w, err)
		}
	}
	stale := tuning.Remedy{Kind: tuning.TurnClicks, Moves: []tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Bump, From: at[tuning.FL][tuning.Bump] + 1}}}
	if _, _, err := m.Judge(tuning.Complaint{What: tuning.LowGrip}, at, stale); tuning.KindOf(err) != tuning.Conflict {
		t.Errorf("a remedy from elsewhere: %v", err)
	}
}

// The probes' words at the edges of the floor.
func TestWeigh(t *testing.T) {
	for _, c := range []struct {
		counts Counts
		points []float64
		word   Word
		leans  Leaning
		felt   bool
	}{
		{Balance, []float64{0.3, 0.2, 0.9}, Agrees, With, true},
		{Balance, []float64{-0.3, -0.21}, Disagrees, Against, true},
		{Balance, []float64{0.3, 0.19}, Neutral, With, true},
		{Balance, []float64{0.02, 0.01}, Neutral, With, false},
		{Grip, []float64{0.3, -0.3}, Neutral, Either, true},
		{Grip, []float64{0.1, -0.1}, Neutral, Either, false},
		{Grip, []float64{0}, Neutral, Either, false},
		{Mechanism, []float64{4.9, 9}, Neutral, With, true},
		{Mechanism, []float64{5, 9}, Agrees, With, true},
	} {
		j := Judgement{Counts: c.counts}
		j.weigh(c.points)
		if j.Word != c.word || j.Leans != c.leans || j.Felt() != c.felt || j.Points != c.points[0] {
			t.Errorf("%v: %+v", c.points, j)
		}
	}
}

// Held in the corner nothing moves but the road: entry's flat runs have no part
// in it.
func TestMidIsItsOwnPhase(t *testing.T) {
	car := nineCars()[2]
	m, at := modelOf(t, car), start(t, car)
	entry := advise(t, car, at, tuning.Understeer, tuning.Entry)
	mid := advise(t, car, at, tuning.Understeer, tuning.Mid)
	in, _ := judge(t, m, entry.Complaint, at, entry.Remedies[0])
	held, _ := judge(t, m, mid.Complaint, at, mid.Remedies[0])
	if held.Phase != Mid || in.Phase != Entry || held.Points == in.Points || held.Does.Mechanism != LoadSwing {
		t.Errorf("mid %+v, entry %+v", held, in)
	}
	c, ok, err := m.change(mid.Complaint, at, mid.Remedies[0])
	if err != nil || !ok {
		t.Fatal(err)
	}
	roads, err := c.roadBalances()
	if err != nil {
		t.Fatal(err)
	}
	tuningtest.Near(t, "mid", held.Points, roads[0].road, 1e-12)
}
