package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func feelCommands() []Command {
	mark := func(where string) Option {
		return Option{Name: where, Help: "balance on " + where + ": -3 pushes wide, 0 neutral, +3 comes round", Kind: Whole, Min: -3, Max: 3}
	}
	return []Command{{Name: "feel", Help: "Record how the car felt", Private: true, Writes: true, Answer: feel, Form: []string{"grip", "entry", "mid", "exit", "notes"}, Options: []Option{
		{Name: "grip", Help: "grip, 1 none to 10 the most it has had", Kind: Whole, Required: true, Min: 1, Max: 10},
		mark("entry"), mark("mid"), mark("exit"),
		{Name: "hop", Help: "did it hop over bumps", Kind: Choice, Choices: yesNo},
		{Name: "better", Help: "against the run before the last change", Kind: Choice, Choices: []string{"yes", "no", "same"}},
		{Name: "lap", Help: "the lap time", Kind: Lap},
		{Name: "notes", Help: "in your own words"},
		carOption,
		{Name: "event", Help: "the event it was at, when not the one of today", Source: FromEvents},
	}}}
}

func feel(ctx context.Context, call Call) (Reply, error) {
	c, err := call.running(ctx)
	if err != nil {
		return Reply{}, err
	}
	event, err := call.feltAt(ctx, c.Car)
	if err != nil {
		return Reply{}, err
	}
	a := call.Args
	f := tuning.Feel{
		Car: c.Car.ID, Event: event.ID, Person: call.owner(), At: call.now(), Grip: a.Whole("grip"),
		Entry: a.Mark("entry"), Mid: a.Mark("mid"), Exit: a.Mark("exit"), Hop: a.Yes("hop"),
		Better: tuning.Better(a.Text("better")), Lap: a.Duration("lap"), Notes: strings.TrimSpace(a.Text("notes")),
	}
	if err := f.Validate(); err != nil {
		return Reply{}, err
	}
	if _, err = call.Book.SaveFeel(ctx, f); err != nil {
		return Reply{}, err
	}
	reply := sayFeel(c, f)
	if event.ID != 0 {
		reply.Notes = append(reply.Notes, "It counts as your answer for "+event.Name+".")
	}
	return reply, nil
}

// feltAt finds the event that the line names, zero when it names none. The car
// must be in it, and it must have begun.
func (c Call) feltAt(ctx context.Context, car tuning.Car) (tuning.Event, error) {
	if !c.Args.Has("event") {
		return tuning.Event{}, nil
	}
	e, err := c.eventCalled(ctx, c.Args.Text("event"))
	if err != nil {
		return e, err
	}
	entrants, err := c.Book.Entrants(ctx, e)
	in := func(other tuning.Entrant) bool { return other.Car.ID == car.ID }
	switch {
	case err != nil:
		return e, err
	case !slices.ContainsFunc(entrants, in):
		return e, tuning.Problemf(tuning.NotFound, "%s is not entered in %s.", car.Name, e.Name)
	case e.Starts.After(c.now()):
		return e, tuning.Problemf(tuning.Invalid, "%s begins on %s: say how it felt once you have driven.", e.Name, say.Time(e.Starts, calendar.ClubZone(c.Club)))
	}
	return e, nil
}

// FeelAt is the line, for a button, that says how a car felt at an event. The
// event goes by its number, for another may bear its name.
func FeelAt(e tuning.Event, car tuning.Car) string {
	return aim(fmt.Sprintf("/feel event:%s%d", eventNumber, e.ID), car)
}

// sayFeel says a feel back and offers what follows from it.
func sayFeel(c tuning.Case, f tuning.Feel) Reply {
	reply := Reply{Title: fmt.Sprintf("Noted: grip %d of 10", f.Grip), Text: "For " + c.Car.Name + say.Feel(f) + "."}
	if word := tuning.Fault(f.Notes); word != "" {
		reply.Title = "Stop: have it inspected"
		reply.Notes = []string{fmt.Sprintf("Your notes say %q. That is a fault, not a set-up: no clicks until it has been looked at.", word)}
		reply.Cautions = say.Cautions([]tuning.Caution{tuning.Broken})
		return reply
	}
	switch f.Better {
	case tuning.BetterNo:
		reply.Notes = []string{"Worse than before: the last change may come back."}
		if last, ok := undoable(c); ok {
			reply.Actions = append(reply.Actions, Action{"Take the change back", undoLine(c.Car, last.ID)})
		}
	case tuning.BetterSame:
		reply.First = tuning.Checks
	}
	for _, m := range []struct {
		where tuning.Where
		mark  *int
	}{{tuning.Entry, f.Entry}, {tuning.Mid, f.Mid}, {tuning.Exit, f.Exit}} {
		if what := complaintOf(m.mark); what != "" {
			reply.Actions = append(reply.Actions, Action{fmt.Sprintf("Cure the %s on %s", what, m.where),
				aim(fmt.Sprintf("/symptom what:%s where:%s", what, m.where), c.Car)})
		}
	}
	if f.Hop != nil && *f.Hop {
		reply.Actions = append(reply.Actions, Action{"Cure the hop", aim("/symptom what:hops", c.Car)})
	}
	return reply
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

// feelActions ask how a change felt. Each opens the form, which has no room for
// the question that matters most: so the button answers that one.
func feelActions(car tuning.Car) []Action {
	return []Action{
		{"It felt better", aim("/feel better:yes", car)},
		{"The same", aim("/feel better:same", car)},
		{"Worse", aim("/feel better:no", car)},
	}
}
