package tuning

import "slices"

// CardLine is one line of the symptom card: a complaint and what to turn for
// it, in the order to try.
type CardLine struct {
	What   What
	Where  Where   // the part of the corner it is for, Anywhere for all
	Drives []Drive // the cars it is for
	First  Check   // what comes before any click, "" for nothing
	Try    []CardTry
}

// CardTry is one remedy without its clicks: "front rebound stiffer".
type CardTry struct {
	Part       Part // "" is the end that is complained of
	Job        Job
	Turn       Turn
	Far        Far
	Confidence Confidence
}

// Far is how far a remedy turns, before the damper at hand is known.
type Far string

// How far.
const (
	FarStep    Far = "step"
	FarSlight  Far = "slight step"
	FarBackOff Far = "back-off" // of the grip search
)

// Card is the table of remedies without clicks, for cars of some drives. What is
// alike for all of them stands on one line.
func Card(drives []Drive) []CardLine {
	var card []CardLine
	for i, r := range table {
		if i > 0 && r.what == table[i-1].what && r.phase == table[i-1].phase {
			continue // the same complaint of another drive, which the first has found
		}
		begin := len(card)
		for _, drive := range drives {
			line := cardLine(Car{Drive: drive}, Complaint{What: r.what, Where: r.phase})
			alike := func(other CardLine) bool { return slices.Equal(other.Try, line.Try) }
			if at := slices.IndexFunc(card[begin:], alike); at >= 0 {
				card[begin+at].Drives = append(card[begin+at].Drives, drive)
				continue
			}
			card = append(card, line)
		}
	}
	return card
}

// cardLine is the row for a complaint about a car.
func cardLine(car Car, c Complaint) CardLine {
	line := CardLine{What: c.What, Where: c.Where, Drives: []Drive{car.Drive}, First: c.What.BeforeClicks()}
	if c.What == Nervous {
		line.First = CheckMiddle
	}
	r, _ := rowFor(car, c)
	for _, recipe := range r.inOrder(car, History{}) {
		line.Try = append(line.Try, recipe.cardTry())
	}
	return line
}

// cardTry is the recipe as the card has it.
func (r recipe) cardTry() CardTry {
	part := map[scope]Part{front: FrontPart, rear: RearPart, bothAxles: WholeCar, allAlike: WholeCar}[r.scope]
	far := map[size]Far{step: FarStep, slight: FarSlight, backOff: FarBackOff}[r.size]
	return CardTry{part, r.job, r.turn, far, r.confidence}
}
