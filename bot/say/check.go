package say

import "detent/tuning"

// checks are what to look at before any click, as points of a list.
var checks = map[tuning.Check]string{
	tuning.CheckPressures: "Hot tyre pressures",
	tuning.CheckTyres:     "Tyre age and wear",
	tuning.CheckAlignment: "Alignment, ride height and corner weights",
	tuning.CheckBars:      "Anti-roll bars; worn bushes",
	tuning.CheckDampers:   "Dampers: no leak, no knock; bump-stop and droop travel free",
	tuning.CheckSides:     "Left and right on the same click, counted gently from the stop",

	tuning.CheckTravel: "Bump-stop, ride height and spring come before any click",
	tuning.CheckLoaded: "Tyres, pressures and corner weights of the loaded side: no click first, left and right stay equal",
	tuning.CheckMiddle: "If anything stands above its middle, back to the start",
}

// Check is a point of the list of what to look at before any click.
func Check(c tuning.Check) string { return sentence(checks, c) }

// Checks are those points.
func Checks(list []tuning.Check) []string { return sentences(list, Check) }
