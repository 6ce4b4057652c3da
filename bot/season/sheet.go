package season

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/bot/sheet"
	"detent/tuning"
)

func giveSheetCommand() bot.Command {
	return declare(bot.Command{Name: "event sheet", Help: "Your own car's sheet for an event, to print", Private: true}, giveSheet)
}

type sheetOptions struct {
	eventOption
	bot.CarOption
}

func giveSheet(ctx context.Context, call call, o sheetOptions) (bot.Reply, error) {
	e, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	name := o.Car
	if name == "" {
		entrants, err := call.Book.Entrants(ctx, e)
		if err != nil {
			return bot.Reply{}, err
		}
		mine := bot.EntriesOf(entrants, call.Owner())
		if len(mine) == 0 {
			return bot.Reply{}, bot.Problemf(tuning.NotFound, "You are not entered in %s: enter, or name a car for its sheet.", e.Name)
		}
		name = mine[0].Car.Name
	}
	c, err := call.FindCase(ctx, call.Book, name)
	if err != nil {
		return bot.Reply{}, err
	}
	return call.sheetOf(e, c)
}

// sheetOf is a car's own sheet for an event.
func (c call) sheetOf(e tuning.Event, k tuning.Case) (bot.Reply, error) {
	weather := cmp.Or(e.Weather.Known(), tuning.Dry)
	start, err := tuning.Baseline(k.Car, weather, c.Club.Sizes)
	if err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{
		Title:    k.Car.Name + " at " + e.Name,
		Text:     "Where to start, " + string(weather) + ". The sheet to print has it all.",
		Corners:  bot.CornersOf(k.Car, k.Setting.Across(start, k.Car)),
		Notes:    say.Standing(k),
		First:    say.Checks(tuning.Checks),
		Cautions: guideCautions(),
		View:     bot.View{Quiet: true, Care: bot.CareFor(k.Car, k.Setting.Across(start, k.Car))},
	}
	if e.Weather == tuning.Either {
		reply.Text = "Where to start, dry/wet, as you count. The sheet to print has it all."
		reply.View.NoTable, reply.View.Grid = true, bothStarts(k.Car, c.Club.Sizes)
	}
	reply.Files, err = printSheet("sheet.pdf", c.carPage(e, k))
	return reply, err
}

// bothStarts is the start of each adjuster in the dry and in the wet, as the
// member counts, as a small table.
func bothStarts(car tuning.Car, sizes tuning.Sizes) string {
	dry, _ := tuning.Baseline(car, tuning.Dry, sizes) // its dampers are known here
	wet, _ := tuning.Baseline(car, tuning.Wet, sizes)
	var b strings.Builder
	for axle := range tuning.Axle(tuning.Axles) {
		d, left := car.Dampers[axle], axle.Corners()[0]
		for _, a := range d.Adjusters() {
			fmt.Fprintf(&b, "%-24s  %2d/%d from %s\n", say.Capital(axle.String())+" "+d.Label(a),
				d.Counted(a, dry[left][a]), d.Counted(a, wet[left][a]), d.Count)
		}
	}
	return strings.TrimRight(b.String(), "\n")
}

// carPage is the sheet to print.
func (c call) carPage(e tuning.Event, k tuning.Case) sheet.Page {
	return carSheet{event: e, car: k, sizes: c.Club.Sizes, zone: c.Zone(), made: c.Now()}.page()
}

// sayPosition is a position as it is printed: "16 (14)", in the member's own
// counting and the other way.
func sayPosition(d tuning.Damper, a tuning.Adjuster, clicks int) string {
	own := d.Counted(a, clicks)
	return fmt.Sprintf("%d (%d)", own, d.Range[a]-own)
}
