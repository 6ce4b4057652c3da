package remind

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

// letter is what is sent: to the person, and where they take no direct
// messages in the club's channel, unless it is nothing for others to read.
type letter struct {
	direct bot.Reply
	public *bot.Reply
	empty  bool
	sent   func(context.Context) error // what is to be noted once it is sent
}

// write writes the letter of the thing that is due.
func (e *errand) write(ctx context.Context) (letter, error) {
	switch e.due.Kind {
	case calendar.AskFeel, calendar.AskAgain:
		return askFeel(e.due.Kind, e.occasion), nil
	case calendar.CheckBefore:
		return e.checkBefore(ctx)
	case calendar.PostGuide:
		return e.guide(ctx)
	case calendar.Digest:
		return e.digest(ctx)
	case calendar.CoachNote, calendar.Suggestion:
		return coachWord(e.occasion.Word), nil
	case calendar.EventMessage:
		return eventMessage(e.occasion), nil
	}
	return letter{}, fmt.Errorf("nothing is known of the kind %q", e.due.Kind)
}

// askFeel asks how the car felt: one press leads to the form.
func askFeel(kind calendar.Kind, o calendar.Occasion) letter {
	question := "how did the car feel at " + o.Event.Name + "?"
	direct := bot.Reply{
		Title: strings.ToUpper(question[:1]) + question[1:],
		Text:  "A mark for the grip is enough; it tells what to turn next time.",
		Notes: []string{"I ask once more tomorrow, and then no more."},
	}
	if kind == calendar.AskAgain {
		direct.Notes = []string{"I ask no more after this."}
	}
	for _, e := range o.Unanswered() {
		direct.Actions = append(direct.Actions, bot.FeelAt("Say how "+phone.Clip(e.Car.Name, phone.NameColumns)+" felt", o.Event, e.Car))
	}
	direct.Actions = append(direct.Actions, noMore)
	return letter{direct: direct, public: &bot.Reply{
		Title: o.Member.Name + ", " + question,
		Text:  fmt.Sprintf("/feel event:#%d takes a mark for the grip; it tells what to turn next time.", o.Event.ID),
	}}
}

var noMore = bot.Action{Label: "No more reminders", Ask: "/me set reminders:off"}

// checkBefore reminds of the clicks and the pressures before an event, and of what
// worked there before. That is for the person alone.
func (e *errand) checkBefore(ctx context.Context) (letter, error) {
	o := e.occasion
	zone, err := calendar.Zone(o.Club.Zone)
	if err != nil {
		return letter{}, err
	}
	starts := o.Event.Name + " starts on " + o.Event.Starts.In(zone).Format("Monday 2 January at 15:04")
	check := bot.Reply{
		Title: starts,
		Text:  "See that the clicks stand where you want to begin, left and right alike, and take the hot pressures after the first run.",
		First: say.Checks(tuning.Checks),
		View:  bot.View{Size: phone.Page},
	}
	public := check
	public.Title = o.Member.Name + ", " + starts
	for _, in := range o.Wanted() {
		check.Actions = append(check.Actions, bot.Button("Clicks of "+phone.Clip(in.Car.Name, phone.NameColumns), "/clicks show", bot.OfCar(in.Car)))
	}
	check, err = e.remember(ctx, check)
	check.Actions = append(check.Actions, noMore)
	return letter{direct: check, public: &public}, err
}

// remember adds what worked before at the place to a reminder, as far as it has
// room, and a button to all of it.
func (e *errand) remember(ctx context.Context, check bot.Reply) (bot.Reply, error) {
	if e.Memories == nil {
		return check, nil
	}
	o := e.occasion
	for _, in := range o.Wanted() {
		lines, err := e.Memories.Memory(ctx, o.Club, o.Event, in.Car)
		if err != nil || len(lines) == 0 {
			if err != nil {
				return check, err
			}
			continue
		}
		if len(o.Wanted()) > 1 {
			lines[0] = in.Car.Name + ", " + lines[0]
		}
		check.Actions = append(check.Actions, bot.Button("What worked with "+phone.Clip(in.Car.Name, phone.NameColumns), "/event place", bot.OfEvent(o.Event), bot.OfCar(in.Car)))
		check, _ = check.WithSpare(lines...)
	}
	return check, nil
}

// guide is the guide of an event, unless it was posted as it is.
func (e *errand) guide(ctx context.Context) (letter, error) {
	if e.Guides == nil {
		return letter{empty: true}, nil
	}
	guide, hash, err := e.Guides.Guide(ctx, e.due.Club, e.due.Event)
	return letter{
		public: &guide, empty: hash == "",
		sent: func(ctx context.Context) error { return e.Guides.Posted(ctx, e.due.Club, e.due.Event, hash) },
	}, err
}

// digest is a coach's week, which is nothing for others to read. It comes no
// more when they have no students.
func (e *errand) digest(ctx context.Context) (letter, error) {
	if e.Digests == nil {
		return letter{empty: true}, nil
	}
	hours, err := calendar.HoursOf(e.occasion.Club)
	if err != nil {
		return letter{}, err
	}
	from, to := hours.Week(e.due.At)
	digest, err := e.Digests.Digest(ctx, e.due.Club, e.due.Person, from, to)
	e.last = err == nil && len(digest.Students) == 0
	return letter{
		direct: digest.Reply, empty: !digest.News,
		sent: func(ctx context.Context) error { return e.Digests.Delivered(ctx, e.due.Club, e.due.Person, digest) },
	}, err
}
