package season

import (
	"context"
	"slices"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func enterEventCommand() bot.Command {
	return declare(bot.Command{Name: "event enter", Help: "Enter a car in an event", Private: true, Writes: true}, enterEvent)
}

func leaveEventCommand() bot.Command {
	return declare(bot.Command{Name: "event leave", Help: "Take your entry back", Private: true, Writes: true}, leaveEvent)
}

type enterEventOptions struct {
	eventOption
	bot.CarOption
	Remind *bool `name:"remind" help:"whether a message may come before and after it"`
	Sheet  *bool `name:"sheet" help:"whether you want your car's sheet for it (yes when not said)"`
}

type leaveEventOptions struct {
	eventOption
	bot.CarOption
}

func enterEvent(ctx context.Context, call call, o enterEventOptions) (bot.Reply, error) {
	e, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	car, err := call.FindCar(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := call.checkOpen(e); err != nil {
		return bot.Reply{}, err
	}
	if car.Retired {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "%s is retired: enter a car that still runs.", car.Name)
	}
	own, all, err := call.Book.EntriesOf(ctx, e, call.Owner())
	if err != nil {
		return bot.Reply{}, err
	}
	i := slices.IndexFunc(own, func(other tuning.Entrant) bool { return other.Car.ID == car.ID })
	in := i >= 0
	if !in {
		i, all = len(own), all+1
		own = append(own, tuning.Entrant{Event: e.ID, Person: call.Owner(), Car: car, Reminded: call.Member.Reminders, Sheet: true})
	}
	if err := call.keepEntry(ctx, e, &own[i], in, o); err != nil {
		return bot.Reply{}, err
	}
	reply, err := call.welcome(ctx, e, own[i], all, o.Sheet != nil && *o.Sheet)
	if err != nil {
		return bot.Reply{}, err
	}
	return reply, call.PlanEntries(ctx, call.Book, e, own, call.Owner())
}

// welcome confirms an entry, says what the place remembers of the car and comes
// with its sheet where that was asked for.
func (c call) welcome(ctx context.Context, e tuning.Event, entrant tuning.Entrant, in int, sheet bool) (bot.Reply, error) {
	reply := sayEntered(c, e, entrant, in)
	lines, err := Memory(ctx, c.Book, c.Club, e, entrant.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if len(lines) > 0 {
		reply.Actions = append(reply.Actions, placeButton(e, entrant.Car))
		reply, _ = reply.WithSpare(lines...)
	}
	if sheet && entrant.Car.Fitted() == nil {
		k, err := c.FindCase(ctx, c.Book, entrant.Car.Name)
		if err != nil {
			return bot.Reply{}, err
		}
		if reply.Files, err = printSheet("sheet.pdf", c.carPage(e, k)); err != nil {
			return bot.Reply{}, err
		}
	}
	return reply, nil
}

// keepEntry enters a car as the options have it. Of a car that is in already it
// keeps what they say is wanted; when they say nothing, that is refused.
func (c call) keepEntry(ctx context.Context, e tuning.Event, entrant *tuning.Entrant, in bool, o enterEventOptions) error {
	bot.Overwrite(&entrant.Reminded, o.Remind)
	bot.Overwrite(&entrant.Sheet, o.Sheet)
	if !in || o.Remind == nil && o.Sheet == nil {
		return c.Book.Enter(ctx, e, *entrant)
	}
	if o.Remind != nil {
		if err := c.Book.Remind(ctx, e, entrant.Car, entrant.Reminded); err != nil {
			return err
		}
	}
	if o.Sheet != nil {
		return c.Book.WantSheet(ctx, e, entrant.Car, entrant.Sheet)
	}
	return nil
}

// sayEntered confirms an entry, says which messages will come and offers to
// refuse them.
func sayEntered(call call, e tuning.Event, entrant tuning.Entrant, in int) bot.Reply {
	reply := bot.Reply{View: bot.View{Size: phone.Page}, Title: entrant.Car.Name + " is in for " + e.Name, Text: say.Event(e, call.Zone()) + "\n" + say.Places(e, in)}
	sheet := bot.Button("My sheet", "/event sheet", bot.OfEvent(e), bot.OfCar(entrant.Car))
	out := bot.Button("Take my entry back", "/event leave", bot.OfEvent(e), bot.OfCar(entrant.Car))
	if entrant.Reminded {
		reply.Text += "\nA reminder to check the car comes before it, and one question how the car felt after it."
		if call.Member.Reminders && !call.Member.Muted {
			reply.Text += " The organiser may message you about it; /me set messages:off stops that."
		}
		reply.Actions = []bot.Action{sheet, bot.Button("No messages, please", "/event enter remind:no", bot.OfEvent(e), bot.OfCar(entrant.Car)), out}
	} else {
		reply.Text += "\nNo message will come about it."
		reply.Actions = []bot.Action{sheet, bot.Button("Do send messages", "/event enter remind:yes", bot.OfEvent(e), bot.OfCar(entrant.Car)), out}
	}
	if entrant.Sheet {
		reply.Text += "\nA sheet is printed for you; sheet:no if not."
	} else {
		reply.Text += "\nNo sheet is printed for you."
	}
	if entrant.Reminded && !call.Member.Reminders {
		reply.Notes = append(reply.Notes, "Your reminders are off for all events: /me set reminders:on brings them back.")
	}
	if err := entrant.Car.Fitted(); err != nil {
		reply.Notes = append(reply.Notes, "I do not know its dampers yet: tell me with /damper fit, and the guide and your sheet have its figures.")
	}
	return reply
}

func leaveEvent(ctx context.Context, call call, o leaveEventOptions) (bot.Reply, error) {
	e, entrants, err := call.openEvent(ctx, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	leaving := bot.EntriesOf(entrants, call.Owner())
	if o.Car != "" {
		car, err := call.FindCar(ctx, call.Book, o.Car)
		if err != nil {
			return bot.Reply{}, err
		}
		leaving = []tuning.Entrant{{Car: car}}
	}
	if len(leaving) == 0 {
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "You are not entered in %s.", e.Name)
	}
	for _, gone := range leaving {
		if err := call.Book.Leave(ctx, e, gone.Car); err != nil {
			return bot.Reply{}, err
		}
		entrants = slices.DeleteFunc(entrants, func(other tuning.Entrant) bool { return other.Car.ID == gone.Car.ID })
	}
	return bot.Reply{Title: say.AllOf(carNames(leaving)) + " left " + e.Name, Text: "No message will come about it.",
		Actions: []bot.Action{bot.Button("Enter again", "/event enter", bot.OfEvent(e), bot.OfCar(leaving[0].Car))}}, call.PlanEntries(ctx, call.Book, e, entrants, call.Owner())
}

func carNames(entrants []tuning.Entrant) []string {
	names := make([]string, len(entrants))
	for i, e := range entrants {
		names[i] = e.Car.Name
	}
	return names
}
