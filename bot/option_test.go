package bot

import (
	"errors"
	"strings"
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/unit"
)

func TestWhatHurriedPeopleTypeIsRead(t *testing.T) {
	choice := func(choices ...string) Option { return Option{Name: "x", Kind: Choice, Choices: choices} }
	ways, stops, places := choice(tuning.WaysWords...), choice("hard", "soft"), choice("entry", "mid", "exit")
	what := Option{Name: "what", Kind: Choice, Choices: []string{"oversteer", "understeer", "packs-down"}}
	mass := Option{Name: "mass", Kind: Quantity, Of: unit.OfMass}
	for _, tt := range []struct {
		option Option
		typed  string
		want   any
	}{
		{ways, "2way", "two"}, {ways, "2-way", "two"}, {ways, "two way", "two"}, {ways, "Two-Way", "two"}, {ways, "two", "two"}, {ways, "4", "four"},
		{stops, "from hard", "hard"}, {stops, "hard", "hard"}, {stops, "From Soft", "soft"},
		{places, "corner exit", "exit"}, {places, "on entry", "entry"}, {places, "mid corner", "mid"}, {places, "mid-corner", "mid"}, {places, "in the mid", "mid"},
		{what, "pushes wide", "understeer"}, {what, "Comes round", "oversteer"}, {what, "sinks lower over a run of bumps", "packs-down"},
		{choice("FL", "front"), "lf", "FL"}, {choice("FL", "front"), "at the front", "front"},
		{mass, "1,25t", 1250.0}, {Option{Name: "r", Kind: Quantity, Of: unit.OfRatio}, "0,95", 0.95},
		{Option{Name: "lap", Kind: Lap}, "1:23,4", 83*time.Second + 400*time.Millisecond},
		{Option{Name: "l", Kind: Length}, "1 h 30 min", 90 * time.Minute}, {Option{Name: "l", Kind: Length}, "3 h", 3 * time.Hour},
	} {
		if got, err := tt.option.decode(tt.typed, false); err != nil || got != tt.want {
			t.Errorf("%s:%q is read as %v, %v", tt.option.Name, tt.typed, got, err)
		}
	}
	for _, typed := range []string{"way", "from", "corner", "-", ""} {
		if got, err := ways.decode(typed, false); err == nil {
			t.Errorf("%q is read as %v", typed, got)
		}
	}
	_, err := mass.decode("1,250kg", false)
	var ambiguous *unit.Ambiguous
	if tuning.KindOf(err) != tuning.Invalid || !errors.As(err, &ambiguous) || ambiguous.Thousands != "1250kg" {
		t.Errorf("1,250kg is refused with %v", err)
	}
}

func TestAFaultIsNoChoice(t *testing.T) {
	what := Option{Name: "what", Kind: Choice, Choices: []string{"oversteer", "hops"}}
	for typed, want := range map[string]string{
		"leaking":              `"leaking" points to a fault, not a set-up`,
		"knocking at the rear": `"knocking" points to a fault, not a set-up`,
		"leaking time":         `what cannot be "leaking time"`,
	} {
		if _, err := what.decode(typed, false); tuning.KindOf(err) != tuning.Invalid || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", typed, err, want)
		}
	}
}
