package tuning

// Caution is a warning that goes with an answer.
type Caution string

// The cautions.
const (
	Hot      Caution = "Brakes, dampers and exhausts are hot: let them cool. Work on level ground, never under a car held by a jack alone."
	Gently   Caution = "Turn gently, never force past a stop, and count from the stop the maker names."
	EaseIn   Caution = "First laps after a change at reduced pace, where there is run-off; come in at once if it feels worse."
	Closed   Caution = "For closed circuits under the organiser's rules and marshals, not the public road. The makers' limits come first; local rules and a qualified technician decide."
	TooStiff Caution = "Far on the stiff side the car can lose the road without warning."
	Broken   Caution = "A knock, a leak, vibration, a pull under braking or a sudden change: stop, have it inspected, no clicks."
	Estimate Caution = "Figures marked estimate rest on assumed values; they compare settings of one car and promise nothing."
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
