package learn

import (
	"slices"
	"testing"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

// knowing is what a car knows that has answered for both remedies against
// understeer: the first brought nothing, the second helped.
func knowing() Knowledge {
	keys := tuning.RecipesFor(hatch, pushy, tuning.History{})
	first, second := firstAndSecond()
	return Knowledge{Car: hatch, Complaint: pushy, Sizes: tuning.DefaultSizes,
		Evidence: Evidence{Own: map[Key]Sums{keys[0]: sumOf(first), keys[1]: sumOf(second)}}}
}

func standing(position int) tuning.Setting {
	var at tuning.Setting
	for c := range at {
		at[c][tuning.Bump], at[c][tuning.Rebound] = position, position
	}
	return at
}

func advise(t *testing.T, k Knowledge, at tuning.Setting, h tuning.History) tuning.Advice {
	t.Helper()
	h.Prefer = k.Prefer
	advice, err := tuning.Advise(k.Car, at, k.Complaint, h, k.Sizes)
	if err != nil {
		t.Fatal(err)
	}
	return advice
}

func TestTheRecordOrdersTheAdvice(t *testing.T) {
	k := knowing()
	front := func(r tuning.Remedy) bool { return r.Moves[0].Corner == tuning.FL }
	if remedies := advise(t, k, standing(11), tuning.History{}).Remedies; !front(remedies[0]) || front(remedies[1]) {
		t.Errorf("the remedies are %+v", remedies)
	}
	// What is left of it decides: one click of three is a third of the effect.
	k.Own[tuning.RecipesFor(hatch, pushy, tuning.History{})[0]] = sumOf(at(now, answered(0, 1, tuning.BetterYes)))
	if remedies := advise(t, k, standing(1), tuning.History{}).Remedies; front(remedies[0]) {
		t.Errorf("with one click left the remedies are %+v", remedies)
	}
	if order := (Knowledge{Car: hatch, Complaint: pushy, Sizes: tuning.DefaultSizes}).Prefer(advise(t, k, standing(11), tuning.History{}).Remedies); !slices.IsSorted(order) {
		t.Errorf("with nothing learned the order is %v", order)
	}
}

func TestWhatIsKnownOfARemedy(t *testing.T) {
	k := knowing()
	keys := tuning.RecipesFor(hatch, pushy, tuning.History{})
	_, others := fiveTries()
	k.Others = map[Key]Others{keys[0]: OthersOf("sam", []CarTries{{"ann", sumOf(others[0])}, {"ben", sumOf(others[1])}, {"cat", sumOf(others[1])}})}
	rear := tuning.Remedy{Kind: tuning.TurnClicks, Moves: moves(tuning.Rear, tuning.Rebound, 22, 24)}
	got, ok := k.Of(rear)
	want := EstimateOf(k.Own[keys[0]], ClubOf(true, []Sums{sumOf(others[0]), sumOf(others[1]), sumOf(others[1])})).Shrunk(2.0 / 3)
	if !ok || got.Own != k.Own[keys[0]] || got.Club != (ClubTries{3, 4, 1}) {
		t.Errorf("known is %+v, %v", got, ok)
	}
	tuningtest.Within(t, "mean", got.Estimate.Mean, want.Mean, 1e-15)
	tuningtest.Within(t, "variance", got.Estimate.Variance, want.Variance, 1e-15)
	told, ok := k.Tell(rear)
	if !ok || told.Tries != 3 || told.Helped != 0 || told.Club.Cars != 3 || told.Turns[0].Clicks != 2 {
		t.Errorf("told is %+v, %v", told, ok)
	}
	// The second remedy has the smaller expectation of the table.
	second, _ := k.Of(tuning.Remedy{Kind: tuning.TurnClicks, Moves: moves(tuning.Front, tuning.Rebound, 11, 8)})
	tuningtest.Within(t, "mean of the second", second.Estimate.Mean, 0.527908937605396, 1e-12)
	for _, r := range []tuning.Remedy{
		{Kind: tuning.ReturnBaseline, Moves: rear.Moves},
		{Kind: tuning.TurnClicks, Moves: moves(tuning.Rear, tuning.Bump, 5, 8)},
	} {
		if _, ok := k.Of(r); ok {
			t.Errorf("%+v is a remedy of the row", r)
		}
		if order := k.Prefer([]tuning.Remedy{rear, r}); !slices.IsSorted(order) {
			t.Errorf("the order is %v", order)
		}
		if _, ok := k.Tell(r); ok {
			t.Errorf("something is told of %+v", r)
		}
	}
}
