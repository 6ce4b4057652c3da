package notebook

import (
	"context"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func loadClicksCommand() bot.Command {
	return offeringNames(declare(bot.Command{Name: "clicks load", Help: "What to turn to go back to clicks you saved", Own: true, Writes: true}, loadKept))
}

func loadKept(ctx context.Context, call call, o keptOptions) (bot.Reply, error) {
	c, err := call.FindTurnable(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := bot.RequireDampers(c.Car); err != nil {
		return bot.Reply{}, err
	}
	kept, err := call.FindKept(ctx, call.Book, c.Car, "name", o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	b := bringing{
		c: c, head: "Load " + nameOf(kept),
		said: ", saved " + kept.At.In(call.Zone()).Format("2 Jan 2006") + ".",
		more: []string{say.Capital(say.KeptFelt(kept, call.Imperial())) + "."},
		remedy: tuning.Remedy{Kind: tuning.LoadKept, Of: kept.ID, Confidence: tuning.CommonPractice,
			Why:   tuning.Why("You saved these clicks as " + say.KeptName(kept) + " on " + say.KeptDay(kept, call.Zone()) + "."),
			Watch: tuning.WatchOtherDay},
		actions: []bot.Action{compareButton("Compare", c.Car, kept)},
	}
	b.from = kept.Dampers
	b.want, b.carried = tuning.Carry(kept.Setting, kept.Dampers, c.Car, c.Setting)
	return call.bring(ctx, b)
}
