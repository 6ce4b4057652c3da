package coaching

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func leaveNoteCommand() bot.Command {
	return declare(bot.Command{Name: "coach note", Help: "Leave a note for a student, or for several", Role: tuning.CoachRole, Private: true, Writes: true}, leaveNote)
}

func readNotesCommand() bot.Command {
	return declare(bot.Command{Name: "coach notes", Help: "What your coaches wrote and suggested", Private: true, Writes: true}, readNotes)
}

func seenCommand() bot.Command {
	return declare(bot.Command{Name: "coach seen", Help: "When which coach looked at your things", Private: true}, listLooks)
}

type noteOptions struct {
	studentsNamed
	Text string `name:"text" help:"what you want to say" required:"yes"`
}

// maxNote is the longest note a coach leaves, in characters.
const maxNote = 1000

// checkWords reads a text that must say something and not too much.
func checkWords(option, text string) (string, error) {
	text = strings.TrimSpace(text)
	switch n := len([]rune(text)); {
	case n == 0:
		return "", bot.Problemf(tuning.Invalid, "Say something in %s.", option)
	case n > maxNote:
		return "", bot.Problemf(tuning.Limit, "Keep %s under %d characters.", option, maxNote)
	}
	return text, nil
}

func leaveNote(ctx context.Context, call call, o noteOptions) (bot.Reply, error) {
	students, err := o.find(ctx, call)
	if err != nil {
		return bot.Reply{}, err
	}
	text, err := checkWords("text", o.Text)
	if err != nil {
		return bot.Reply{}, err
	}
	var enough []tuning.Member
	for _, m := range students {
		note, err := call.Book.SaveNote(ctx, tuning.CoachNote{Coach: call.Owner(), Student: m.Person, Text: text})
		if err != nil {
			return bot.Reply{}, err
		}
		sent, err := call.sendWord(ctx, m.Person, calendar.CoachNote, note.ID)
		if err != nil {
			return bot.Reply{}, err
		}
		if !sent {
			enough = append(enough, m)
		}
	}
	return headed(bot.Reply{Text: call.sayReach(students, enough)}, "Note left for", students), nil
}

func readNotes(ctx context.Context, call call, o bot.MoreOption) (bot.Reply, error) {
	waiting, err := call.Book.Suggestions(ctx, call.Owner())
	if err != nil {
		return bot.Reply{}, err
	}
	notes, err := call.Book.Notes(ctx, call.Owner(), mostNotes)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := call.Book.NoteSeen(ctx, call.Owner()); err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: "Nothing from a coach", Text: "Notes and suggestions of your coaches stand here."}
	var lines []string
	for _, s := range waiting {
		r := s.Advice.Remedies[0]
		lines = append(lines, fmt.Sprintf("%s suggests for %s: %s. %s", s.CoachName, s.Car.Name, say.Turns(s.Car, r.Moves), say.Words(string(r.Why))))
		if len(reply.Actions) == mostButtons {
			continue // they come once these are settled
		}
		reply.Actions = append(reply.Actions, bot.Button(fmt.Sprintf("Done: suggestion %d", s.Advice.ID), bot.ApplyLine(s.Advice.ID, 1)),
			bot.Button(fmt.Sprintf("Decline %d", s.Advice.ID), fmt.Sprintf("/coach decline advice:%d", s.Advice.ID)))
	}
	for _, n := range notes {
		reply.Notes = append(reply.Notes, fmt.Sprintf("%s, %s: %s", n.At.In(call.Zone()).Format("2 Jan"), n.CoachName, say.Words(n.Text)))
	}
	switch {
	case len(lines) > 0:
		reply.Title, reply.Text = "A coach suggests a change", strings.Join(lines, "\n")
		reply.View.Care.Turns = true
		reply.Cautions = say.Cautions([]tuning.Caution{tuning.Hot, tuning.Gently, tuning.EaseIn, tuning.Closed})
	case len(notes) > 0:
		reply.Title, reply.Text = "From your coaches", "No suggestion waits for you."
	}
	return o.Paged(reply, "/coach notes"), nil
}

// mostNotes is how many of the newest notes can be read.
const mostNotes = 30

// mostButtons is how many buttons suggestions have at once.
const mostButtons = 4

func listLooks(ctx context.Context, call call, o bot.MoreOption) (bot.Reply, error) {
	looks, err := call.Book.Looks(ctx, call.Owner(), 20)
	if err != nil {
		return bot.Reply{}, err
	}
	if len(looks) == 0 {
		return bot.Reply{Title: "No coach has looked at your things"}, nil
	}
	var lines []string
	for _, l := range looks {
		if l.Coach == "" {
			l.CoachName = "A coach who has left"
		}
		lines = append(lines, fmt.Sprintf("%s: %s looked at %s", l.At.In(call.Zone()).Format("2 Jan 15:04"), l.CoachName, l.What))
	}
	return o.Paged(bot.Reply{Title: "Coaches looked " + say.Count(len(looks), "time", "times"), Text: strings.Join(lines, "\n")}, "/coach seen"), nil
}
