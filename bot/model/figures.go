package model

import (
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/figures"
	"detent/tuning/ride"
)

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

// Show adds to a reply about a car what the model makes of it: its figures, the
// picture where a force table gives one, and what was assumed.
func Show(reply bot.Reply, c tuning.Case, imperial bool) bot.Reply {
	model, err := figures.Of(c.Car)
	if err != nil {
		reply.Notes = append(reply.Notes, silence(err))
		return reply
	}
	reply.Notes = append(reply.Notes, sayFigures(model, c.Car, c.Setting)...)
	rests := figures.OnCorners
	if c.Car.Fitted() == nil {
		rests = figures.OnDampers
		reply.Picture = ratioPicture(model, c.Car, c.Setting)
	}
	return assuming(reply, model, rests, imperial)
}

// Figures adds the figures of a car at a setting to a reply that Judge has been
// over, and the picture where a force table gives one.
func Figures(reply bot.Reply, car tuning.Car, at tuning.Setting) bot.Reply {
	model, err := figures.Of(car)
	if err != nil { // Judge has said why
		return reply
	}
	reply.Notes = append(reply.Notes, sayFigures(model, car, at)...)
	reply.Picture = ratioPicture(model, car, at)
	return reply
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
