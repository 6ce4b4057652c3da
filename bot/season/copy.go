package season

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"detent/bot"
	"detent/tuning"
	"detent/tuning/calendar"
)

func copyEventCommand() bot.Command {
	return declare(bot.Command{Name: "event copy", Help: "Plan the same event on another day", Role: tuning.OrganiserRole, Writes: true,
		Form: []string{"starts", "as"}}, copyEvent)
}

type copyEventOptions struct {
	Name   string    `name:"name" help:"the event to copy" required:"yes" source:"events"`
	Starts time.Time `name:"starts" help:"when the new one starts, in the club's local time" required:"yes"`
	As     string    `name:"as" help:"what the new one is called, when not the same"`
}

// copyEvent plans an event like another: as long by the club's clocks, at the
// same place, and nobody in it yet.
func copyEvent(ctx context.Context, call call, o copyEventOptions) (bot.Reply, error) {
	was, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	name, said := o.As, ""
	if name == "" {
		if name, said, err = call.nameCopy(ctx, was, o.Starts); err != nil {
			return bot.Reply{}, err
		}
	}
	starts, _ := calendar.Settle(o.Starts, call.Zone())
	ends := calendar.AnotherDay(was.Starts, was.Ends, starts, call.Zone()).In(call.Zone())
	reply, err := addEvent(ctx, call, addEventOptions{Name: name, Starts: o.Starts, Ends: ends,
		eventDetails: eventDetails{Surface: was.Surface, Weather: was.Weather, Limit: &was.Limit, Place: given(was.Place)}})
	if err != nil {
		return bot.Reply{}, err
	}
	if said != "" {
		reply.Notes = append([]string{said}, reply.Notes...)
	}
	if !was.GuideAt.IsZero() {
		reply.Notes = append(reply.Notes, "Its guide does not come by itself: /event edit guide-at says when.")
	}
	return reply, nil
}

// given is a text as an option, nil for "".
func given(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// nameCopy names the copy of an event: as the event is called, and with the day
// behind it where an event to come has that name. said tells so.
func (c call) nameCopy(ctx context.Context, was tuning.Event, starts time.Time) (name, said string, err error) {
	events, err := c.Book.Events(ctx, c.Now())
	if err != nil {
		return "", "", err
	}
	taken := func(name string) bool {
		return slices.ContainsFunc(events, func(e tuning.Event) bool { return !e.Cancelled && strings.EqualFold(e.Name, name) })
	}
	if !taken(was.Name) {
		return was.Name, "", nil
	}
	stem := strings.TrimSuffix(was.Name, was.Starts.In(c.Zone()).Format(dayAfterName)) // of a copy
	day := starts.Format(dayAfterName)
	name = clipName(stem, tuning.MaxName-len(day)) + day
	return name, fmt.Sprintf("%s is planned already, so this one has its day in the name. Another name: /event edit rename.", was.Name), nil
}

// dayAfterName is how a day stands behind the name of a copy.
const dayAfterName = " 2 Jan"

// clipName is a name of at most so many characters.
func clipName(name string, most int) string {
	runes := []rune(name)
	return strings.TrimSpace(string(runes[:min(len(runes), most)]))
}
