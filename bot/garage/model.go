package garage

import (
	"fmt"
	"math"
	"strings"

	"detent/bot"
	"detent/bot/chart"
	"detent/bot/say"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/figures"
	"detent/tuning/ride"
)

// judged adds what the vehicle model says of the remedies that a reply shows of
// an advice, where all of the reply is wanted: a message has it under Why. The
// trade's answer and its order stand whatever the model says.
func judged(reply bot.Reply, car tuning.Car, at tuning.Setting, advice tuning.Advice, imperial, whole bool) bot.Reply {
	if !whole || !advice.Complaint.Made() || len(reply.Remedies) == 0 { // a start: the model has nothing to compare it with
		return reply
	}
	model, err := figures.Of(car)
	if err != nil {
		return unjudged(reply, advice, err)
	}
	rests := figures.OnNothing
	for i := range reply.Remedies {
		rests = max(rests, judge(&reply.Remedies[i], model, car, at, advice))
	}
	if line := modelLine(model, car, at, advice, reply.Remedies[0].Rank); line != "" {
		reply.Notes = append(reply.Notes, line)
		rests = max(rests, figures.OnDampers)
	}
	return assuming(reply, model, rests, imperial)
}

// judge adds the model's judgement to one remedy, and returns what it rests on.
func judge(r *bot.Remedy, model figures.Model, car tuning.Car, at tuning.Setting, advice tuning.Advice) figures.Rests {
	j, ok, err := model.Judge(advice.Complaint, at, advice.Remedies[r.Rank-1])
	switch {
	case err != nil:
		r.Model = &bot.Verdict{Verdict: string(figures.Unknown), Say: silence(err)}
		return figures.OnNothing
	case !ok: // the model has no measure for it
		return figures.OnNothing
	}
	estimate := false
	for _, m := range advice.Remedies[r.Rank-1].Moves {
		estimate = estimate || model.Estimate(j.Rests, m.Corner.Axle())
	}
	r.Model = &bot.Verdict{
		Verdict: string(j.Word), Say: sayJudgement(car, j, estimate),
		Leans: string(j.Leans), Does: sayDoes(j.Does, estimate),
	}
	if j.Counts != figures.Mechanism {
		points := math.Round(1e4*j.Points) / 1e4
		r.Model.Points = &points
	}
	if j.Peak.Inside {
		r.Model.Peak, r.Model.At = &j.Peak.Best, &j.Peak.At
	}
	return j.Rests
}

// unjudged says why the model has no answer.
func unjudged(reply bot.Reply, advice tuning.Advice, err error) bot.Reply {
	for i := range reply.Remedies {
		if advice.Remedies[reply.Remedies[i].Rank-1].Kind == tuning.TurnClicks {
			reply.Remedies[i].Model = &bot.Verdict{Verdict: string(figures.Unknown), Say: silence(err)}
		}
	}
	return reply
}

// modelLine is what the model has to say of the first remedy: a verdict that a driver can
// feel, or else a measured damper outside its window, or front and rear damping far
// apart.
func modelLine(model figures.Model, car tuning.Car, at tuning.Setting, advice tuning.Advice, rank int) string {
	remedy := advice.Remedies[rank-1]
	word, ok, err := model.Word(advice.Complaint, at, remedy)
	if line := sayWord(word); ok && err == nil && line != "" {
		return line
	}
	if len(remedy.Moves) > 0 {
		axle := remedy.Moves[0].Corner.Axle()
		if lost, err := model.Loses(axle, figures.ClicksOf(at, axle)); err == nil && lost > startGivesAway {
			return sayLoses(axle, lost)
		}
	}
	spread, err := model.Spread(at)
	if err != nil || !spread.Far {
		return ""
	}
	return saySpread(car, spread)
}

// assuming adds what an answer of the model assumed, and the caution that goes
// with estimates.
func assuming(reply bot.Reply, model figures.Model, rests figures.Rests, imperial bool) bot.Reply {
	if reply.Assumed = model.Assumed(rests, imperial); len(reply.Assumed) > 0 {
		reply.Cautions = append(reply.Cautions, string(tuning.Estimate))
	}
	return reply
}

// endWord names an axle at the head of a sentence, marked where what follows is
// an estimate.
func endWord(model figures.Model, axle tuning.Axle, rests figures.Rests) string {
	word := say.Capital(axle.String())
	if model.Estimate(rests, axle) {
		word += " (estimate)"
	}
	return word
}

// estimateMark marks what is said of both axles where it is an estimate at
// either.
func estimateMark(model figures.Model, rests figures.Rests) string {
	if model.Estimate(rests, tuning.Front) || model.Estimate(rests, tuning.Rear) {
		return " (estimate)"
	}
	return ""
}

// sayRatios says damping ratios in one breath.
func sayRatios(r ride.Ratios) string {
	return fmt.Sprintf("damping ratio %.2f in bump and %.2f in rebound at low speed, %.2f and %.2f at high speed",
		float64(r.Low.Bump), float64(r.Low.Rebound), float64(r.High.Bump), float64(r.High.Rebound))
}

// showFigures adds to a reply about a car what the model makes of it.
func showFigures(reply bot.Reply, model figures.Model, c tuning.Case, imperial bool) bot.Reply {
	reply.Notes = append(reply.Notes, sayFigures(model, c.Car, c.Setting)...)
	rests := figures.OnCorners
	if c.Car.Fitted() == nil {
		rests = figures.OnDampers
		if drawing, ok := ratioChart(model, c.Car, c.Setting); ok {
			reply.Picture = picture(drawing)
		}
	}
	return assuming(reply, model, rests, imperial)
}

// sayFigures says the model's figures of a car: frequencies, and where the
// dampers are known their ratios at a setting and by click.
func sayFigures(model figures.Model, car tuning.Car, at tuning.Setting) []string {
	var notes []string
	for axle := range tuning.Axle(tuning.Axles) {
		f, err := model.Frequencies(axle)
		if err != nil {
			return append(notes, silence(err))
		}
		notes = append(notes, fmt.Sprintf("%s: natural frequency %.2f Hz on the spring, %.2f Hz with the tyre; wheel hop %.1f Hz.",
			endWord(model, axle, figures.OnCorners), float64(f.Wheel), float64(f.Ride), float64(f.Hop)))
		if !car.Dampers[axle].Fitted() {
			continue
		}
		r, err := model.Ratios(axle, figures.ClicksOf(at, axle))
		if err != nil {
			return append(notes, silence(err))
		}
		notes = append(notes, endWord(model, axle, figures.OnDampers)+" as it stands: "+sayRatios(r)+".")
		if car.Curves[axle] != nil {
			notes = append(notes, sayLines(model, axle)...)
		}
	}
	return append(notes, saySharpest(model, car, at)...)
}

// sayLines says what a force table gives click by click.
func sayLines(model figures.Model, axle tuning.Axle) []string {
	lines, err := model.Lines(axle)
	if err != nil {
		return []string{silence(err)}
	}
	var notes []string
	for _, l := range lines {
		say := fmt.Sprintf("%s force table, %s: damping ratio %s by click from soft", endWord(model, axle, figures.OnDampers), l.Name(), sayByClick(l))
		if n, ok := l.Clicks(); ok {
			say += fmt.Sprintf("; %.1f clicks make 0.05", n)
		}
		notes = append(notes, say+".")
		if !l.Fast {
			notes = append(notes, sayOdd(endWord(model, axle, figures.OnDampers), l)...)
		}
	}
	return notes
}

// shownClicks is how many clicks of a line are said; the picture shows all.
const shownClicks = 6

// sayByClick says some ratios of a line, first and last among them.
func sayByClick(l figures.Line) string {
	last := len(l.Ratios) - 1
	parts := min(last, shownClicks-1)
	words := []string{fmt.Sprintf("%.2f at %d", float64(l.Ratios[0]), l.First)}
	for i := 1; i <= parts; i++ {
		click := i * last / parts
		words = append(words, fmt.Sprintf("%.2f at %d", float64(l.Ratios[click]), l.First+click))
	}
	return strings.Join(words, ", ")
}

// sayOdd points out clicks that are worth too little to feel or a great deal.
func sayOdd(end string, l figures.Line) []string {
	var notes []string
	for _, s := range l.Odd() {
		say := "less than 0.02 of damping ratio, hardly to be felt"
		if s.Coarse {
			say = "more than 0.15 of damping ratio, a coarse step"
		}
		notes = append(notes, fmt.Sprintf("%s %s, clicks %d to %d from soft: each is worth %s (%.3f at the most extreme).",
			end, l.Name(), s.From, s.To, say, float64(s.Worth)))
	}
	return notes
}

// saySharpest says which missing figure would help most.
func saySharpest(model figures.Model, car tuning.Car, at tuning.Setting) []string {
	var notes []string
	if missing, ok := model.Sharpest(at); ok {
		notes = append(notes, fmt.Sprintf("The one figure that would sharpen this most: %s (/car edit %s). For want of it an estimate may be off by %.0f %%.",
			missing.Name, missing.Option, 100*missing.Moves))
	}
	if car.Fitted() == nil && (car.Curves[tuning.Front] == nil || car.Curves[tuning.Rear] == nil) {
		notes = append(notes, "A force table (/damper curve) takes the place of the assumed damper, which is an estimate.")
	}
	return notes
}

// ratioChart is the picture of the damping ratios of the axles with a force
// table; ok is false where there is none.
func ratioChart(model figures.Model, car tuning.Car, at tuning.Setting) (drawing chart.Ratios, ok bool) {
	drawing.Title = typeset.Name(car.Name, "The car") + estimateMark(model, figures.OnDampers)
	for axle := range tuning.Axle(tuning.Axles) {
		if car.Curves[axle] == nil {
			continue
		}
		lines, err := model.Lines(axle)
		if err != nil {
			return drawing, false
		}
		stands := figures.ClicksOf(at, axle)
		panel := chart.RatioAxle{Scale: chart.Scale{Name: say.Capital(axle.String())}}
		for _, l := range lines {
			values := make([]float64, len(l.Ratios))
			for i, r := range l.Ratios {
				values[i] = float64(r)
			}
			panel.Lines = append(panel.Lines, chart.Line{Name: l.Name(), First: l.First, Values: values, Today: stands[l.Adjuster]})
			panel.Clicks = max(panel.Clicks, car.Dampers[axle].Range[l.Adjuster])
		}
		drawing.Axles = append(drawing.Axles, panel)
	}
	return drawing, len(drawing.Axles) > 0
}
