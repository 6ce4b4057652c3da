package cases

import (
	"slices"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Window is the answer about the good settings of one corner. Clicks are
// numbered from 0, in the order given.
type Window struct {
	Clicks []Grip `json:"clicks"`
	Best   int    `json:"best"`
	From   int    `json:"from"`
	To     int    `json:"to"`
}

// Grip is one click's part of a window.
type Grip struct {
	Road  float64 `json:"road"`
	Body  float64 `json:"body"`
	Kerb  float64 `json:"kerb"`
	Index float64 `json:"index"`
}

// windowQuestion is a corner, its dampers by click, and the ground.
type windowQuestion struct {
	corner  ride.Corner
	dampers []ride.Damper
	surface ride.Surface
}

func readWindow(question []byte) (windowQuestion, error) {
	f, err := openQuestion(question)
	if err != nil {
		return windowQuestion{}, err
	}
	q := windowQuestion{
		corner: ride.Corner{
			Sprung:   unit.Mass(f.positive("ms")),
			Unsprung: unit.Mass(f.positive("mu")),
			Wheel:    unit.Stiffness(f.positive("kw")),
			Tyre:     unit.Stiffness(f.positive("kt")),
		},
	}
	q.corner.Relaxation = readRelaxation(&f)
	f.each("clicks", func(f *fields) { q.dampers = append(q.dampers, readDamper(f)) })
	f.word("surface", "smooth, bumpy or rough", func(word string) bool {
		at := slices.IndexFunc(ride.Surfaces[:], func(s ride.Surface) bool { return s.String() == word })
		q.surface = ride.Surface(max(at, 0))
		return at >= 0
	})
	return q, f.problem()
}

func window(question []byte) (*Window, error) {
	q, err := readWindow(question)
	if err != nil {
		return nil, err
	}
	found, err := ride.FindWindow(q.corner, q.dampers, q.surface)
	if err != nil {
		return nil, err
	}
	answer := &Window{Best: found.Best, From: found.From, To: found.To}
	for _, g := range found.Grip {
		answer.Clicks = append(answer.Clicks, Grip{float64(g.Road), float64(g.Body), float64(g.Kerb), float64(g.Index)})
	}
	return answer, nil
}
