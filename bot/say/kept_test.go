package say

import (
	"slices"
	"strings"
	"testing"
	"time"

	"detent/tuning"
)

func TestKeptDay(t *testing.T) {
	k := tuning.Kept{Name: "Dry fast", At: time.Date(2026, 5, 16, 23, 30, 0, 0, time.UTC)}
	berlin := time.FixedZone("CEST", 2*60*60)
	if got := KeptName(k) + KeptDay(k, berlin); got != "“Dry fast”17 May 2026" {
		t.Errorf("%q", got)
	}
	k.Place, k.Weather = "Windy Hill", tuning.ItWasDamp
	if got := KeptDay(k, time.UTC); got != "16 May 2026, Windy Hill, damp" {
		t.Errorf("%q", got)
	}
	if got := KeptFelt(k, false); got != "Windy Hill, damp: not felt yet" {
		t.Errorf("%q", got)
	}
}

func TestFelt(t *testing.T) {
	exit := -1
	for want, f := range map[string]*tuning.Feel{
		"not felt yet": nil,
		"grip 7":       {Grip: 7},
		"grip 7, exit pushes wide 1, “turns in now”": {Grip: 7, Exit: &exit, Notes: "turns in now"},
	} {
		if got := FeltWith(f, false); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := Marks(&tuning.Feel{Grip: 7, Exit: &exit, Better: tuning.BetterYes, Conditions: tuning.ItWasWet, Notes: "so so"}); got != "grip 7, exit pushes wide 1" {
		t.Errorf("%q", got)
	}
	if got := FeltWith(&tuning.Feel{Grip: 7, Notes: strings.Repeat("long ", 100)}, false); len([]rune(got)) > 80 {
		t.Errorf("long notes are said whole: %q", got)
	}
}

func TestRoundings(t *testing.T) {
	damper := func(ways tuning.Ways, clicks int, count tuning.Count) (d [tuning.Axles]tuning.Damper) {
		for axle := range d {
			d[axle] = tuning.Damper{Ways: ways, Count: count}
			for _, a := range ways.Adjusters() {
				d[axle].Range[a] = clicks
			}
		}
		return d
	}
	var at tuning.Setting
	for c := range at {
		at[c] = [tuning.Adjusters]int{14, 14, 14, 14, 14, 14}
	}
	for name, tt := range map[string]struct {
		from, to [tuning.Axles]tuning.Damper
		short    string
		want     []string
	}{
		"the same": {damper(2, 30, tuning.FromHard), damper(2, 30, tuning.FromSoft), "", nil},
		"fewer clicks": {damper(2, 30, tuning.FromHard), damper(2, 16, tuning.FromHard), "front 8.53 → 9; rear 8.53 → 9", []string{
			"Front bump and rebound: 16 of 30 clicks from hard is 8.53 of 16, rounded to 9.",
			"Rear bump and rebound: 16 of 30 clicks from hard is 8.53 of 16, rounded to 9."}},
		"from soft": {damper(2, 30, tuning.FromHard), damper(2, 16, tuning.FromSoft), "front 7.47 → 7; rear 7.47 → 7", []string{
			"Front bump and rebound: 14 of 30 clicks from soft is 7.47 of 16, rounded to 7.",
			"Rear bump and rebound: 14 of 30 clicks from soft is 7.47 of 16, rounded to 7."}},
		"whole": {damper(2, 28, tuning.FromHard), damper(2, 14, tuning.FromHard), "", nil},
		"another kind": {damper(3, 28, tuning.FromHard), damper(2, 14, tuning.FromHard), "-", []string{
			"Front high-speed bump: left out, since these dampers have none.",
			"Rear high-speed bump: left out, since these dampers have none."}},
		"one way": {damper(1, 28, tuning.FromHard), damper(2, 14, tuning.FromHard), "-", []string{
			"Front bump: left where it stands, since the other dampers have none.",
			"Rear bump: left where it stands, since the other dampers have none."}},
	} {
		car := tuning.Car{Dampers: tt.to}
		_, carried := tuning.Carry(at, tt.from, car, tuning.Setting{})
		if got := Roundings(car, carried); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %q", name, got)
		}
		if short, whole := Rounded(car, carried); whole != (tt.short != "-") || whole && short != tt.short {
			t.Errorf("%s in short: %q, %v", name, short, whole)
		}
	}
	car := tuning.Car{Dampers: damper(2, 16, tuning.FromHard)}
	at[tuning.FR][tuning.Bump] = 15 // where left and right stand apart, both are said
	_, carried := tuning.Carry(at, damper(2, 28, tuning.FromHard), car, tuning.Setting{})
	if got := Roundings(car, carried); len(got) != 1 || got[0] != "Front bump: 13 of 28 clicks from hard is 7.43 of 16, rounded to 7." {
		t.Errorf("%q", got)
	}
	if short, whole := Rounded(car, carried); short != "front bump 7.43 → 7" || !whole {
		t.Errorf("%q", short)
	}
}
