package main

import (
	"strings"
	"testing"
	"time"

	"detent/tuning"
)

// The line about the checks stands in one message an event, whatever it answers,
// and again once a change did not help; --json has the list with each answer
// until a complaint was answered.
func TestTheChecksAreShownOnceAnEvent(t *testing.T) {
	c := newCrowd(t)
	c.does(line{"Olga", tuning.OrganiserRole, `/event add name:"Spring day" starts:"2026-05-16 11:00" ends:"2026-05-16 17:00"`})
	c.does(line{"Olga", tuning.OrganiserRole, `/event add name:"Late day" starts:"2026-05-17 09:00" ends:"2026-05-17 17:00"`})
	const shown = "Checks first today: pressures, tyres, leaks."
	ask := func(text, wantLine string, wantButton, wantFirst bool) {
		t.Helper()
		c.at = c.at.Add(time.Minute)
		r := c.does(line{who: "Robin", text: text})
		button := false
		for _, a := range r.Actions {
			button = button || a.Label == "Checks"
		}
		said := r.Message().Line
		if !strings.HasPrefix(said, wantLine) || wantLine == "" && said == shown || button != wantButton || len(r.First) > 0 != wantFirst {
			t.Errorf("%s: the line is %q, want %q; the button %v; first %q", text, said, wantLine, button, r.First)
		}
	}
	c.does(line{who: "Robin", text: `/car add name:"Blue hatch" drive:front engine:front`})
	c.does(line{who: "Robin", text: `/event enter name:"Spring day"`})
	c.does(line{who: "Robin", text: `/event enter name:"Late day"`})
	ask(`/damper fit axle:both ways:two clicks:30 count:hard`, shown, true, true)
	ask(`/baseline`, "", false, true)
	c.does(line{who: "Robin", text: `/apply`})
	ask(`/symptom what:understeer where:entry`, "", false, true)
	ask(`/symptom what:understeer where:entry`, "", false, false)
	c.does(line{who: "Robin", text: `/apply`})
	c.does(line{who: "Robin", text: `/feel grip:6 entry:-1 better:same`})
	ask(`/symptom what:oversteer where:exit`, "The last change did not help", true, true)

	c.at = c.at.AddDate(0, 0, 1)
	c.does(line{who: "Robin", text: `/feel grip:6 entry:-1 better:yes`})
	ask(`/sweep start`, shown, true, true)
	ask(`/symptom what:hops`, "", false, true)

	c.at = c.at.AddDate(0, 0, 7) // at no event
	ask(`/symptom what:hops`, shown, true, true)
	ask(`/baseline`, "", false, false)
}
