package learn_test

import (
	"fmt"
	"time"

	"detent/tuning"
	"detent/tuning/learn"
)

// Two changes for one complaint, and what the driver said after each.
func Example() {
	now := time.Date(2026, 6, 1, 15, 0, 0, 0, time.UTC)
	damper := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	damper.Range[tuning.Bump], damper.Range[tuning.Rebound] = 24, 24
	car := tuning.Car{ID: 1, Owner: "sam", Drive: tuning.FrontDrive, Dampers: [tuning.Axles]tuning.Damper{damper, damper}}
	pushes := tuning.Complaint{What: tuning.Understeer, Where: tuning.Entry}
	stiffer := func(id int64, from int) learn.Changed {
		return learn.Changed{Kind: tuning.TurnClicks, Change: tuning.Change{ID: id, Reason: tuning.ByRemedy, Complaint: &pushes, Moves: []tuning.Move{
			{Corner: tuning.RL, Adjuster: tuning.Rebound, From: from, To: from + 3},
			{Corner: tuning.RR, Adjuster: tuning.Rebound, From: from, To: from + 3},
		}}}
	}
	felt := func(id int64, entry int, better tuning.Better) learn.Felt {
		return learn.Felt{Feel: tuning.Feel{ID: id, At: now, Grip: 6, Entry: &entry, Better: better}}
	}
	record := learn.Record{Car: car, Sizes: tuning.DefaultSizes, Entries: []learn.Entry{
		felt(1, -2, ""), stiffer(2, 8), felt(3, -1, tuning.BetterYes), stiffer(4, 11), felt(5, -1, tuning.BetterSame),
	}}
	sums := learn.SumsOf(record.Tries(), record.Refits(), now)
	for i, key := range tuning.RecipesFor(car, pushes, tuning.History{}) {
		estimate := learn.EstimateOf(sums[key], learn.ClubOf(i == 0, nil))
		low, high := estimate.Interval90()
		fmt.Printf("%s %s %s: helped %d of %d, %.2f marks, %.2f to %.2f\n",
			key.Part, key.Job, key.Turn, sums[key].Helped, sums[key].Tries, estimate.Mean, low, high)
	}
	// Output:
	// rear rebound stiffer: helped 1 of 2, 0.49 marks, -0.13 to 1.11
	// front rebound softer: helped 0 of 0, 0.30 marks, -0.55 to 1.15
}
