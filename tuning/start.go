package tuning

import "slices"

// This file is the part of the judgement that goes to a start, with every
// adjuster of the car, before any remedy of the row.

// startAgain offers the start first where every remedy of the row turns an
// adjuster above two thirds of its range: both of two, or the one against low
// grip, since too stiff is slow too.
func (j *judge) startAgain() {
	lowGrip := j.complaint.What == LowGrip && j.bumpNearHard()
	if !lowGrip && (j.fits < 2 || j.high < j.fits) {
		return
	}
	why := WhyBothNearHard
	if lowGrip {
		why = WhyBumpNearHard
	}
	j.putBeforeRow(func() (Remedy, bool) { return j.returnToBaseline(why) })
}

// putBeforeRow puts a remedy that sets all adjusters before the row's, unless
// there is one already.
func (j *judge) putBeforeRow(compose func() (Remedy, bool)) {
	remedies := j.advice.Remedies
	if slices.ContainsFunc(remedies, func(r Remedy) bool { return r.Kind.SetsAll() }) {
		return
	}
	if first, ok := compose(); ok {
		at := slices.IndexFunc(remedies, func(r Remedy) bool { return r.Kind == TurnClicks })
		if at < 0 {
			at = len(remedies)
		}
		j.advice.Remedies = slices.Insert(remedies, at, first)
	}
}

// bumpNearHard tells whether bump stands above two thirds of its range on both
// axles.
func (j *judge) bumpNearHard() bool {
	fit, ok := fitBump(j.car)
	for axle := range Axle(Axles) {
		left, right := axle.Corners()[0], axle.Corners()[1]
		ok = ok && nearHard(j.car, j.at, []target{{corner: left, adjuster: fit[axle]}, {corner: right, adjuster: fit[axle]}})
	}
	return ok
}

// toWetStart offers the wet start first in the wet, unless something that it
// softens stands softer than the dry start already.
func (j *judge) toWetStart() {
	if j.complaint.weather() != Wet || j.fits == 0 {
		return
	}
	dry, err := Baseline(j.car, Dry, j.sizes)
	wet, wrong := Baseline(j.car, Wet, j.sizes)
	if err != nil || wrong != nil {
		return
	}
	softens := false
	for _, m := range dry.Toward(wet, j.car) {
		if j.at[m.Corner][m.Adjuster] < m.From {
			return
		}
		softens = true
	}
	if !softens {
		return
	}
	j.putBeforeRow(func() (Remedy, bool) {
		return Remedy{Kind: GoToWetStart, Why: WhyDryInTheWet, Confidence: CommonPractice,
			Watch: WatchRollsAndWarns, Moves: j.at.Across(wet, j.car)}, true
	})
}

// returnToBaseline is the remedy that goes back to the start, with every
// adjuster of every corner listed. ok is false when the car stands there.
func (j *judge) returnToBaseline(why Why) (Remedy, bool) {
	start, err := Baseline(j.car, j.complaint.Weather, j.sizes)
	if err != nil || start == j.at {
		return Remedy{}, false
	}
	return Remedy{Kind: ReturnBaseline, Why: why, Watch: WatchRollsAndWarns,
		Confidence: CommonPractice, Moves: j.at.Across(start, j.car)}, true
}
