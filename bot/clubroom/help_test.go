package clubroom

import (
	"slices"
	"strings"
	"testing"

	"detent/tuning"
)

func TestHelp(t *testing.T) {
	_, olga, robin := newMinutes(t)
	lists := func(lines []string) bool {
		return slices.ContainsFunc(lines, func(l string) bool { return strings.HasPrefix(l, "/club set:") })
	}
	if all := robin.Does(`/help`); lists(all.Notes) || !lists(olga.Does(`/help`).Notes) {
		t.Errorf("a member is shown what is for organisers, or they are not:\n%s", strings.Join(all.Notes, "\n"))
	}
	one := robin.Does(`/help me set`)
	if one.Title != "/me set" || one.Text != "Change your settings: /me set [units:metric|imperial] [reminders:on|off] [messages:on|off] [answers:private|shared]" || len(one.Notes) != 4 {
		t.Errorf("%q %q %q", one.Title, one.Text, one.Notes)
	}
	if group := robin.Does(`/help command:/me`); len(group.Notes) != 8 {
		t.Errorf("%q", group.Notes)
	}
	robin.Refused(tuning.Invalid, "did you mean privacy?", `/help privcy`)
}
