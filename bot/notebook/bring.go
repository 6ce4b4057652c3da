package notebook

import (
	"context"
	"strings"
	"unicode/utf8"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

// bringing is an advice that brings a setting from elsewhere to a car.
type bringing struct {
	c       tuning.Case
	want    tuning.Setting
	from    [tuning.Axles]tuning.Damper // the dampers it comes from
	carried []tuning.Carried            // what did not come as it was
	remedy  tuning.Remedy               // but for its moves
	head    string                      // what is brought, in a few words
	said    string                      // of where it comes from, one sentence behind the car's name
	more    []string                    // what else there is to say of it, where there is room
	line    string                      // the one line, where nothing weightier applies
	actions []bot.Action                // behind the one that sets it
}

// bring keeps the advice, so that a button can set it, and shows it.
func (c call) bring(ctx context.Context, b bringing) (bot.Reply, error) {
	car := b.c.Car
	turns := b.c.Setting.Toward(b.want, car)
	roundings := append(say.OtherWork(b.from, car), say.Roundings(car, b.carried)...)
	reply := bot.Reply{Notes: roundings, Text: phone.Clip(car.Name, phone.NameColumns) + b.said, View: bot.View{Quiet: true, Line: b.sayLine()}}
	if len(turns) == 0 && !b.c.History.Unrecorded {
		reply.Title, reply.Actions = "Nothing to turn: "+car.Name+" stands there already", b.actions
		reply.Corners = bot.Standing(car, b.c.Setting)
		return reply.WithLines(b.more...), nil
	}
	b.remedy.Moves = b.c.Setting.Across(b.want, car)
	b.remedy.Why = tuning.Why(strings.Join(append([]string{string(b.remedy.Why)}, roundings...), " "))
	cautions := tuning.BaselineCautions(car, b.remedy.Moves)
	advice, err := c.Book.SaveAdvice(ctx, tuning.Advice{Car: car.ID, Remedies: []tuning.Remedy{b.remedy}, Cautions: cautions}, b.c.Setting)
	if err != nil {
		return bot.Reply{}, err
	}
	reply.Corners, reply.Cautions = bot.CornersOf(car, b.remedy.Moves), say.Cautions(cautions)
	reply.View.Care = bot.CareFor(car, b.remedy.Moves)
	reply.View.Moves = bot.Moving(reply.Corners)
	if b.c.History.Unrecorded { // nobody knows from where
		reply.View.Moves = bot.Standing(car, b.want)
		reply.Text += " Count each out from the stop."
	}
	reply.Actions = append([]bot.Action{bot.Button("These are set now", bot.ApplyLine(advice.ID, 1))}, b.actions...)
	reply.Actions = append(reply.Actions, bot.Why(advice.ID, 1))
	if b.c.History.ChecksDue {
		reply.First = say.Checks(tuning.Checks)
	}
	if b.c.History.ChecksToShow() {
		reply.Actions = append(reply.Actions, bot.Button("Checks", "/help part:checks"))
	}
	reply.Title = b.head + ": " + say.Turns(car, turns)
	if b.c.History.Unrecorded || phone.Width(reply.Title) > 2*phone.Columns || !reply.Whole() {
		reply.Title = b.head + ": see the table"
	}
	if reply = reply.WithLines(b.more...); !reply.Whole() {
		reply.View.Line = ""
	}
	return reply, nil
}

// sayLine is the first line that applies.
func (b bringing) sayLine() string {
	other := say.OtherWork(b.from, b.c.Car)
	switch {
	case len(other) > 0:
		return other[0]
	case b.line != "":
		return b.line
	case len(b.carried) > 0:
		return b.sayCarried()
	case b.c.History.ChecksToShow():
		return say.ChecksLine
	}
	return ""
}

// sayCarried says what came of going to other dampers.
func (b bringing) sayCarried() string {
	short, whole := say.Rounded(b.c.Car, b.carried)
	if line := "Other dampers, so rounded: " + short + "."; whole && short != "" && utf8.RuneCountInString(line) <= bot.LineLength {
		return line
	}
	if whole && short == "" {
		return "Other dampers: each adjuster goes to the same part of its range."
	}
	return "Other dampers: the same part of each range. Each rounding is under Why."
}
