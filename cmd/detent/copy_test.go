package main

import (
	"strings"
	"testing"
)

// TestCopyKeepsTheHours plans the same hours on a day of other clocks: Spring
// day runs from nine to five in Berlin's summer time.
func TestCopyKeepsTheHours(t *testing.T) {
	robin, olga := seasonPaddock(t)
	olga.does(`/event edit name:"Spring day" ends:"2026-05-17 16:00" weather:either limit:20`)
	robin.does(`/event enter`)
	over := olga.does(`/event copy name:"Spring day" starts:"2026-10-24 09:00" as:Autumn`) // the clocks go back in the night
	if over.Text != "Sat 24 Oct 2026, 09:00 to Sun 25 Oct 2026, 16:00, Windy Hill, bumpy, dry or wet, 20 places." {
		t.Errorf("planned is %q", over.Text)
	}
	if shown := robin.does(`/event show name:Autumn`); !strings.Contains(shown.Text, "No car is in yet") {
		t.Errorf("somebody is in the copy: %s", shown.Text)
	}
	named := olga.does(`/event copy name:"spring day" starts:"2026-06-13 09:00"`)
	if named.Title != "Spring day 13 Jun is planned" || len(named.Notes) == 0 {
		t.Errorf("%q, %q", named.Title, named.Notes)
	}
	n := due(t, "Robin")
	robin.does(`/event enter name:"Spring day 13 Jun"`)
	if after := due(t, "Robin"); after != n+3 {
		t.Errorf("%d messages are due of the copy, want 3 as of any event", after-n)
	}
	olga.refuses("conflict", "An event called Autumn is planned already", `/event copy name:"Spring day" starts:"2026-07-11 09:00" as:autumn`)
	olga.refuses("conflict", "An event called Spring day 13 Jun is planned already", `/event copy name:"Spring day" starts:"2026-06-13 09:00"`)
	olga.refuses("conflict", "Autumn runs at that time", `/event copy name:"Spring day" starts:"2026-10-25 09:00" as:Winter`)
	olga.refuses("invalid", "is in the past", `/event copy name:"Spring day" starts:"2026-05-01 09:00"`)
	olga.refuses("not-found", "no event called", `/event copy name:Winter starts:"2026-12-01 09:00"`)
	robin.refuses("forbidden", "organisers", `/event copy name:"Spring day" starts:"2026-07-11 09:00"`)
	olga.does(`/event cancel name:"Spring day"`) // one that was rained off is planned again under its name
	if again := olga.does(`/event copy name:#1 starts:"2026-07-11 09:00"`); again.Title != "Spring day is planned" {
		t.Errorf("%q, %q", again.Title, again.Notes)
	}
}
