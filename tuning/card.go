package tuning

import (
	"slices"
)

// CardLine is one line of the symptom card: a complaint and what to turn for
// it, in the order to try.
type CardLine struct {
	What   What
	Where  Where   // the part of the corner it is for, Anywhere for all
	Drives []Drive // the cars it is for
	First  string  // what comes before any click, "" for nothing
	Try    []CardTry
}

// CardTry is one remedy in few words: "front rebound stiffer".
type CardTry struct {
	Say        string
	Confidence Confidence
}

// Card is the table of remedies in few words, for cars of some drives. What is
// alike for all of them stands on one line. Steps are a whole step where the
// words do not say otherwise.
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

// cardLine is the row for a complaint about a car in words.
func cardLine(car Car, c Complaint) CardLine {
	line := CardLine{What: c.What, Where: c.Where, Drives: []Drive{car.Drive}, First: c.What.BeforeClicks()}
	if c.What == Nervous {
		line.First = "If anything stands above its middle, back to the start"
	}
	r, _ := rowFor(car, c)
	for _, recipe := range r.inOrder(car, History{}) {
		line.Try = append(line.Try, CardTry{recipe.words(), recipe.confidence})
	}
	return line
}

// words are what the recipe turns: "front rebound stiffer".
func (r recipe) words() string {
	corners := map[scope]string{front: "front", rear: "rear", saidAxle: "that end's", bothAxles: "all four", allAlike: "all four"}[r.scope]
	turn := string(r.turn)
	switch {
	case r.size == slight:
		turn = "slightly " + turn
	case r.size == backOff:
		turn += " by the back-off"
	case r.job == FastBump:
		turn += " (or bump slightly)"
	case r.job == FastRebound:
		turn += " (where there is one)"
	}
	return corners + " " + string(r.job) + " " + turn
}
