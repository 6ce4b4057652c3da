package say

import "detent/tuning"

// Complaint names a complaint: "understeer on exit", "sinks at the rear".
func Complaint(c tuning.Complaint) string {
	words := c.What.Short()
	switch {
	case !c.What.SplitsByPlace():
	case c.Where == tuning.Mid:
		words += " in mid-corner"
	case c.Where != tuning.Anywhere:
		words += " on " + string(c.Where)
	}
	if c.Axle != nil {
		words += " at the " + c.Axle.String()
	}
	return words
}
