package say

import (
	"testing"

	"detent/tuning"
	"detent/tuning/learn"
)

func TestLearned(t *testing.T) {
	d := tuning.Damper{Ways: 2}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 24, 24
	car := tuning.Car{Dampers: [tuning.Axles]tuning.Damper{d, {Ways: 1, Moves: tuning.MovesBoth}}}
	rear := []learn.Turned{{Axle: tuning.Front, Adjuster: tuning.Rebound, Clicks: 3, Turn: tuning.Stiffer}}
	one := []learn.Turned{{Axle: tuning.Rear, Adjuster: tuning.Rebound, Clicks: 1, Turn: tuning.Softer}}
	both := []learn.Turned{rear[0], one[0]}
	for _, tt := range []struct {
		told learn.Told
		want string
	}{
		{learn.Told{Turns: rear, Tries: 5, Helped: 4, Mean: 0.5, Half: 0.5}, "On your car 3 clicks of front rebound helped 4 of 5 times: about half a mark better, give or take half."},
		{learn.Told{Turns: one, Tries: 1, Helped: 1, Mean: 1, Half: 1}, "On your car 1 click of rear one-way adjuster helped 1 of 1 time: about one mark better, give or take one."},
		{learn.Told{Turns: both, Tries: 2, Mean: -1.5, Half: 1.5}, "On your car 3 clicks of front rebound and 1 of rear one-way adjuster have not helped in 2 tries: about one and a half marks worse, give or take one and a half."},
		{learn.Told{Turns: one, Tries: 1, Mean: 0.5, Half: 1}, "On your car 1 click of rear one-way adjuster has not helped in 1 try; I still expect about half a mark better, give or take one."},
		{learn.Told{Turns: rear, Tries: 2, Half: 0.5, Hardly: true}, "On your car 3 clicks of front rebound have not helped in 2 tries: hardly anything, give or take half a mark."},
		{learn.Told{Turns: rear, Tries: 4, Helped: 1, Half: 0.5, Hardly: true}, "On your car 3 clicks of front rebound helped 1 of 4 times: hardly anything, give or take half a mark."},
		{learn.Told{Turns: rear, Tries: 40, Helped: 40, Mean: 2, Half: 0}, "On your car 3 clicks of front rebound helped 40 of 40 times: about two marks better, give or take a quarter."},
		{learn.Told{Turns: rear, Club: learn.ClubTries{Cars: 3, Tries: 9, Helped: 7}, Mean: 0.5, Half: 1}, "Nothing tried on your car yet; in this club it helped 7 of 9 times."},
		{learn.Told{Turns: rear, Club: learn.ClubTries{Cars: 3, Tries: 3}, Mean: 0.5, Half: 1}, "Nothing tried on your car yet; in this club it has not helped in 3 tries."},
		{learn.Told{Turns: rear, Mean: 0.5, Half: 1}, "Nothing tried on your car yet."},
	} {
		if got := Learned(car, tt.told, "your"); got != tt.want {
			t.Errorf("%+v is said as\n%q, want\n%q", tt.told, got, tt.want)
		}
	}
	if got := LearnedOrder(car, learn.Told{Turns: rear, Tries: 3, Helped: 0, Half: 0.5, Hardly: true}); got != "Your own order: front rebound has not helped in 3 tries." {
		t.Errorf("%q", got)
	}
}

// The line of an answer that says why the order is the car's own has at most 88
// characters.
func TestLearnedOrderIsOneLine(t *testing.T) {
	d := tuning.Damper{Ways: 4}
	car := tuning.Car{Dampers: [tuning.Axles]tuning.Damper{d, d}}
	for _, told := range []learn.Told{
		{Turns: []learn.Turned{{Axle: tuning.Front, Adjuster: tuning.HighRebound, Clicks: 3}}, Tries: 10, Helped: 9, Mean: 0.5},
		{Turns: []learn.Turned{{Axle: tuning.Front, Adjuster: tuning.LowRebound, Clicks: 3}}, Tries: 5, Helped: 4, Mean: 1},
	} {
		if line := LearnedOrder(car, told); len(line) > 88 {
			t.Errorf("%d characters: %s", len(line), line)
		}
	}
}

func TestEffectName(t *testing.T) {
	rear := tuning.Rear
	key := learn.Key{Row: tuning.RowKey{What: tuning.PacksDown}, Part: tuning.RearPart, Job: tuning.AnyRebound, Turn: tuning.Softer}
	e := learn.Effect{Key: key, Complaint: tuning.Complaint{What: tuning.PacksDown, Axle: &rear}}
	if got := EffectName(tuning.Car{}, e); got != "sinks over bumps at the rear: rear rebound softer" {
		t.Errorf("without the damper it is %q", got)
	}
	key = learn.Key{Row: tuning.RowKey{What: tuning.Hops}, Part: tuning.WholeCar, Job: tuning.AnyBump, Turn: tuning.Softer}
	e = learn.Effect{Key: key, Complaint: tuning.Complaint{What: tuning.Hops}}
	d := tuning.Damper{Ways: 2}
	e.Told.Turns = []learn.Turned{{Axle: tuning.Front, Adjuster: tuning.Bump, Clicks: 2, Turn: tuning.Softer}, {Axle: tuning.Rear, Adjuster: tuning.Bump, Clicks: 1, Turn: tuning.Softer}}
	if got := EffectName(tuning.Car{Dampers: [tuning.Axles]tuning.Damper{d, d}}, e); got != "hops over bumps: front and rear bump 2 and 1 softer" {
		t.Errorf("it is %q", got)
	}
	if got := Recipe(key); got != "bump softer all round" {
		t.Errorf("it is %q", got)
	}
}
