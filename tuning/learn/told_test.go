package learn

import (
	"slices"
	"testing"

	"detent/tuning"
)

func TestTold(t *testing.T) {
	rear := []tuning.Move{{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 5, To: 8}, {Corner: tuning.RR, Adjuster: tuning.Rebound, From: 5, To: 8}}
	tries, clubTries := fiveTries()
	own := sumOf(tries)
	got := Tell(rear, EstimateOf(own, ClubOf(true, sumsOf(clubTries))), own, ClubTries{})
	if !slices.Equal(got.Turns, []Turned{{tuning.Rear, tuning.Rebound, 3, tuning.Stiffer}}) ||
		got.Tries != 5 || got.Helped != 4 || got.Mean != 0.5 || got.Half != 0.5 || got.Hardly || got.Club != (ClubTries{}) {
		t.Errorf("told as %+v", got)
	}
	for _, tt := range []struct {
		mean, variance float64
		want, half     float64
		hardly         bool
	}{
		{0.24, 0.1, 0, 0.5, true}, {0.25, 0.1, 0.5, 0.5, false}, {-0.24, 0.1, 0, 0.5, true}, {-0.3, 0.1, -0.5, 0.5, false},
		{0.74, 0.265, 0.5, 1, false}, {0.76, 0.2, 1, 0.5, false}, {1.6, 0.01, 1.5, 0, false},
	} {
		got := Tell(rear, Estimate{tt.mean, tt.variance}, Sums{}, ClubTries{})
		if got.Mean != tt.want || got.Half != tt.half || got.Hardly != tt.hardly {
			t.Errorf("%g ± from %g is told as %g ± %g, hardly %v", tt.mean, tt.variance, got.Mean, got.Half, got.Hardly)
		}
	}
	both := append(slices.Clone(rear), tuning.Move{Corner: tuning.FL, Adjuster: tuning.Rebound, From: 3, To: 5}, tuning.Move{Corner: tuning.FR, Adjuster: tuning.Rebound, From: 3, To: 3})
	if got := Tell(both, Estimate{1, 1}, Sums{}, ClubTries{}).Turns; len(got) != 2 || got[1].Axle != tuning.Front || got[1].Clicks != 2 {
		t.Errorf("both axles turn %+v", got)
	}
}

func TestTheClubIsToldOfOnlyFromThreeCarsOfThreePeople(t *testing.T) {
	sums := func(tries, helped int) Sums { return Sums{Tries: tries, Helped: helped} }
	for _, tt := range []struct {
		name string
		cars []CarTries
		want ClubTries
	}{
		{"nobody", nil, ClubTries{}},
		{"three cars of three people", []CarTries{{"b", sums(3, 2)}, {"c", sums(2, 2)}, {"d", sums(4, 3)}}, ClubTries{3, 9, 7}},
		{"two cars", []CarTries{{"b", sums(3, 2)}, {"c", sums(2, 2)}}, ClubTries{}},
		{"three cars of two people", []CarTries{{"b", sums(3, 2)}, {"c", sums(2, 2)}, {"c", sums(4, 3)}}, ClubTries{}},
		{"one's own other car is no third", []CarTries{{"b", sums(3, 2)}, {"c", sums(2, 2)}, {"me", sums(4, 3)}}, ClubTries{}},
		{"one's own other car adds to three", []CarTries{{"b", sums(3, 2)}, {"c", sums(2, 2)}, {"d", sums(1, 0)}, {"me", sums(4, 3)}}, ClubTries{4, 10, 7}},
		{"a car without tries is no third", []CarTries{{"b", sums(3, 2)}, {"c", sums(2, 2)}, {"d", Sums{}}}, ClubTries{}},
	} {
		if got := ClubTold("me", tt.cars); got != tt.want {
			t.Errorf("%s: %+v", tt.name, got)
		}
	}
}

func TestHelps(t *testing.T) {
	for told, want := range map[*Told]bool{
		{Tries: 5, Helped: 3, Hardly: true}: true, {Tries: 1, Mean: 0.5}: false,
		{Tries: 2, Helped: 1, Mean: 0.5}: true, {Tries: 2, Helped: 1, Hardly: true, Mean: 0.2}: false, {Tries: 2, Helped: 1, Mean: -0.5}: false,
	} {
		if told.Helps() != want {
			t.Errorf("%+v helps: %v", told, !want)
		}
	}
}
