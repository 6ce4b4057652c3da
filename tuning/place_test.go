package tuning_test

import (
	"slices"
	"testing"
	"time"

	"detent/tuning"
)

// placeDay is a day at Windy Hill: the numbers below are hours from its start.
var placeDay = time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)

func hours(n int) time.Time { return placeDay.Add(time.Duration(n) * time.Hour) }

// turnedTo is a change that puts the rebound of the axles it names to a click.
func turnedTo(id int64, at int, reason tuning.Reason, from, to int, axles ...tuning.Axle) tuning.Change {
	c := tuning.Change{ID: id, At: hours(at), Reason: reason}
	for _, axle := range axles {
		for _, corner := range axle.Corners() {
			c.Moves = append(c.Moves, tuning.Move{Corner: corner, Adjuster: tuning.Rebound, From: from, To: to})
		}
	}
	return c
}

// feltAt is a feel after a change.
func feltAt(at, grip int, change int64, weather tuning.Weather) tuning.FeltThere {
	return tuning.FeltThere{Feel: tuning.Feel{At: hours(at), Grip: grip, Change: change}, Weather: weather}
}

// placeCar has one rebound adjuster of 16 clicks at each end.
func placeCar() tuning.Car {
	d := tuning.Damper{Ways: 1, Count: tuning.FromHard, Moves: tuning.MovesRebound}
	d.Range[tuning.Rebound] = 16
	return tuning.Car{ID: 1, Name: "Blue hatch", Dampers: [tuning.Axles]tuning.Damper{d, d}}
}

// placeRecord is of a car whose dampers were fitted a day before, at 7.
func placeRecord(feels []tuning.FeltThere, changes ...tuning.Change) tuning.PlaceRecord {
	fitted := []tuning.Change{turnedTo(1, -24, tuning.ByFitting, -1, 7, tuning.Front), turnedTo(2, -24, tuning.ByFitting, -1, 7, tuning.Rear)}
	return tuning.PlaceRecord{Car: placeCar(), Visits: []tuning.Event{{ID: 5, Place: "Windy Hill", Starts: placeDay, Ends: hours(8)}},
		Feels: feels, Changes: append(fitted, changes...)}
}

func TestAPlaceThatTheCarNeverWasAt(t *testing.T) {
	if m, ok := (tuning.PlaceRecord{Car: placeCar()}).Memory(); ok {
		t.Errorf("it remembers %+v", m)
	}
}

// Where the clicks stood at a feel is read off the log as it was then.
func TestTheLogIsReplayed(t *testing.T) {
	const remedy, undo, hand = tuning.ByRemedy, tuning.ByUndo, tuning.ByHand
	corrected := turnedTo(4, 1, hand, 9, 12, tuning.Front)
	for name, c := range map[string]struct {
		feel       tuning.FeltThere
		changes    []tuning.Change
		front      int
		unrecorded bool
		refitted   [tuning.Axles]bool
	}{
		"nothing said":              {feel: feltAt(1, 7, 0, ""), front: 7, unrecorded: true},
		"after a turn":              {feltAt(2, 7, 3, ""), []tuning.Change{turnedTo(3, 1, remedy, 7, 9, tuning.Front)}, 9, false, [2]bool{}},
		"before a turn":             {feltAt(0, 7, 0, ""), []tuning.Change{turnedTo(3, 1, remedy, 7, 9, tuning.Front)}, 7, true, [2]bool{}},
		"of one moment, the turn 1": {feltAt(1, 7, 3, ""), []tuning.Change{turnedTo(3, 1, remedy, 7, 9, tuning.Front), turnedTo(4, 1, remedy, 9, 11, tuning.Front)}, 9, false, [2]bool{}},
		"taken back later": {feltAt(2, 7, 3, ""), []tuning.Change{turnedTo(3, 1, remedy, 7, 9, tuning.Front), turnedTo(4, 3, undo, 9, 7, tuning.Front)},
			9, false, [2]bool{}},
		"taken back before":       {feltAt(4, 7, 4, ""), []tuning.Change{turnedTo(3, 1, remedy, 7, 9, tuning.Front), turnedTo(4, 3, undo, 9, 7, tuning.Front)}, 7, false, [2]bool{}},
		"corrected at the moment": {feltAt(1, 7, 3, ""), []tuning.Change{turnedTo(3, 0, remedy, 7, 9, tuning.Front), corrected}, 12, false, [2]bool{}},
		"corrected, said later":   {feltAt(0, 7, 3, ""), []tuning.Change{turnedTo(3, 0, remedy, 7, 9, tuning.Front), corrected}, 9, false, [2]bool{}},
		"other dampers since": {feltAt(2, 7, 3, ""), []tuning.Change{turnedTo(3, 1, remedy, 7, 9, tuning.Front), turnedTo(4, 30, tuning.ByFitting, -1, 5, tuning.Rear)},
			9, false, [2]bool{false, true}},
		"other dampers before": {feltAt(4, 7, 4, ""), []tuning.Change{turnedTo(3, 1, remedy, 7, 9, tuning.Front, tuning.Rear), turnedTo(4, 2, tuning.ByFitting, -1, 5, tuning.Front)},
			5, false, [2]bool{}},
		"both fitted again": {feltAt(9, 7, 0, ""), []tuning.Change{turnedTo(3, 1, remedy, 7, 9, tuning.Front), turnedTo(4, 2, tuning.ByFitting, -1, 5, tuning.Front), turnedTo(5, 2, tuning.ByFitting, -1, 5, tuning.Rear)},
			5, true, [2]bool{}},
	} {
		m, ok := placeRecord([]tuning.FeltThere{c.feel}, c.changes...).Memory()
		if !ok || len(m.Best) != 1 {
			t.Errorf("%s: it remembers %+v", name, m)
			continue
		}
		if got := m.Best[0].Stood; got.Setting[tuning.FL][tuning.Rebound] != c.front || got.Unrecorded != c.unrecorded || got.Refitted != c.refitted {
			t.Errorf("%s: it stood %+v, want the front at %d, unrecorded %t, refitted %v", name, got, c.front, c.unrecorded, c.refitted)
		}
	}
}

// What is said at home, days later, is of the clicks that the car was driven with.
func TestFeltAtHome(t *testing.T) {
	late := feltAt(30, 8, 4, "")
	late.Feel.Event = 5
	m, _ := placeRecord([]tuning.FeltThere{late}, turnedTo(3, 1, tuning.ByRemedy, 7, 9, tuning.Front), turnedTo(4, 29, tuning.ByRemedy, 9, 13, tuning.Front)).Memory()
	if got := m.Best[0].Setting[tuning.FL][tuning.Rebound]; got != 9 {
		t.Errorf("it stood at %d, want 9", got)
	}
}

// The best is the most grip, dry and wet apart, and of equals the newest.
func TestFeltBest(t *testing.T) {
	m, _ := placeRecord([]tuning.FeltThere{feltAt(1, 8, 0, tuning.Dry), feltAt(2, 8, 0, tuning.Dry), feltAt(3, 7, 0, tuning.Dry),
		feltAt(4, 4, 0, tuning.Wet), feltAt(5, 9, 0, "")}).Memory()
	var got []tuning.Feel
	for _, b := range m.Best {
		got = append(got, b.Feel)
	}
	if want := []tuning.Feel{{At: hours(2), Grip: 8}, {At: hours(4), Grip: 4}, {At: hours(5), Grip: 9}}; !slices.Equal(got, want) {
		t.Errorf("the bests are %+v", got)
	}
	if wet := m.For(tuning.Wet); len(wet) != 1 || wet[0].Grip != 4 {
		t.Errorf("for a wet day it is %+v", wet)
	}
	if all := m.For(tuning.Either); len(all) != 3 {
		t.Errorf("for a day of either weather it is %+v", all)
	}
}

// What counts as the last visit is what stood when it was over, with what was
// recorded of it afterwards.
func TestLeftThere(t *testing.T) {
	late := turnedTo(4, 10, tuning.ByRemedy, 9, 11, tuning.Front)
	late.Event = 5
	home := turnedTo(5, 48, tuning.ByRemedy, 11, 13, tuning.Front)
	m, _ := placeRecord([]tuning.FeltThere{feltAt(2, 7, 3, "")}, turnedTo(3, 1, tuning.ByRemedy, 7, 9, tuning.Front), late, home).Memory()
	if last, today := m.Last.Setting[tuning.FL][tuning.Rebound], m.Today.Setting[tuning.FL][tuning.Rebound]; last != 11 || today != 13 {
		t.Errorf("it was left at %d and stands at %d, want 11 and 13", last, today)
	}
	if _, same := m.LastIsBest(); same {
		t.Error("the last is taken for the best")
	}
	want := []tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Rebound, From: 13, To: 9}, {Corner: tuning.FR, Adjuster: tuning.Rebound, From: 13, To: 9}}
	if back := m.Toward(m.Best[0].Stood); !slices.Equal(back, want) {
		t.Errorf("the way back is %+v", back)
	}
	refitted := m.Best[0].Stood
	refitted.Refitted[tuning.Front] = true
	if back := m.Toward(refitted); len(back) != 0 {
		t.Errorf("with other dampers the way back is %+v", back)
	}
}

func TestSamePlace(t *testing.T) {
	for _, c := range []struct {
		a, b string
		same bool
	}{{"Windy Hill", " windy hill", true}, {"Windy Hill", "Windy Hills", false}, {"", "", false}, {"ÉTANG", "étang", true}} {
		if got := tuning.SamePlace(c.a, c.b); got != c.same {
			t.Errorf("%q and %q: %t", c.a, c.b, got)
		}
	}
}
