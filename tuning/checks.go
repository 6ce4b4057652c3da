package tuning

// Checks are what to look at before anyone touches a damper.
// Common practice, no published source.
var Checks = []string{
	"Hot tyre pressures",
	"Tyre age and wear",
	"Alignment, ride height and corner weights",
	"Anti-roll bars; worn bushes",
	"Dampers: no leak, no knock; bump-stop and droop travel free",
	"Left and right on the same click, counted gently from the stop",
}

// notClicks are the checks that come before a click for some complaints.
var notClicks = map[What]string{
	Bottoms:  "Bump-stop, ride height and spring come before any click",
	OneSided: "Tyres, pressures and corner weights of the loaded side: no click first, left and right stay equal",
}

// BeforeClicks is what comes before any click for a complaint, "" for nothing.
func (w What) BeforeClicks() string { return notClicks[w] }

// check adds the checks: those of the complaint always, the general list once
// an event, whenever a fix did not work, and when no remedy is left.
func (j *judge) check() {
	var first []string
	if before := j.complaint.What.BeforeClicks(); before != "" {
		first = append(first, before)
	}
	if j.history.ChecksDue || j.lastFixFailed() || len(j.advice.Remedies) == 0 {
		first = append(first, Checks...)
	}
	j.advice.First = first
	if len(j.advice.Remedies) == 0 && len(j.advice.Notes) == 0 && !j.advice.Tells(FaultTold) {
		j.note("No click answers this: go through the checks.")
	}
}

// lastFixFailed tells whether the newest change was felt as no better, or took
// back one that was.
func (j *judge) lastFixFailed() bool {
	if len(j.history.Changes) == 0 {
		return false
	}
	last := j.history.Changes[0]
	for _, c := range j.history.Changes {
		if last.Reason == ByUndo && last.Felt == "" && c.ID == last.Undoes {
			last = c
		}
	}
	return last.Felt == BetterNo || last.Felt == BetterSame
}
