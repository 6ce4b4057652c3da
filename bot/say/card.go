package say

import "detent/tuning"

// CardTry says a remedy without its clicks: "front rebound slightly stiffer". It
// is a whole step where the words do not say otherwise.
func CardTry(t tuning.CardTry) string {
	part := map[tuning.Part]string{tuning.FrontPart: "front", tuning.RearPart: "rear", tuning.WholeCar: "all four", "": "that end's"}[t.Part]
	turn := string(t.Turn)
	switch {
	case t.Far == tuning.FarSlight:
		turn = "slightly " + turn
	case t.Far == tuning.FarBackOff:
		turn += " by the back-off"
	case t.Job == tuning.FastBump:
		turn += " (or bump slightly)"
	case t.Job == tuning.FastRebound:
		turn += " (where there is one)"
	}
	return part + " " + string(t.Job) + " " + turn
}
