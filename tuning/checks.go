package tuning

// Check is something to look at before anyone touches a damper, without the
// words for it.
type Check string

// What there is to look at.
const (
	CheckPressures Check = "hot pressures"
	CheckTyres     Check = "tyre wear"
	CheckAlignment Check = "alignment" // and ride height and corner weights
	CheckBars      Check = "bars"      // and worn bushes
	CheckDampers   Check = "dampers"   // leaks, knocks and free travel
	CheckSides     Check = "sides"     // left and right on the same click

	CheckTravel Check = "travel"       // bump-stop, ride height and spring
	CheckLoaded Check = "loaded side"  // its tyres, pressures and corner weights
	CheckMiddle Check = "above middle" // what stands there goes back to the start
)

// Checks are what to look at before any click, whatever the complaint.
// Common practice, no published source.
var Checks = []Check{CheckPressures, CheckTyres, CheckAlignment, CheckBars, CheckDampers, CheckSides}

// notClicks are the checks that come before a click for some complaints.
var notClicks = map[What]Check{Bottoms: CheckTravel, OneSided: CheckLoaded}

// BeforeClicks is what comes before any click for a complaint, "" for nothing.
func (w What) BeforeClicks() Check { return notClicks[w] }

// addChecks adds the checks: those of the complaint always, the general list once
// an event, whenever a fix did not work, and when no remedy is left.
func (j *judge) addChecks() {
	var first []Check
	if before := j.complaint.What.BeforeClicks(); before != "" {
		first = append(first, before)
	}
	if j.history.ChecksDue || j.history.FixFailed() || len(j.advice.Remedies) == 0 {
		first = append(first, Checks...)
	}
	j.advice.First = first
	if len(j.advice.Remedies) == 0 && len(j.advice.Notes) == 0 && !j.advice.Tells(FaultTold) {
		j.note(Fact{Kind: NoClicks})
	}
}
