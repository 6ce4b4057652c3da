package bot

import (
	"detent/tuning"
)

// CornersOf shows moves in the order FL FR RL RR.
func CornersOf(car tuning.Car, moves []tuning.Move) []Corner {
	var corners []Corner
	for c := range tuning.Corner(tuning.Corners) {
		for _, m := range moves {
			if m.Corner == c {
				corners = append(corners, cornerOf(car, m))
			}
		}
	}
	return corners
}

func cornerOf(car tuning.Car, m tuning.Move) Corner {
	damper := car.Dampers[m.Corner.Axle()]
	from := m.From
	if from < 0 { // nothing was known before
		from = m.To
	}
	known := tuning.Move{Corner: m.Corner, Adjuster: m.Adjuster, From: from, To: m.To}
	return Corner{
		Corner: m.Corner.String(), Adjuster: m.Adjuster.String(),
		From: from, To: m.To, Range: damper.Range[m.Adjuster],
		Clicks: known.Clicks(), Turn: string(known.Turn()), Shown: damper.Shown(m.Adjuster, m.To),
	}
}

// Standing shows where every adjuster stands.
func Standing(car tuning.Car, at tuning.Setting) []Corner {
	return CornersOf(car, at.Across(at, car))
}
