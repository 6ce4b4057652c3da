package reading

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"detent/tuning"
)

func TestPositionMoves(t *testing.T) {
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 30, 30
	c := tuning.Case{Car: tuning.Car{Name: "Blue hatch", Dampers: [tuning.Axles]tuning.Damper{d, d}}}
	for corner := range c.Setting {
		c.Setting[corner][tuning.Rebound] = 14
	}
	got, err := PositionOptions{At: "rear", Adjuster: "rebound", To: "20"}.Moves(c)
	want := []tuning.Move{ // 20 from hard is 10 from soft
		{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 14, To: 10}, {Corner: tuning.RR, Adjuster: tuning.Rebound, From: 14, To: 10}}
	if diff := cmp.Diff(want, got); diff != "" || err != nil {
		t.Errorf("%v %s", err, diff)
	}
	for name, o := range map[string]PositionOptions{"a position beyond the stop": {At: "FL", Adjuster: "bump", To: "31"}, "an adjuster it lacks": {At: "FL", Adjuster: "low-bump", To: "3"}} {
		if _, err := o.Moves(c); tuning.KindOf(err) != tuning.Invalid {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := (PositionOptions{At: "FL", Adjuster: "bump"}).Moves(tuning.Case{}); tuning.KindOf(err) != tuning.Invalid {
		t.Errorf("without dampers: %v", err)
	}
	for word, want := range map[AxleWord]*tuning.Axle{"": nil, "front": new(tuning.Axle), "rear": rear()} {
		if diff := cmp.Diff(want, word.Axle()); diff != "" {
			t.Errorf("%q: %s", word, diff)
		}
	}
}

func rear() *tuning.Axle { axle := tuning.Rear; return &axle }

func TestPlacesAreReadAsTheyAreSaid(t *testing.T) {
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Rebound] = 30
	for text, want := range map[string]int{"12": 18, "12 from hard": 18, "12 hard": 18, "14 soft": 14, "14 from soft": 14, "14 clicks from soft": 14, " 0 ": 30, "12 From Hard": 18, "12hard": 18} {
		if got, err := readPlace(d, tuning.Rebound, text); err != nil || got != want {
			t.Errorf("%q is read as %d from soft, %v", text, got, err)
		}
	}
	for position := range 31 { // what is shown can be read
		if got, err := readPlace(d, tuning.Rebound, d.Shown(tuning.Rebound, position)); err != nil || got != position {
			t.Errorf("%s is read as %d, %v", d.Shown(tuning.Rebound, position), got, err)
		}
	}
	for _, text := range []string{"", "hard", "-3", "31", "12 from left", "1 2", "12 from hard or soft", "99999999999999999999"} {
		if got, err := readPlace(d, tuning.Rebound, text); tuning.KindOf(err) != tuning.Invalid {
			t.Errorf("%q is read as %d, %v", text, got, err)
		}
	}
}
