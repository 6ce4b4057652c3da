package garage

import (
	"cmp"
	"context"
	"strings"

	"detent/bot"
	"detent/bot/model"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
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
	windows, err := model.WindowsOf(c.Car, c.Setting, surface)
	if err != nil {
		return bot.Reply{}, err
	}
	head := phone.Clip(c.Car.Name, phone.NameColumns) + ", " + string(surface) + " track:"
	reply := bot.Reply{
		Title: windows.Title(), Text: strings.Join(append([]string{head}, windows.Lines()...), "\n"),
		Corners: bot.Standing(c.Car, c.Setting), Notes: append(windows.Notes(), say.Standing(c)...),
		Cautions: say.Cautions(tuning.BaselineCautions(c.Car, windows.Moves())), // a window may lie far on the stiff side
	}
	reply = windows.Assuming(reply, call.Imperial())
	if o.Part != "" {
		reply.Text, reply.View.NoTable = "", true
		return o.Paged(reply, "/window part:figures surface:"+string(surface), bot.OfCar(c.Car)), nil
	}
	reply.View = bot.View{Quiet: true, Picture: true, NoTable: true, Care: bot.CareFor(c.Car, windows.Moves())}
	reply.Picture = windows.Picture()
	reply.Actions = windowActions(c.Car, surface)
	return reply, nil
}

// windowActions ask for the other kinds of track, and for the figures.
func windowActions(car tuning.Car, surface tuning.Surface) []bot.Action {
	var actions []bot.Action
	for _, other := range surface.Choices() {
		if other != string(surface) {
			actions = append(actions, bot.Button("On a "+other+" track", "/window surface:"+other, bot.OfCar(car)))
		}
	}
	return append(actions, bot.Button("Figures", "/window part:figures surface:"+string(surface), bot.OfCar(car)))
}
