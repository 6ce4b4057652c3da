package say

import (
	"testing"
	"time"

	"detent/tuning"
)

func TestWhatChanged(t *testing.T) {
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard, Range: [tuning.Adjusters]int{tuning.Bump: 20, tuning.Rebound: 20}}
	car := tuning.Car{Dampers: [tuning.Axles]tuning.Damper{d, d}}
	move := func(c tuning.Corner, a tuning.Adjuster, from, to int) tuning.Move {
		return tuning.Move{Corner: c, Adjuster: a, From: from, To: to}
	}
	for _, c := range []struct {
		moves []tuning.Move
		want  string
	}{
		{[]tuning.Move{move(tuning.FL, tuning.Rebound, 10, 12), move(tuning.FR, tuning.Rebound, 10, 12)},
			"set the front rebound from 10 to 8 from hard"},
		{[]tuning.Move{move(tuning.FL, tuning.Rebound, 10, 12), move(tuning.FR, tuning.Rebound, 9, 12)},
			"set the FL rebound from 10 to 8 from hard and the FR rebound from 11 to 8 from hard"},
		{[]tuning.Move{move(tuning.FL, tuning.Bump, 1, 0), move(tuning.RL, tuning.Bump, 1, 0), move(tuning.RR, tuning.Bump, 1, 0),
			move(tuning.RR, tuning.Rebound, 1, 0)},
			"set the FL bump from 19 to 20 from hard, the rear bump from 19 to 20 from hard and 1 more"},
	} {
		if got := whatChanged(tuning.Change{Reason: tuning.ByHand, Moves: c.moves}, car); got != c.want {
			t.Errorf("it %q, want %q", got, c.want)
		}
	}
	if got := whatChanged(tuning.Change{Reason: tuning.ByFitting}, car); got != "fitted other dampers" {
		t.Errorf("a fitting %q", got)
	}
}

func TestAgo(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "a moment ago", 119 * time.Second: "a moment ago", 2 * time.Minute: "2 minutes ago", 119 * time.Minute: "119 minutes ago",
		2 * time.Hour: "2 hours ago", 47 * time.Hour: "47 hours ago", 48 * time.Hour: "2 days ago",
	} {
		if got := ago(d); got != want {
			t.Errorf("%v is %q, want %q", d, got, want)
		}
	}
}

func TestOvertakenSaysWho(t *testing.T) {
	for want, o := range map[string]tuning.Overtaken{
		"You fitted other dampers a moment ago: look with /clicks show and ask again.":     {Logged: tuning.Logged{ByName: "Sam"}, Own: true},
		"Sam fitted other dampers 3 minutes ago: look with /clicks show and ask again.":    {Logged: tuning.Logged{ByName: "Sam"}, Ago: 3 * time.Minute},
		"Someone fitted other dampers a moment ago: look with /clicks show and ask again.": {},
	} {
		o.Logged.Change.Reason = tuning.ByFitting
		if got := overtaken(o); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
