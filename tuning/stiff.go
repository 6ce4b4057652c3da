package tuning

// NearHard tells whether an adjuster stands above two thirds of its range,
// where a remedy that stiffens it is no longer the first to try.
func (d Damper) NearHard(a Adjuster, position int) bool { return 3*position > 2*d.Range[a] }

// aboveMiddle tells whether an adjuster stands stiffer than its middle.
func (d Damper) aboveMiddle(a Adjuster, position int) bool { return 2*position > d.Range[a] }

// nearHard tells whether any corner that the targets name stands above two
// thirds of its range.
func nearHard(car Car, at Setting, targets []target) bool {
	for _, t := range targets {
		if car.Dampers[t.corner.Axle()].NearHard(t.adjuster, at[t.corner][t.adjuster]) {
			return true
		}
	}
	return false
}

// farStiff tells whether a move ends above two thirds of its range.
func farStiff(car Car, moves []Move) bool {
	for _, m := range moves {
		if car.Dampers[m.Corner.Axle()].NearHard(m.Adjuster, m.To) {
			return true
		}
	}
	return false
}
