package say

import (
	"testing"
	"time"

	"detent/tuning"
)

func TestStudent(t *testing.T) {
	now := time.Date(2026, time.May, 16, 9, 0, 0, 0, time.UTC)
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 30, 30
	car := tuning.Car{ID: 1, Name: "Blue hatch", Dampers: [tuning.Axles]tuning.Damper{d, d}}
	turned := tuning.Change{ID: 3, At: now.AddDate(-1, 0, 0), Moves: []tuning.Move{{Corner: tuning.FL, Adjuster: tuning.Bump, From: 3, To: 4}}}
	all := tuning.Change{ID: 3, At: now, Reason: tuning.ByBaseline}
	for corner := range tuning.Corner(tuning.Corners) {
		all.Moves = append(all.Moves, tuning.Move{Corner: corner, Adjuster: tuning.Bump, From: 3, To: 4 + int(corner)},
			tuning.Move{Corner: corner, Adjuster: tuning.Rebound, From: 3, To: 6 + int(corner)})
	}
	for _, test := range []struct {
		s    tuning.Student
		want string
	}{
		{tuning.Student{}, "No car yet."},
		{tuning.Student{Car: car}, "No feel yet."},
		{tuning.Student{Car: car, Feels: []tuning.Feel{{At: now, Grip: 5}, {At: now, Grip: 7}, {At: now, Grip: 8}}, Last: turned},
			"Grip 5 on 16 May, falling. Last change 16 May 2025: FL bump 1 stiffer."},
		{tuning.Student{Car: car, Said: tuning.Complaint{What: tuning.Hops}, SaidAt: now, Helped: true, Last: all},
			"No feel yet. Last change 16 May: 8 adjusters (start)."},
		{tuning.Student{Car: car, Said: tuning.Complaint{What: tuning.Hops}, SaidAt: now, Next: tuning.Event{ID: 1, Name: "Spring day", Starts: now}},
			"No feel yet. Hops over bumps since 16 May, not better yet. Next: Spring day, 16 May."},
	} {
		if got := Student(test.s, time.UTC, now); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}
