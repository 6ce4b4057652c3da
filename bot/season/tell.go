package season

import (
	"context"
	"fmt"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func tellEntrantsCommand() bot.Command {
	return declare(bot.Command{Name: "event tell", Help: "Send one message to those who are in and take messages", Role: tuning.OrganiserRole,
		Private: true, Writes: true, Form: []string{"text"}}, tellEntrants)
}

type tellOptions struct {
	Text string `name:"text" help:"what you want to say" required:"yes"`
	eventOption
}

const (
	mostTold  = 2              // messages a day of the club to those in an event
	longTold  = 400            // the longest of them, in characters: a phone shows it whole
	longQuiet = 24 * time.Hour // no quiet hours last longer
)

func tellEntrants(ctx context.Context, call call, o tellOptions) (bot.Reply, error) {
	text, err := tellable(o.Text)
	switch {
	case err != nil:
		return bot.Reply{}, err
	case text == "":
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Say in text what those who are in should know.")
	}
	e, entrants, err := call.openEvent(ctx, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	reached := reachOf(entrants)
	if err := call.checkTelling(ctx, e, reached); err != nil {
		return bot.Reply{}, err
	}
	return call.tell(ctx, e, reached, tuning.EventMessage{Text: text})
}

// tellable reads a text to those who are in an event as one paragraph. It returns
// a Problem for one that is too long.
func tellable(text string) (string, error) {
	text = strings.Join(strings.Fields(text), " ")
	if len([]rune(text)) > longTold {
		return "", bot.Problemf(tuning.Limit, "Keep text under %d characters: a phone shows that much at once.", longTold)
	}
	return text, nil
}

// tell keeps a message, sends it to those who want it, and says who they are.
func (c call) tell(ctx context.Context, e tuning.Event, reached reach, message tuning.EventMessage) (bot.Reply, error) {
	message.Event, message.Sender = e.ID, c.Owner()
	message, err := c.Book.SaveEventMessage(ctx, message)
	if err != nil {
		return bot.Reply{}, err
	}
	due, err := calendar.ForEntrants(c.Club, e, message.ID, c.Now())
	if err != nil {
		return bot.Reply{}, err
	}
	return sayTold(e, reached, c.sayWhen(due.At)), c.Book.Deliver(ctx, due, reached.wanting...)
}

// checkTelling returns a Problem when nobody would get a message about an
// event, or enough were sent today.
func (c call) checkTelling(ctx context.Context, e tuning.Event, r reach) error {
	switch {
	case len(r.wanting)+r.unwilling == 0:
		return bot.Problemf(tuning.Conflict, "Nobody is in %s yet, so there is nobody to tell.", e.Name)
	case len(r.wanting) == 0:
		return bot.Problemf(tuning.Conflict, "Nobody who is in %s takes messages: tell them yourself.", e.Name)
	}
	return c.checkDay(ctx, e)
}

// checkDay returns a Problem when enough messages go out on the day on which
// one that is told now would: what is told in the quiet hours waits for morning,
// so two told late in the evening count as that morning's.
func (c call) checkDay(ctx context.Context, e tuning.Event) error {
	next, err := calendar.ForEntrants(c.Club, e, 0, c.Now())
	if err != nil {
		return err
	}
	day, after := calendar.Today(next.At, c.Zone())
	told, err := c.Book.EventMessages(ctx, e, day.Add(-longQuiet))
	if err != nil {
		return err
	}
	had := 0
	for _, m := range told {
		went, err := calendar.ForEntrants(c.Club, e, m.ID, m.At)
		if err != nil {
			return err
		}
		if !went.At.Before(day) && went.At.Before(after) {
			had++
		}
	}
	if had < mostTold {
		return nil
	}
	if next.At.After(c.Now()) {
		return bot.Problemf(tuning.Limit, "Those in %s get %d messages after the quiet hours already: write the next from %s.", e.Name, mostTold, say.Time(after, c.Zone()))
	}
	return bot.Problemf(tuning.Limit, "Those in %s have had %d messages today: the next can go from %s.", e.Name, mostTold, say.Time(after, c.Zone()))
}

// reach is whom a message about an event reaches.
type reach struct {
	wanting   []string // who are in and take messages
	closed    int      // of those, whom the platform lets nobody write to
	unwilling int      // who are in and take none
}

// reachOf counts people, not cars. Whoever has retired the car is not in any
// more, and whoever wants no reminder of the event was told that nothing comes.
func reachOf(entrants []tuning.Entrant) (r reach) {
	wants := map[string]bool{}
	var people []tuning.Entrant
	for _, e := range entrants {
		if e.Car.Retired {
			continue
		}
		if _, known := wants[e.Person]; !known {
			people = append(people, e)
		}
		wants[e.Person] = wants[e.Person] || e.Reminded && !e.Muted
	}
	for _, e := range people {
		switch {
		case !wants[e.Person]:
			r.unwilling++
		case e.NoDirect:
			r.closed++
			fallthrough
		default:
			r.wanting = append(r.wanting, e.Person)
		}
	}
	return r
}

// sayWhen says when a message goes out. In the quiet hours it goes at once only
// where waiting would bring it too late.
func (c call) sayWhen(at time.Time) string {
	hours, err := calendar.HoursOf(c.Club)
	switch {
	case at.After(c.Now()):
		return fmt.Sprintf("It goes out on %s, after the quiet hours, with your name.", say.Time(at, c.Zone()))
	case err == nil && hours.Quiet(at):
		return "It goes out now, in the quiet hours: the event is too near to wait. It has your name."
	}
	return "It goes out now, with your name."
}

// sayTold confirms a message: who gets it, and when.
func sayTold(e tuning.Event, r reach, when string) bot.Reply {
	lines := []string{when}
	if r.closed > 0 {
		lines = append(lines, say.Count(r.closed, "of them takes", "of them take")+" no direct messages just now and may miss it.")
	}
	if r.unwilling > 0 {
		lines = append(lines, say.Count(r.unwilling, "other wants", "others want")+" no messages: tell them yourself.")
	}
	return bot.Reply{Title: fmt.Sprintf("Message to %s in %s", say.Count(len(r.wanting), "person", "people"), e.Name), Text: strings.Join(lines, "\n")}
}
