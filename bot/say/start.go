package say

import (
	"strings"

	"detent/tuning"
)

// startRules are the sentences of the rules that shape a start; AXLE is the axle.
var startRules = map[tuning.StartRule]string{
	tuning.StartSoft:       "Starts soft: just below the middle of each range.",
	tuning.StartDriven:     "The driven AXLE is one step softer, to find grip.",
	tuning.StartMostTorque: "The AXLE takes most of the torque: one click softer.",
	tuning.StartWet:        "Wet: one step softer everywhere.",
	tuning.StartDownforce:  "Slicks with real downforce: one step stiffer everywhere.",
	tuning.StartRoad:       "Also driven on the road: bump one click softer.",
}

// StartReasons say why a car starts where it does.
func StartReasons(reasons []tuning.StartReason) []string {
	return sentences(reasons, func(r tuning.StartReason) string {
		return strings.ReplaceAll(startRules[r.Rule], "AXLE", r.Axle.String())
	})
}
