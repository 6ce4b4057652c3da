package garage

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"strings"

	"detent/bot"
	"detent/bot/chart"
	"detent/bot/say"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/figures"
	"detent/tuning/ride"
)

func windowCommand() bot.Command {
	return declare(bot.Command{Name: "window", Help: "The grip window of each axle with today's clicks on it"}, showWindow)
}

type windowOptions struct {
	Surface tuning.Surface `name:"surface" help:"the track, when it is not the event's, or not smooth"`
	bot.CarOption
}

func showWindow(ctx context.Context, call call, o windowOptions) (bot.Reply, error) {
	c, err := call.FindCase(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := c.Car.Fitted(); err != nil {
		return bot.Reply{}, err
	}
	surface := cmp.Or(o.Surface, c.Event.Surface, tuning.Smooth)
	model, err := figures.Of(c.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	windows, err := windowsOf(model, c.Setting, surface)
	if err != nil {
		return bot.Reply{}, err
	}
	estimate := estimateMark(model, figures.OnDampers)
	reply := bot.Reply{Title: windowTitle(c.Car, windows, estimate), Corners: bot.Standing(c.Car, c.Setting), Cautions: say.Cautions(windowCautions(c.Car, windows))}
	var lines []string
	for axle, w := range windows {
		lines = append(lines, endWord(model, tuning.Axle(axle), figures.OnDampers)+": "+sayWindow(c.Car.Dampers[axle], w))
	}
	reply.Text = fmt.Sprintf("%s on a %s track.\n%s\n%s", c.Car.Name, surface, strings.Join(lines, "\n"), noPromise)
	reply.Notes = append([]string{countedNote}, say.Standing(c)...)
	reply.Picture = picture(windowChart(typeset.Name(c.Car.Name, "The car")+", "+string(surface)+" track"+estimate, c.Car, windows))
	other := map[tuning.Surface]tuning.Surface{tuning.Smooth: tuning.Bumpy, tuning.Bumpy: tuning.Smooth}[surface]
	reply.Actions = []bot.Action{
		bot.Button("On a "+string(other)+" track", "/window surface:"+string(other), bot.OfCar(c.Car)),
		bot.Button("Where do I start", "/baseline", bot.OfCar(c.Car)),
	}
	return assuming(reply, model, figures.OnDampers, call.Imperial()), nil
}

// noPromise goes with every index.
const noPromise = "The index compares settings of one car and promises no lap time."

// countedNote says what the clicks of a window are clicks of.
const countedNote = "Clicks are counted on the adjuster named; the axle's other adjusters turn along with it, each by the same part of its range."

// windowsOf finds the window of both axles.
func windowsOf(model figures.Model, at tuning.Setting, surface tuning.Surface) (windows [tuning.Axles]figures.Window, err error) {
	for axle := range tuning.Axle(tuning.Axles) {
		if windows[axle], err = model.Window(axle, figures.ClicksOf(at, axle), surface); err != nil {
			return windows, err
		}
	}
	return windows, nil
}

// windowTitle says what to do: nothing inside the window, otherwise which axle
// to turn and where to.
func windowTitle(car tuning.Car, windows [tuning.Axles]figures.Window, estimate string) string {
	var out []string
	for axle, w := range windows {
		if !w.Contains(w.Today) {
			out = append(out, fmt.Sprintf("%s %s %s", tuning.Axle(axle), car.Dampers[axle].Label(w.Counted), car.Dampers[axle].ShownBoth(w.Counted, w.Inside())))
		}
	}
	if len(out) == 0 {
		return "Leave it: both axles stand inside the window" + estimate
	}
	return "Nearest inside the window" + estimate + ": " + strings.Join(out, ", ")
}

// windowCautions warns where the window itself lies far on the stiff side.
func windowCautions(car tuning.Car, windows [tuning.Axles]figures.Window) []tuning.Caution {
	var moves []tuning.Move
	for axle, w := range windows {
		for _, corner := range tuning.Axle(axle).Corners() {
			moves = append(moves, tuning.Move{Corner: corner, Adjuster: w.Counted, From: w.Today, To: w.Best})
		}
	}
	return tuning.BaselineCautions(car, moves)
}

// sayWindow says the window of one axle in the member's own counting.
func sayWindow(d tuning.Damper, w figures.Window) string {
	say := fmt.Sprintf("best %s %s; window %d to %s; today %s", d.Label(w.Counted), d.ShownBoth(w.Counted, w.Best),
		d.Counted(w.Counted, w.From), d.Shown(w.Counted, w.To), d.Shown(w.Counted, w.Today))
	if w.CostsMost == ride.None {
		return say + ", which gives nothing away."
	}
	return say + fmt.Sprintf(", which gives away %.2f %%, most of it to the %s.", 100*float64(w.GivesAway), trialWords[w.CostsMost])
}

// trialWords say what grip is lost to.
var trialWords = map[ride.Trial]string{
	ride.BodyTrial: "body (roll and float)",
	ride.RoadTrial: "road (rough ground)",
	ride.KerbTrial: "kerb (one sharp bump)",
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
