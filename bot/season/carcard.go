package season

import (
	"fmt"
	"slices"
	"strings"

	"detent/bot/say"
	"detent/bot/sheet"
	"detent/tuning"
)

// card is the symptom card for one car: what to turn for each complaint, in
// its own adjusters and clicks.
func (s carSheet) card() sheet.Section {
	table := sheet.Table{Head: []string{"It does this", ownStarred}, Widths: []float64{2, 5}}
	for _, l := range tuning.Card([]tuning.Drive{s.car.Car.Drive}) {
		var try []string
		if l.First != "" {
			try = append(try, say.Check(l.First))
		}
		try = append(try, s.remedies(tuning.Complaint{What: l.What, Where: l.Where})...)
		if l.What == tuning.LowGrip {
			try = append(try, "again each run until it just begins to hop, then the back-off")
		}
		if len(try) == 0 {
			try = []string{"No click of this car's: the checks"}
		}
		table.Rows = append(table.Rows, []string{cardComplaint(l), say.Capital(strings.Join(try, "; "))})
	}
	return sheet.Section{Head: "What to turn on this car", Table: table}
}

// ownStarred says how a car's own card is read.
const ownStarred = "Clicks from where it stands, both sides. Turn the first; if that is not it, the other. * The trade is less sure."

// remedies are what to turn for a complaint, in the order to try, as the
// judgement has it for a car in the middle of all its ranges.
func (s carSheet) remedies(c tuning.Complaint) []string {
	if !c.What.NeedsAxle() {
		return s.remediesAt(c)
	}
	var ends [tuning.Axles][]string
	for axle := range tuning.Axle(tuning.Axles) {
		c.Axle = &axle
		ends[axle] = s.remediesAt(c)
	}
	front, rear := strings.Join(ends[tuning.Front], "; "), strings.Join(ends[tuning.Rear], "; ")
	if either := strings.Replace(front, "front ", "that end's ", 1); either == strings.Replace(rear, "rear ", "that end's ", 1) {
		return strings.Split(either, "; ")
	}
	return []string{strings.Join(slices.Concat(ends[tuning.Front], ends[tuning.Rear]), " or ") + ", the end that does it"}
}

func (s carSheet) remediesAt(c tuning.Complaint) []string {
	advice, err := tuning.Advise(s.car.Car, middle(s.car.Car), c, tuning.History{}, s.sizes)
	if err != nil {
		return nil
	}
	var try []string
	for _, r := range advice.Remedies {
		if r.Kind != tuning.TurnClicks {
			continue
		}
		turn := sayTurn(s.car.Car, r.Moves)
		if r.Confidence == tuning.WeakerPractice {
			turn += " *"
		}
		try = append(try, turn)
	}
	return try
}

// middle is a setting with room on both sides of every adjuster.
func middle(car tuning.Car) (at tuning.Setting) {
	for axle, d := range car.Dampers {
		for _, corner := range tuning.Axle(axle).Corners() {
			for _, a := range d.Adjusters() {
				at[corner][a] = d.Range[a] / 2
			}
		}
	}
	return at
}

// sayTurn says what moves turn, wherever they begin: "front rebound 3 stiffer".
func sayTurn(car tuning.Car, moves []tuning.Move) string {
	var turns [tuning.Axles]string
	for axle, d := range car.Dampers {
		left := tuning.Axle(axle).Corners()[0]
		if i := slices.IndexFunc(moves, func(m tuning.Move) bool { return m.Corner == left }); i >= 0 {
			turns[axle] = fmt.Sprintf("%s %d %s", d.Label(moves[i].Adjuster), moves[i].Clicks(), moves[i].Turn())
		}
	}
	if turns[tuning.Front] == turns[tuning.Rear] {
		return "all four " + turns[tuning.Front]
	}
	var ends []string
	for axle, turn := range turns {
		if turn != "" {
			ends = append(ends, tuning.Axle(axle).String()+" "+turn)
		}
	}
	return say.AllOf(ends)
}
