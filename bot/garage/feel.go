package garage

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func feelCommand() bot.Command {
	return declare(bot.Command{Name: "feel", Help: "Record how the car felt", Private: true, Writes: true,
		Form: []string{"grip", "entry", "mid", "exit", "notes"}}, recordFeel)
}

type feelOptions struct {
	Grip   int           `name:"grip" help:"grip, 1 none to 10 the most it has had" required:"yes" min:"1" max:"10"`
	Entry  *int          `name:"entry" help:"balance on entry: -3 pushes wide, 0 neutral, +3 comes round" min:"-3" max:"3"`
	Mid    *int          `name:"mid" help:"balance on mid: -3 pushes wide, 0 neutral, +3 comes round" min:"-3" max:"3"`
	Exit   *int          `name:"exit" help:"balance on exit: -3 pushes wide, 0 neutral, +3 comes round" min:"-3" max:"3"`
	Hop    *bool         `name:"hop" help:"did it hop over bumps"`
	Better tuning.Better `name:"better" help:"against the run before the last change"`
	Lap    time.Duration `name:"lap" help:"the lap time" kind:"lap"`
	Notes  string        `name:"notes" help:"in your own words"`
	measuredOptions
	bot.CarOption
	Event string `name:"event" help:"the event it was at, when not the one of today" source:"events"`
}

func recordFeel(ctx context.Context, call call, o feelOptions) (bot.Reply, error) {
	c, err := call.FindRunning(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	event, err := call.feltAt(ctx, c.Car, o.Event)
	if err != nil {
		return bot.Reply{}, err
	}
	f := tuning.Feel{
		Car: c.Car.ID, Event: event.ID, Person: call.Owner(), At: call.Now(), Grip: o.Grip,
		Entry: o.Entry, Mid: o.Mid, Exit: o.Exit, Hop: o.Hop,
		Better: o.Better, Lap: o.Lap, Notes: strings.TrimSpace(o.Notes),
	}
	if err := o.measure(&f, call.Imperial()); err != nil {
		return bot.Reply{}, err
	}
	if err := f.Validate(); err != nil {
		return bot.Reply{}, err
	}
	if _, err = call.Book.SaveFeel(ctx, f); err != nil {
		return bot.Reply{}, err
	}
	reply := sayFeel(c, f, call.Imperial())
	if event.ID != 0 {
		counts := "It counts as your answer for " + event.Name + "."
		reply.Notes = append(reply.Notes, counts)
		reply, _ = reply.WithSpare(counts)
	}
	return reply, nil
}

// feltAt finds the event of a name, zero for none. The car
// must be in it, and it must have begun.
func (c call) feltAt(ctx context.Context, car tuning.Car, name string) (tuning.Event, error) {
	if name == "" {
		return tuning.Event{}, nil
	}
	e, err := c.FindEvent(ctx, c.Book, name)
	if err != nil {
		return e, err
	}
	entrants, err := c.Book.Entrants(ctx, e)
	in := func(other tuning.Entrant) bool { return other.Car.ID == car.ID }
	switch {
	case err != nil:
		return e, err
	case !slices.ContainsFunc(entrants, in):
		return e, bot.Problemf(tuning.NotFound, "%s is not entered in %s.", car.Name, e.Name)
	case e.Starts.After(c.Now()):
		return e, bot.Problemf(tuning.Invalid, "%s begins on %s: say how it felt once you have driven.", e.Name, say.Time(e.Starts, c.Zone()))
	}
	return e, nil
}

// sayFeel says a feel back and offers what follows from it.
func sayFeel(c tuning.Case, f tuning.Feel, imperial bool) bot.Reply {
	reply := bot.Reply{Title: fmt.Sprintf("Noted: grip %d of 10", f.Grip), Text: "For " + phone.Clip(c.Car.Name, phone.NameColumns) + say.Feel(f, imperial) + "."}
	if word := tuning.Fault(f.Notes); word != "" {
		reply.Title = "Stop: have it inspected"
		reply.Notes = []string{fmt.Sprintf("Your notes say %q. That is a fault, not a set-up: no clicks until it has been looked at.", word)}
		reply.Cautions = say.Cautions([]tuning.Caution{tuning.Broken})
		return reply
	}
	last, changed := undoable(c)
	changed = changed && !last.Corrects()
	switch {
	case f.Better != "" && !changed:
		reply.View.Line = "Nothing was turned before it, so it is put to no change."
	case f.Better == tuning.BetterNo:
		reply.View.Line = "Worse. Take the last change back?"
	case f.Better == tuning.BetterSame:
		reply.View.Line = "No gain: go through the checks before the next click."
	}
	if reply.View.Quiet = true; reply.View.Line != "" {
		reply.Notes = []string{reply.View.Line}
	}
	again := false
	if f.Better != "" && changed {
		again = stepsOn(last, f.Better)
		reply.Actions = nextSteps(c.Car, last, f.Better)
	}
	if f.Better == tuning.BetterSame {
		reply.First, reply.Actions = say.Checks(tuning.Checks), append(reply.Actions, checksButton)
	}
	for _, m := range []struct {
		where tuning.Where
		mark  *int
	}{{tuning.Entry, f.Entry}, {tuning.Mid, f.Mid}, {tuning.Exit, f.Exit}} {
		if what := complaintOf(m.mark); what != "" && !(again && last.Complaint.What == what && cmp.Or(last.Complaint.Where, tuning.Entry) == m.where) {
			reply.Actions = append(reply.Actions, bot.Button(fmt.Sprintf("Cure the %s on %s", what, m.where),
				fmt.Sprintf("/symptom what:%s where:%s", what, m.where), bot.OfCar(c.Car)))
		}
	}
	if f.Hop != nil && *f.Hop {
		reply.Actions = append(reply.Actions, bot.Button("Cure the hop", "/symptom what:hops", bot.OfCar(c.Car)))
	}
	return reply
}

// nextSteps are what can follow a change once the driver has said how it felt,
// the likeliest first: one more step, leave it, or take it back.
func nextSteps(car tuning.Car, last tuning.Change, felt tuning.Better) []bot.Action {
	leave, back := bot.Button("Leave it", "/clicks show", bot.OfCar(car)), undoButton("Take it back", car, last.ID)
	switch {
	case felt == tuning.BetterNo:
		return []bot.Action{back, leave}
	case !stepsOn(last, felt):
		return []bot.Action{leave, back}
	}
	return []bot.Action{bot.Button("One more step", symptomLine(*last.Complaint), bot.OfCar(car)), leave, back}
}

// stepsOn tells whether one more step for the change's complaint can follow it.
func stepsOn(last tuning.Change, felt tuning.Better) bool {
	return felt != tuning.BetterNo && last.Complaint != nil && last.Complaint.Made()
}

// complaintOf turns a balance mark into a complaint worth curing.
func complaintOf(mark *int) tuning.What {
	switch {
	case mark == nil || *mark == 0:
		return ""
	case *mark < 0:
		return tuning.Understeer
	}
	return tuning.Oversteer
}

// feelActions ask how a change felt. Each opens the form, which has no field
// left for the question that matters most, so the button itself answers that
// one.
func feelActions(car tuning.Car) []bot.Action {
	return []bot.Action{
		bot.Button("It felt better", "/feel better:yes", bot.OfCar(car)),
		bot.Button("The same", "/feel better:same", bot.OfCar(car)),
		bot.Button("Worse", "/feel better:no", bot.OfCar(car)),
	}
}
