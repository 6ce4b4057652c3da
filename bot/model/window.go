package model

import (
	"fmt"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/chart"
	"detent/bot/say"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/figures"
)

// Windows are the grip windows of both axles of a car with today's clicks on
// them.
type Windows struct {
	car      tuning.Car
	model    figures.Model
	surface  tuning.Surface
	every    [tuning.Axles][]figures.Window // on every surface
	on       [tuning.Axles]figures.Window   // on the surface asked about
	spread   figures.Spread
	estimate string // marks a title where figures were assumed
}

// WindowsOf finds the windows of a car whose dampers are known, with the clicks
// of a setting, for a kind of track. The error is a refusal of the model.
func WindowsOf(car tuning.Car, at tuning.Setting, surface tuning.Surface) (Windows, error) {
	w := Windows{car: car, surface: surface}
	var err error
	if w.model, err = figures.Of(car); err != nil {
		return w, err
	}
	for axle := range tuning.Axle(tuning.Axles) {
		if w.every[axle], err = w.model.Windows(axle, figures.ClicksOf(at, axle)); err != nil {
			return w, err
		}
	}
	if w.spread, err = w.model.Spread(at); err != nil {
		return w, err
	}
	w.pick()
	w.estimate = estimateMark(w.model, figures.OnDampers)
	return w, nil
}

// pick takes the windows on the surface asked about; one that is not known is
// smooth.
func (w *Windows) pick() {
	for axle, all := range w.every {
		w.on[axle] = all[0]
		for _, on := range all {
			if on.Surface == w.surface {
				w.on[axle] = on
			}
		}
	}
}

// Title says what to do: nothing inside the window, otherwise which axle
// to turn and where to, and where the model cannot tell, that it cannot.
func (w Windows) Title() string {
	var out, rising []string
	level := 0
	for axle, on := range w.on {
		switch {
		case !on.Advises():
			level++
		case on.AtStop():
			rising = append(rising, tuning.Axle(axle).String())
		case !on.Contains(on.Today):
			out = append(out, w.inside(tuning.Axle(axle)))
		}
	}
	switch {
	case level == len(w.on):
		return levelSurface(w.on[tuning.Front].Surface) + w.estimate
	case len(out) == len(w.on) && w.alike():
		d, front, rear := w.car.Dampers[tuning.Rear], w.on[tuning.Front], w.on[tuning.Rear]
		return fmt.Sprintf("Into the window%s: %s front %d, rear %s", w.estimate, d.Label(rear.Counted),
			w.car.Dampers[tuning.Front].Counted(front.Counted, front.Inside()), d.Shown(rear.Counted, rear.Inside()))
	case len(out) > 0:
		return "Into the window" + w.estimate + ": " + strings.Join(out, ", ")
	case len(rising) > 0:
		return "No best click: grip still rises at a stop, " + strings.Join(rising, " and ") + w.estimate
	}
	return "Leave it: nothing to gain by turning" + w.estimate
}

// inside names the click of an axle that is nearest inside its window: "front
// bump 9 from hard".
func (w Windows) inside(axle tuning.Axle) string {
	d, on := w.car.Dampers[axle], w.on[axle]
	return fmt.Sprintf("%s %s %s", axle, d.Label(on.Counted), d.Shown(on.Counted, on.Inside()))
}

// alike tells whether the windows of both axles are those of one adjuster, counted
// from one stop.
func (w Windows) alike() bool {
	front, rear := w.car.Dampers[tuning.Front], w.car.Dampers[tuning.Rear]
	return front.Count == rear.Count && front.Label(w.on[tuning.Front].Counted) == rear.Label(w.on[tuning.Rear].Counted)
}

// Lines are one line an axle: the best click, the window and today's loss.
func (w Windows) Lines() []string {
	var lines []string
	for axle, on := range w.on {
		d := w.car.Dampers[axle]
		lines = append(lines, sayWindowHead(d, on, say.Capital(tuning.Axle(axle).String()))+" "+strings.TrimPrefix(sayWindowRow(d, on), string(on.Surface)+": ")+".")
	}
	return lines
}

// Notes are the table of every kind of track, and what goes with it.
func (w Windows) Notes() []string {
	return slices.Concat(w.table(), []string{saySpread(w.car, w.spread), noPromise, lapNote, countedNote}, sayCosts(w.on))
}

// table is the table of windows, on every kind of track.
func (w Windows) table() []string {
	var lines, rising []string
	for axle, all := range w.every {
		d := w.car.Dampers[axle]
		lines = append(lines, sayWindowHead(d, all[0], endWord(w.model, tuning.Axle(axle), figures.OnDampers)))
		for _, on := range all {
			lines = append(lines, sayWindowRow(d, on))
			if on.Advises() && on.AtStop() {
				rising = []string{"No peak in the range: grip still rises at a stop."}
			}
		}
	}
	return append(lines, rising...)
}

// noPromise goes with every index.
const noPromise = "The model compares settings of one car and promises no lap time."

// lapNote says what a loss of grip means in time.
const lapNote = "A window is the clicks within 0.2 % of the best grip: about 0.05 s in a lap of 90 s that is cornering for half its time (estimate)."

// countedNote says what the clicks of a window are clicks of.
const countedNote = "Clicks are counted on the adjuster named; the axle's other adjusters turn along with it, each by the same part of its range."

// Moves are the moves to the best click of each window.
func (w Windows) Moves() []tuning.Move {
	var moves []tuning.Move
	for axle, on := range w.on {
		if !on.Advises() || on.AtStop() {
			continue
		}
		for _, corner := range tuning.Axle(axle).Corners() {
			moves = append(moves, tuning.Move{Corner: corner, Adjuster: on.Counted, From: on.Today, To: on.Best})
		}
	}
	return moves
}

// Picture is the picture of both windows.
func (w Windows) Picture() *bot.Picture {
	drawing := chart.Windows{Title: typeset.Name(w.car.Name, "The car") + ", " + string(w.surface) + " track" + w.estimate}
	for axle, on := range w.on {
		d := w.car.Dampers[axle]
		drawing.Axles = append(drawing.Axles, chart.Window{
			Scale:  chart.Scale{Name: say.Capital(tuning.Axle(axle).String()) + " " + d.Label(on.Counted), Clicks: d.Range[on.Counted], FromHard: d.Count == tuning.FromHard},
			Window: on.Window, Today: on.Today,
		})
	}
	return bot.PictureOf(drawing)
}

// Assuming adds to a reply what the windows assumed, and the caution that goes
// with estimates.
func (w Windows) Assuming(reply bot.Reply, imperial bool) bot.Reply {
	return assuming(reply, w.model, figures.OnDampers, imperial)
}
