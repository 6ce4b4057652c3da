package ride

import (
	"testing"
	"time"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// The three trials are ordered as the trade says: too soft costs in the body's
// movement, too stiff over kerbs and rough ground.
func TestWindowOfOrdinaryCorner(t *testing.T) {
	c := ordinaryCorner()
	dampers := nominals(t, c, 30)
	for i := range 12 { // on to twice what a nominal damper reaches
		d, err := dampers[30].Scaled(unit.Ratio(1+0.25*float64(i+1)), unit.Ratio(1+0.25*float64(i+1)))
		if err != nil {
			t.Fatal(err)
		}
		dampers = append(dampers, d)
	}
	for _, surface := range Surfaces {
		w, err := FindWindow(c, dampers, surface)
		if err != nil {
			t.Fatal(err)
		}
		checkWindow(t, w)
	}
	w, err := FindWindow(c, dampers, Smooth)
	if err != nil {
		t.Fatal(err)
	}
	for click, want := range map[int]Trial{0: BodyTrial, w.Best: None} {
		if got, err := w.CostsMost(click); err != nil || got != want {
			t.Errorf("click %d costs most in %v (%v), want %v", click, got, err, want)
		}
	}
	if got, err := w.CostsMost(len(dampers) - 1); err != nil || got != RoadTrial && got != KerbTrial {
		t.Errorf("the stiffest costs most in %v (%v)", got, err)
	}
}

// checkWindow asserts what holds for every window with one peak.
func checkWindow(t *testing.T, w Window) {
	t.Helper()
	if !(0 <= w.From && w.From <= w.Best && w.Best <= w.To && w.To < len(w.Grip)) {
		t.Fatalf("window %d to %d around %d", w.From, w.To, w.Best)
	}
	for click, g := range w.Grip {
		if g.Index > w.Grip[w.Best].Index {
			t.Errorf("click %d beats the best", click)
		}
		tuningtest.Near(t, "index", float64(g.Index), float64(g.Road*g.Body*g.Kerb), 1e-15)
		loses, err := w.GivesAway(click)
		if err != nil {
			t.Fatal(err)
		}
		if w.Contains(click) != (loses <= 0.002) {
			t.Errorf("click %d loses %g and is inside: %v", click, float64(loses), w.Contains(click))
		}
	}
}

func TestBadWindows(t *testing.T) {
	good := linear(t, 2000)
	for name, c := range map[string]struct {
		corner  Corner
		dampers []Damper
	}{
		"no clicks":    {ordinaryCorner(), nil},
		"no damper":    {ordinaryCorner(), []Damper{good, {}}},
		"no tyre rate": {Corner{Sprung: 240, Unsprung: 36, Wheel: 16000}, []Damper{good}},
		"too stiff":    {Corner{Sprung: 240, Unsprung: 1e-9, Wheel: 16000, Tyre: 160000}, []Damper{good}},
	} {
		if _, err := FindWindow(c.corner, c.dampers, Smooth); err == nil {
			t.Errorf("%s: a window", name)
		}
	}
	w, err := FindWindow(ordinaryCorner(), []Damper{good}, Smooth)
	if err != nil || w.Best != 0 || w.From != 0 || w.To != 0 {
		t.Errorf("the window of one click is %+v (%v)", w, err)
	}
	for _, click := range []int{-1, 1} {
		if _, err := w.GivesAway(click); err == nil {
			t.Errorf("click %d gives away something", click)
		}
		if _, err := w.CostsMost(click); err == nil {
			t.Errorf("click %d costs something", click)
		}
	}
}

// BenchmarkWindow is a full window: two axles, 31 positions, all surfaces. It
// fails at 100 ms on one core.
func BenchmarkWindow(b *testing.B) {
	front := ordinaryCorner()
	rear := Corner{Sprung: 220, Unsprung: 38, Wheel: 21000, Tyre: 200000, Relaxation: 0.35}
	axles := map[Corner][]Damper{front: nominals(b, front, 30), rear: nominals(b, rear, 30)}
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		for corner, dampers := range axles {
			if _, err := FindWindows(corner, dampers, Surfaces[:]...); err != nil {
				b.Fatal(err)
			}
		}
	}
	tuningtest.AtMost(b, before, 100*time.Millisecond)
}
