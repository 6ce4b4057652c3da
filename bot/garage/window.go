package garage

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/chart"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/figures"
)

func windowCommand() bot.Command {
	return declare(bot.Command{Name: "window", Help: "The grip window of each axle with today's clicks on it", Own: true}, showWindow)
}

type windowOptions struct {
	Surface tuning.Surface `name:"surface" help:"the track, when it is not the event's, or not smooth"`
	Part    string         `name:"part" help:"figures: every kind of track, and what was assumed" choices:"figures"`
	bot.MoreOption
	bot.CarOption
}

func showWindow(ctx context.Context, call call, o windowOptions) (bot.Reply, error) {
	c, err := call.FindCase(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := bot.RequireDampers(c.Car); err != nil {
		return bot.Reply{}, err
	}
	surface := cmp.Or(o.Surface, c.Event.Surface, tuning.Smooth)
	model, err := figures.Of(c.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	every, err := everyWindow(model, c.Setting)
	if err != nil {
		return bot.Reply{}, err
	}
	spread, err := model.Spread(c.Setting)
	if err != nil {
		return bot.Reply{}, err
	}
	windows := windowsOn(every, surface)
	estimate := estimateMark(model, figures.OnDampers)
	reply := bot.Reply{Title: windowTitle(c.Car, windows, estimate), Corners: bot.Standing(c.Car, c.Setting), Cautions: say.Cautions(windowCautions(c.Car, windows))}
	lines := []string{phone.Clip(c.Car.Name, nameColumns) + ", " + string(surface) + " track: best (window), today's loss"}
	for axle, w := range windows {
		d := c.Car.Dampers[axle]
		lines = append(lines, sayWindowHead(d, w, say.Capital(tuning.Axle(axle).String()))+" "+strings.TrimPrefix(sayWindowRow(d, w), string(w.Surface)+": ")+".")
	}
	reply.Text = strings.Join(lines, "\n")
	reply.Notes = slices.Concat(sayEveryWindow(c.Car, model, every), []string{saySpread(c.Car, spread), noPromise, lapNote, countedNote}, sayCosts(windows), say.Standing(c))
	reply = assuming(reply, model, figures.OnDampers, call.Imperial())
	if o.Part != "" {
		reply.Text, reply.View.NoTable = "", true
		return o.Paged(reply, "/window part:figures surface:"+string(surface), bot.OfCar(c.Car)), nil
	}
	return withWindowButtons(reply, c, windows, surface, estimate), nil
}

// withWindowButtons makes a reply about windows a message: the picture, and what
// can be asked next.
func withWindowButtons(reply bot.Reply, c tuning.Case, windows [tuning.Axles]figures.Window, surface tuning.Surface, estimate string) bot.Reply {
	reply.View = bot.View{Quiet: true, Picture: true, NoTable: true, Care: bot.CareFor(c.Car, windowMoves(windows))}
	reply.Picture = picture(windowChart(typeset.Name(c.Car.Name, "The car")+", "+string(surface)+" track"+estimate, c.Car, windows))
	for _, other := range surface.Choices() {
		if other != string(surface) {
			reply.Actions = append(reply.Actions, bot.Button("On a "+other+" track", "/window surface:"+other, bot.OfCar(c.Car)))
		}
	}
	reply.Actions = append(reply.Actions, bot.Button("Figures", "/window part:figures surface:"+string(surface), bot.OfCar(c.Car)))
	return reply
}

// sayEveryWindow is the table of windows, on every kind of track.
func sayEveryWindow(car tuning.Car, model figures.Model, every [tuning.Axles][]figures.Window) []string {
	var lines, rising []string
	for axle, all := range every {
		d := car.Dampers[axle]
		lines = append(lines, sayWindowHead(d, all[0], endWord(model, tuning.Axle(axle), figures.OnDampers)))
		for _, w := range all {
			lines = append(lines, sayWindowRow(d, w))
			if w.Advises() && w.AtStop() {
				rising = []string{"No peak means no peak inside the range: grip still rises at a stop."}
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

// everyWindow finds the windows of both axles on every surface.
func everyWindow(model figures.Model, at tuning.Setting) (every [tuning.Axles][]figures.Window, err error) {
	for axle := range tuning.Axle(tuning.Axles) {
		if every[axle], err = model.Windows(axle, figures.ClicksOf(at, axle)); err != nil {
			return every, err
		}
	}
	return every, nil
}

// windowsOn picks the windows on one surface; one that is not known is smooth.
func windowsOn(every [tuning.Axles][]figures.Window, surface tuning.Surface) (windows [tuning.Axles]figures.Window) {
	for axle, all := range every {
		windows[axle] = all[0]
		for _, w := range all {
			if w.Surface == surface {
				windows[axle] = w
			}
		}
	}
	return windows
}

// windowTitle says what to do: nothing inside the window, otherwise which axle
// to turn and where to, and where the model cannot tell, that it cannot.
func windowTitle(car tuning.Car, windows [tuning.Axles]figures.Window, estimate string) string {
	var out, rising []string
	level := 0
	for axle, w := range windows {
		d := car.Dampers[axle]
		switch {
		case !w.Advises():
			level++
		case w.AtStop():
			rising = append(rising, tuning.Axle(axle).String())
		case !w.Contains(w.Today):
			out = append(out, fmt.Sprintf("%s %s %s", tuning.Axle(axle), d.Label(w.Counted), d.ShownBoth(w.Counted, w.Inside())))
		}
	}
	switch {
	case level == len(windows):
		return levelSurface(windows[tuning.Front].Surface) + estimate
	case len(out) > 0:
		return "Nearest inside the window" + estimate + ": " + strings.Join(out, ", ")
	case len(rising) > 0:
		return "No peak inside the range, " + strings.Join(rising, " and ") + estimate
	}
	return "Leave it: nothing to gain by turning" + estimate
}

// windowCautions warns where the window itself lies far on the stiff side.
func windowCautions(car tuning.Car, windows [tuning.Axles]figures.Window) []tuning.Caution {
	return tuning.BaselineCautions(car, windowMoves(windows))
}

// windowMoves are the moves to the best click of each window.
func windowMoves(windows [tuning.Axles]figures.Window) []tuning.Move {
	var moves []tuning.Move
	for axle, w := range windows {
		if !w.Advises() || w.AtStop() {
			continue
		}
		for _, corner := range tuning.Axle(axle).Corners() {
			moves = append(moves, tuning.Move{Corner: corner, Adjuster: w.Counted, From: w.Today, To: w.Best})
		}
	}
	return moves
}

// windowChart is the picture of both windows.
func windowChart(title string, car tuning.Car, windows [tuning.Axles]figures.Window) chart.Windows {
	drawing := chart.Windows{Title: title}
	for axle, w := range windows {
		d := car.Dampers[axle]
		drawing.Axles = append(drawing.Axles, chart.Window{
			Scale:  chart.Scale{Name: say.Capital(tuning.Axle(axle).String()) + " " + d.Label(w.Counted), Clicks: d.Range[w.Counted], FromHard: d.Count == tuning.FromHard},
			Window: w.Window, Today: w.Today,
		})
	}
	return drawing
}

// drawing is a chart.
type drawing interface {
	Draw(out io.Writer) error
	Alt() string
}

// picture draws a chart; where that fails the words stand alone.
func picture(d drawing) *bot.Picture {
	var png bytes.Buffer
	if err := d.Draw(&png); err != nil {
		return nil
	}
	return &bot.Picture{Alt: d.Alt(), Type: "image/png", PNG: png.Bytes()}
}
