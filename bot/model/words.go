package model

import (
	"fmt"
	"math"
	"strconv"

	"detent/bot"
	"detent/tuning"
	"detent/tuning/figures"
	"detent/tuning/unit"
)

// This file has the sentences of a verdict.

// silence is what is said where the model has no answer.
func silence(err error) string {
	if p, ok := bot.ProblemOf(err); ok {
		return p.Say
	}
	return "The vehicle model has no answer for this car."
}

// sayWord is the model's line in an answer, "" where it has nothing that a driver
// could use.
func sayWord(w figures.Word) string {
	switch w {
	case figures.Agrees:
		return "The model agrees, on every road and however you drive it."
	case figures.Disagrees:
		return "The model disagrees: here it costs grip on every road. The trade's order stands."
	}
	return ""
}

// sayLoses says that a measured damper stands outside its window.
func sayLoses(axle tuning.Axle, lost unit.Share) string {
	return fmt.Sprintf("The %s damping gives away %s %% of grip on a smooth track: see /window.", axle, twoFigures(100*float64(lost)))
}

// sayJudgement says what a remedy does and what that is worth, in two sentences.
func sayJudgement(car tuning.Car, j figures.Judgement, estimate bool) string {
	worth := sayWorth(j)
	if j.Counts != figures.Mechanism {
		worth += "; " + sayPeak(car.Dampers[j.Peak.Axle], j.Peak)
	}
	return sayDoes(j.Does, estimate) + " " + worth + "."
}

// sayDoes says whether a remedy does what the trade says of it, and how much.
func sayDoes(e figures.Effect, estimate bool) string {
	head := "Does what it says: "
	switch {
	case e.Hardly() && e.AsSaid():
		head = "Hardly does what it says: "
	case e.Hardly():
		head = "Hardly does anything: "
	case !e.AsSaid():
		head = "Does the opposite of what it says: "
	}
	mark := ""
	if estimate {
		mark = " (estimate)"
	}
	return head + sayEffect(e) + mark + "."
}

// sayEffect says how a mechanism changes.
func sayEffect(e figures.Effect) string {
	end, tyres := e.Axle.String(), "the "+e.Axle.String()+" tyres"
	if e.Both {
		end, tyres = "car", "the tyres"
	}
	by := math.Abs(e.After - e.Before)
	millimetres, degrees := changedBy(e, 1000*by, 0.1, " mm"), changedBy(e, 180/math.Pi*by, 0.01, "°")
	part := changedByPart(e)
	switch e.Mechanism {
	case figures.Squat:
		return "the rear squats " + millimetres + " over bumps"
	case figures.NoseRise:
		return "the nose rises " + millimetres + " on the way out"
	case figures.Dive:
		return "the nose dives " + degrees + " as you brake"
	case figures.TurnIn:
		return "the front takes " + part + " of the load transfer as the car turns in"
	case figures.Settling:
		return fmt.Sprintf("a swing of the body dies down in %s s instead of %s s", twoFigures(e.After), twoFigures(e.Before))
	case figures.Sinking:
		return fmt.Sprintf("the %s sinks %s over a run of bumps", end, millimetres)
	case figures.LoadSwing:
		return fmt.Sprintf("the load on %s swings %s over bumps", tyres, part)
	case figures.Lift:
		if e.Before == 0 && e.After == 0 {
			return tyres + " stay on a kerb of 40 mm either way"
		}
		return tyres + " are off a kerb for " + changedBy(e, 1000*by, 0.1, " ms")
	case figures.Travel:
		return "the wheels travel " + millimetres + " on a rough road"
	}
	return "the body leans " + degrees + " as the car turns in"
}

// changedBy says by how much a mechanism changed and which way, where the change is
// large enough to mean something.
func changedBy(e figures.Effect, size, least float64, unit string) string {
	switch {
	case size < least:
		return "as much as before"
	case e.Grows():
		return twoFigures(size) + unit + " more"
	}
	return twoFigures(size) + unit + " less"
}

// changedByPart is changedBy in per cent of what it was, or without a figure where
// there was nothing before.
func changedByPart(e figures.Effect) string {
	part, ok := e.Part()
	switch {
	case ok:
		return changedBy(e, 100*math.Abs(part), 0.1, " %")
	case e.Grows():
		return "more than before"
	}
	return "less than before"
}

// sayWorth says what a remedy is worth, with the yardstick of 1 % of grip.
func sayWorth(j figures.Judgement) string {
	grip, head := "grip", "It"
	switch j.Counts {
	case figures.Balance:
		grip, head = j.Gains.String()+" grip", "On balance it"
	case figures.KerbGrip:
		grip = "grip over kerbs"
	case figures.Mechanism:
		switch {
		case j.Does.Hardly():
			return "That is too little to feel"
		case j.Word == figures.Neutral:
			return "That is hardly enough to feel"
		case j.Word == figures.Agrees:
			return "That is enough to feel"
		}
		return "That is enough to feel, the wrong way"
	}
	worth := fmt.Sprintf("%s gains %s %s", head, yardstick(j.Points), grip)
	if j.Points < 0 {
		worth = fmt.Sprintf("%s costs %s %s", head, yardstick(j.Points), grip)
	}
	switch {
	case j.Word != figures.Neutral:
		return worth + " on a bumpy track, and enough to feel on every other"
	case j.Felt() && j.Leans == figures.Either:
		return "What it is worth depends on " + sayWhen(j) + " and on the road"
	case j.Felt():
		return worth + " on a bumpy track, and too little to feel on a smoother one"
	case j.Leans == figures.With:
		return worth + ", too little to feel, but the right way"
	case j.Leans == figures.Against:
		return worth + ", too little to feel, and the wrong way"
	}
	return worth + ", too little to feel"
}

// sayWhen names what differs between the ways in which a phase was driven.
func sayWhen(j figures.Judgement) string {
	if j.Counts != figures.Balance {
		return "the clicks"
	}
	return map[figures.Phase]string{
		figures.Entry: "how quickly you turn in", figures.Mid: "the clicks",
		figures.Exit: "when the throttle comes", figures.Braking: "how quickly you brake",
	}[j.Phase]
}

// sayPeak says on which side of its grip peak an axle stands.
func sayPeak(d tuning.Damper, p figures.Peak) string {
	at, best := "you stand at "+d.Shown(p.Adjuster, p.At), fmt.Sprint(d.Counted(p.Adjuster, p.Best))
	switch {
	case !p.Inside && p.Best > p.At:
		return at + ", and this axle's grip on a bumpy track still rises at its hard stop"
	case !p.Inside:
		return at + ", and this axle's grip on a bumpy track still rises at its soft stop"
	case p.At < p.Best-1:
		return fmt.Sprintf("%s, softer than this axle's grip peak (about %s) on a bumpy track, where softer gives nothing", at, best)
	case p.At > p.Best+1:
		return fmt.Sprintf("%s, stiffer than this axle's grip peak (about %s) on a bumpy track, where stiffer gives nothing", at, best)
	}
	return at + ", right at this axle's grip peak on a bumpy track"
}

// yardsticks are the parts of 1 % that are told, largest first.
var yardsticks = []struct {
	part float64
	say  string
}{
	{0.75, "three quarters"}, {0.67, "two thirds"}, {0.5, "half"}, {0.33, "a third"}, {0.25, "a quarter"}, {0.2, "a fifth"},
	{0.15, "a seventh"}, {0.1, "a tenth"}, {0.067, "a fifteenth"}, {0.05, "a twentieth"}, {0.033, "a thirtieth"}, {0.02, "a fiftieth"}, {0.01, "a hundredth"},
}

// yardstick says a size in points as a part of 1 %, the nearest that has a name.
func yardstick(points float64) string {
	size := math.Abs(points)
	switch {
	case size >= 0.87:
		return "about " + twoFigures(size) + " %"
	case size < 0.007:
		return "less than a hundredth of 1 %"
	}
	nearest := yardsticks[0]
	for _, y := range yardsticks {
		if math.Abs(math.Log(size/y.part)) < math.Abs(math.Log(size/nearest.part)) {
			nearest = y
		}
	}
	return nearest.say + " of 1 %"
}

// twoFigures writes a positive number with at most two figures that count.
func twoFigures(v float64) string {
	if !(v > 0) || math.IsInf(v, 0) {
		return "0"
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 2, 64), 64)
	if err != nil {
		return "0"
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// saySpread compares the damping of both axles, and where they are far apart says
// which clicks bring them together.
func saySpread(car tuning.Car, s figures.Spread) string {
	say := fmt.Sprintf("Damping ratio: front %.2f, rear %.2f.", float64(s.Ratio[tuning.Front]), float64(s.Ratio[tuning.Rear]))
	if !s.Far {
		return say
	}
	together := "brings them together"
	if !s.Meets {
		together = "is as near as it goes"
	}
	d := car.Dampers[s.Turns]
	return say + fmt.Sprintf(" The %s is %s times as hard: %s %s at %s %s.", s.Harder, twoFigures(float64(s.Ratio[s.Harder]/s.Ratio[1-s.Harder])),
		s.Turns, d.Label(s.Counted), d.Shown(s.Counted, s.To), together)
}
