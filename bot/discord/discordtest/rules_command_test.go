package discordtest

import (
	"testing"
)

// TestWhatSuitsOptions breaks each part of the rules on what options can have.
func TestWhatSuitsOptions(t *testing.T) {
	t.Parallel()
	for what, test := range map[string]struct {
		option obj
		rule   Rule
	}{
		"completion of a channel": {with(option(7, "a"), "autocomplete", true), OptionTraits},
		"choices of a role":       {with(option(8, "a"), "choices", list{obj{"name": "x", "value": "x"}}), OptionTraits},
		"a length of a number":    {with(option(4, "a"), "max_length", 2), OptionTraits},
		"lengths":                 {with(with(option(3, "a"), "min_length", 3), "max_length", 2), OptionRange},
		"half a whole":            {with(option(4, "a"), "choices", list{obj{"name": "x", "value": 1.5}}), ChoiceType},
		"a number for a text":     {with(option(3, "a"), "choices", list{obj{"name": "x", "value": 1}}), ChoiceType},
	} {
		w := newHTTPClub(t)
		w.Expect(test.rule)
		if status, code := w.register(command(test.option)); status != 400 || code != 50035 {
			t.Errorf("%s: %d %d", what, status, code)
		}
		if broken := w.Violations(); len(broken) != 1 {
			t.Errorf("%s: %v", what, broken)
		}
	}
	w := newHTTPClub(t)
	if status, _ := w.register(command(with(with(option(10, "a"), "min_value", 1), "max_value", 1), with(option(3, "b"), "max_length", 9))); status != 200 {
		t.Errorf("ranges that suit: %d, %v", status, w.record.errors)
	}
}
