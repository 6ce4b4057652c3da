package learn

import "detent/tuning"

// Reading is what two feels say that a change did.
type Reading struct {
	Moved    float64 // y: marks that the car moved the way it should
	Variance float64 // R of that, marks², above 0
	Helped   bool
	Worse    bool
}

// readFeels reads what was felt before and after a change that was made for a
// complaint. Before is nil where nothing was felt before. ok is false without
// evidence.
func readFeels(c tuning.Complaint, before *tuning.Feel, after tuning.Feel) (r Reading, ok bool) {
	marks, neutral, marked := marksMoved(c, before, after)
	words, said := inWords(after.Better)
	switch {
	case marked && said:
		r = Reading{Moved: (marks + words) / 2, Variance: bothVariance}
	case marked:
		r = Reading{Moved: marks, Variance: marksVariance}
	case said:
		r = Reading{Moved: words, Variance: wordsVariance}
	default:
		return r, false
	}
	switch after.Better {
	case tuning.BetterYes:
		r.Helped = true
	case tuning.BetterNo:
		r.Worse = true
	default:
		r.Helped = r.Moved > 0 && !neutral
		r.Worse = after.Better == "" && r.Moved < 0
	}
	return r, true
}

// inWords is the reading of better, the same or worse.
func inWords(b tuning.Better) (marks float64, said bool) {
	switch b {
	case tuning.BetterYes:
		return wordsMarks, true
	case tuning.BetterSame:
		return 0, true
	case tuning.BetterNo:
		return -wordsMarks, true
	}
	return 0, false
}

// marksMoved is how many marks the car moved the way that the complaint asks for,
// and whether it went past neutral to the other side. ok is false where a mark
// is missing or the complaint has none: balance marks serve understeer and
// oversteer, and half the marks of grip serve low grip.
func marksMoved(c tuning.Complaint, before *tuning.Feel, after tuning.Feel) (marks float64, past, ok bool) {
	if before == nil {
		return 0, false, false
	}
	way := 1.0
	switch c.What {
	case tuning.LowGrip:
		if before.Grip == 0 || after.Grip == 0 {
			return 0, false, false
		}
		return float64(after.Grip-before.Grip) / 2, false, true
	case tuning.Oversteer:
		way = -1
	case tuning.Understeer:
	default:
		return 0, false, false
	}
	from, to := markOf(*before, c.Where), markOf(after, c.Where)
	if from == nil || to == nil {
		return 0, false, false
	}
	return way * float64(*to-*from), way*float64(*to) > 0, true
}

// markOf is the balance mark of a part of the corner, the entry's where none
// is said.
func markOf(f tuning.Feel, where tuning.Where) *int {
	switch where {
	case tuning.Mid:
		return f.Mid
	case tuning.Exit:
		return f.Exit
	}
	return f.Entry
}
