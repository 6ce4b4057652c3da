package tuning

// Caution is a warning that goes with an answer, without the words for it.
type Caution string

// The cautions.
const (
	Hot      Caution = "hot"            // let it cool, and never work under a jack alone
	Gently   Caution = "gently"         // turn gently, count from the stop
	EaseIn   Caution = "ease in"        // first laps at reduced pace
	Closed   Caution = "closed circuit" // closed circuits and their rules only
	TooStiff Caution = "too stiff"      // far on the stiff side it gives no warning
	Broken   Caution = "broken"         // signs of a fault: no clicks
	Estimate Caution = "estimate"       // figures that rest on assumed values
)

// BaselineCautions are the cautions that go with a start, and with any list of
// clicks to set.
func BaselineCautions(car Car, moves []Move) []Caution {
	cautions := []Caution{Hot, Gently, EaseIn, Closed}
	if farStiff(car, moves) {
		cautions = append(cautions, TooStiff)
	}
	return cautions
}

// cautionsFor picks the cautions that fit an advice.
func cautionsFor(car Car, remedies []Remedy) []Caution {
	if len(remedies) == 0 {
		return []Caution{Broken, Closed}
	}
	var moves []Move
	for _, r := range remedies {
		moves = append(moves, r.Moves...)
	}
	return append(BaselineCautions(car, moves), Broken)
}
