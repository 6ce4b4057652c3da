package garage

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/reading"
	"detent/bot/say"
	"detent/tuning"
)

func showClicksCommand() bot.Command {
	return declare(bot.Command{Name: "clicks show", Help: "Where the clicks stand", Private: true}, showClicks)
}

func setClicksCommand() bot.Command {
	return bot.Suggesting(declare(bot.Command{Name: "clicks set", Help: "Say where an adjuster stands, in your own counting",
		Private: true, Writes: true}, setClicks), "to", suggestPlaces)
}

type setClicksOptions struct {
	reading.PositionOptions
	Turned bool `name:"turned" help:"yes: turned now; no: the record is corrected (default)"`
	bot.CarOption
}

func showClicks(ctx context.Context, call call, o bot.CarOption) (bot.Reply, error) {
	c, err := call.FindCase(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := bot.RequireDampers(c.Car); err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{Title: c.Car.Name + " stands here", Text: shortly(say.At(c.Car, c.Setting)), Corners: bot.Standing(c.Car, c.Setting)}
	reply.Notes = say.Standing(c)
	reply.Actions = []bot.Action{bot.Button("Save these clicks", "/clicks save", bot.OfCar(c.Car)), bot.Button("Saved clicks", "/clicks saved", bot.OfCar(c.Car))}
	if !reply.Whole() { // the table has it
		reply.Text = ""
	}
	return reply, nil
}

func setClicks(ctx context.Context, call call, o setClicksOptions) (bot.Reply, error) {
	c, err := call.FindRunning(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	moves, err := o.Moves(c)
	if err != nil {
		return bot.Reply{}, err
	}
	if corrected, ok := correctionTo(c, moves); ok && o.Turned {
		return turnAfterAll(ctx, call, c, corrected)
	}
	if len(tuning.Turned(moves)) == 0 && !c.History.Unrecorded {
		return bot.Reply{Title: "It stands there already", Corners: bot.Standing(c.Car, c.Setting)}, nil
	}
	change, err := call.Book.Record(ctx, c.Car, tuning.Change{At: call.Now(), By: call.Owner(), Reason: tuning.ByHand, Moves: moves, Turned: o.Turned})
	if err != nil {
		return bot.Reply{}, err
	}
	reply := sayChanged(c.Car, c.Setting, change, "Noted")
	if change.Corrects() {
		line := call.Ask.Line.Without("car").With("turned", "yes")
		reply.Text = "The record is corrected; nothing counts as turned."
		reply.Cautions = nil
		reply.Actions = append([]bot.Action{bot.Button("I turned it now", line.String(), bot.OfCar(c.Car))}, backActions(c.Car, change)...)
	}
	c.Setting = settingAfter(c.Setting, moves)
	c.History.Unrecorded = false
	reply.Notes = say.Standing(c)
	return reply, nil
}

// correctionTo finds the newest change when it is a correction of the record
// that put the adjusters just where moves would.
func correctionTo(c tuning.Case, moves []tuning.Move) (tuning.Change, bool) {
	if len(tuning.Turned(moves)) > 0 || len(c.History.Changes) == 0 {
		return tuning.Change{}, false
	}
	last := c.History.Changes[0]
	same := len(last.Moves) == len(moves)
	for _, m := range moves {
		same = same && slices.ContainsFunc(last.Moves, func(l tuning.Move) bool { return l.Corner == m.Corner && l.Adjuster == m.Adjuster && l.To == m.To })
	}
	return last, same && last.Corrects() && !last.Undone && len(tuning.Turned(last.Moves)) > 0
}

// turnAfterAll records that what was noted as a correction was turned: the
// correction is taken back and the change recorded. All of it stays in the log.
func turnAfterAll(ctx context.Context, call call, c tuning.Case, corrected tuning.Change) (bot.Reply, error) {
	back := tuning.Change{At: call.Now(), By: call.Owner(), Reason: tuning.ByUndo, Undoes: corrected.ID, Moves: tuning.Backward(corrected.Moves)}
	back, err := call.Book.Record(ctx, c.Car, back)
	if err != nil {
		return bot.Reply{}, err
	}
	stood := settingAfter(c.Setting, back.Moves)
	change, err := call.Book.Record(ctx, c.Car, tuning.Change{At: call.Now(), By: call.Owner(), Reason: tuning.ByHand, Moves: corrected.Moves, Turned: true})
	if err != nil {
		return bot.Reply{}, err
	}
	return sayChanged(c.Car, stood, change, "Turned"), nil
}

// suggestPlaces offers the positions of the adjuster that is being set, as the
// member counts them, those nearest to where it stands first.
func suggestPlaces(ctx context.Context, asked bot.Call, book bot.Book, o setClicksOptions, typed string) ([]bot.Suggestion, error) {
	corners, ok := tuning.CornersAt(string(o.At))
	adjuster, known := tuning.ParseAdjuster(string(o.Adjuster))
	if !ok || !known {
		return nil, nil
	}
	c, err := asked.FindCase(ctx, book, o.Car)
	if err != nil {
		return nil, err
	}
	damper := c.Car.Dampers[corners[0].Axle()]
	if !damper.Has(adjuster) {
		return nil, nil
	}
	stands := c.Setting[corners[0]][adjuster]
	places := make([]int, damper.Range[adjuster]+1)
	for i := range places {
		places[i] = i
	}
	slices.SortStableFunc(places, func(a, b int) int { return clicksApart(a, stands) - clicksApart(b, stands) })
	var all []bot.Suggestion
	for _, p := range places {
		value := strconv.Itoa(damper.Counted(adjuster, p))
		if !strings.HasPrefix(value, typed) && !strings.HasPrefix(damper.Shown(adjuster, p), typed) {
			continue
		}
		label := damper.ShownBoth(adjuster, p)
		switch {
		case p == stands:
			label += ", as it stands"
		default:
			m := tuning.Move{From: stands, To: p}
			label += fmt.Sprintf(", %d %s", m.Clicks(), m.Turn())
		}
		all = append(all, bot.Suggestion{Value: value, Label: label})
	}
	return all, nil
}

// shortly is a text where the table below it leaves room for it.
func shortly(text string) string {
	if lines, _ := phone.Measure(text, 0); lines > 5 {
		return ""
	}
	return text
}

func clicksApart(a, b int) int { return max(a-b, b-a) }
