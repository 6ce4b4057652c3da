package garage

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"detent/bot"
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
	bot.PositionOptions
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
	reply := bot.Reply{Title: c.Car.Name + " stands here", Text: say.At(c.Car, c.Setting), Corners: bot.Standing(c.Car, c.Setting)}
	reply.Notes = say.Standing(c)
	return reply, nil
}

func setClicks(ctx context.Context, call call, o setClicksOptions) (bot.Reply, error) {
	c, err := call.runningCase(ctx, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	moves, err := o.Moves(c)
	if err != nil {
		return bot.Reply{}, err
	}
	if len(tuning.Turned(moves)) == 0 && !c.History.Unrecorded {
		return bot.Reply{Title: "It stands there already", Corners: bot.Standing(c.Car, c.Setting)}, nil
	}
	change, err := call.Book.Record(ctx, c.Car, tuning.Change{At: call.Now(), By: call.Owner(), Reason: tuning.ByHand, Moves: moves})
	if err != nil {
		return bot.Reply{}, err
	}
	reply := sayChanged(c.Car, c.Setting, change, "Noted")
	c.Setting = settingAfter(c.Setting, moves)
	c.History.Unrecorded = false
	reply.Notes = say.Standing(c)
	return reply, nil
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
		if !strings.HasPrefix(value, typed) {
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

func clicksApart(a, b int) int { return max(a-b, b-a) }
