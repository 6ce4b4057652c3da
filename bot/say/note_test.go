package say

import (
	"slices"
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

func TestNotes(t *testing.T) {
	two, one := tuning.Damper{Ways: 2}, tuning.Damper{Ways: 1, Moves: tuning.MovesBoth}
	car := tuning.Car{Dampers: [tuning.Axles]tuning.Damper{one, two}}
	facts := []tuning.Fact{
		{Kind: tuning.NoClicks},
		{Kind: tuning.ReadAs, Where: tuning.Exit},
		{Kind: tuning.TwoTries},
		{Kind: tuning.MoveTogether, Part: tuning.WholeCar},
		{Kind: tuning.MoveTogether, Part: tuning.FrontPart},
		{Kind: tuning.AtStop, Part: tuning.FrontPart, Adjuster: tuning.Rebound, Turn: tuning.Stiffer},
		{Kind: tuning.AtStop, Part: tuning.WholeCar, Axle: tuning.Rear, Adjuster: tuning.Bump, Turn: tuning.Softer},
		{Kind: tuning.AtStop, Part: tuning.WholeCar, Adjuster: tuning.Rebound, Job: tuning.AnyBump, Turn: tuning.Softer},
		{Kind: tuning.StaysAtStop, Part: tuning.RearPart, Adjuster: tuning.Bump, Turn: tuning.Softer},
		{Kind: tuning.NearStop, Part: tuning.RearPart, Adjuster: tuning.Rebound, Turn: tuning.Stiffer, Clicks: 1},
		{Kind: tuning.NearStop, Part: tuning.WholeCar, Turn: tuning.Softer, Clicks: 2},
		{Kind: tuning.NoneForJob, Axle: tuning.Rear, Job: tuning.FastRebound},
	}
	want := []string{
		"No click answers this: go through the checks.",
		"I read this as happening on exit, where it belongs.",
		"Two tries in that direction brought no gain: stop turning clicks for this and go through the checks.",
		"The one-way adjusters move bump and rebound together: expect both to change.",
		"The front one-way adjuster moves bump and rebound together: expect both to change.",
		"The front one-way adjuster is at its hard stop already, so that remedy is left out.",
		"The bump is at its soft stop already, so that remedy is left out.",
		"The bump is at its soft stop already, so that remedy is left out.",
		"The rear bump is at its soft stop already and stays.",
		"The rear rebound is near its hard stop: that remedy is only the 1 left.",
		"A corner is near its soft stop: that remedy is only the 2 left, the same at all four.",
		"The rear damper has no adjuster for high-speed rebound.",
	}
	if got := Facts(car, facts, time.UTC); !slices.Equal(got, want) {
		t.Errorf("the notes are said as\n%q, want\n%q", got, want)
	}
}

// Each fact has a sentence, but for the one that LearnedOrder says.
func TestEachFactIsSaid(t *testing.T) {
	for _, kind := range tuningtest.ConstantsOf[tuning.FactKind](t, "../../tuning") {
		said := sayFact(tuning.Car{}, tuning.Fact{Kind: kind}, time.UTC)
		if (said == "") != (kind == tuning.OrderOfRecord) {
			t.Errorf("%q is said as %q", kind, said)
		}
	}
}
