package garage

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/chart"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/learn"
)

func learnedCommand() bot.Command {
	return declare(bot.Command{Name: "learned", Help: "What your answers say each turn does on your car, surest first", Private: true},
		func(ctx context.Context, call call, o learnedOptions) (bot.Reply, error) {
			return call.listLearned(ctx, o)
		})
}

type learnedOptions struct {
	bot.CarOption
	Page int `name:"page" help:"which page, 1 is the surest" min:"1" max:"100"`
}

// listLearned lists a page of what a car has learned, with its picture.
func (c call) listLearned(ctx context.Context, o learnedOptions) (bot.Reply, error) {
	const onPage = 7
	k, err := c.FindCase(ctx, c.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	evidence, err := c.Book.LearnedAll(ctx, k.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	effects := evidence.Effects(k.Car, k.History, c.Club.Sizes)
	page := max(1, o.Page)
	first := (page - 1) * onPage
	switch {
	case len(effects) == 0:
		return bot.Reply{Title: "Nothing learned on " + k.Car.Name + " yet",
			Text:    "Turn what an answer says and drive. Then record it with /feel: say better:yes, same or no, or mark the balance before and after. Each answer teaches me what that turn does on your car.",
			Actions: []bot.Action{bot.Button("How did it feel", "/feel", bot.OfCar(k.Car))}}, nil
	case first >= len(effects):
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "What is learned of %s has no page %d: try a smaller number.", k.Car.Name, page)
	}
	reply := bot.Reply{Title: fmt.Sprintf("Learned on %s: %s", k.Car.Name, say.Count(len(effects), "remedy", "remedies"))}
	drawn := chart.Effects{Title: k.Car.Name}
	var lines []string
	for _, e := range effects[first:min(len(effects), first+onPage)] {
		lines = append(lines, say.Effect(k.Car, e)+".")
		low, high := e.Estimate.Interval90()
		drawn.Rows = append(drawn.Rows, chart.Effect{Name: say.Capital(say.EffectName(k.Car, e)), Mean: e.Estimate.Mean, Low: low, High: high, Tries: e.Own.Tries})
	}
	reply.Text, reply.Picture = strings.Join(lines, "\n"), bot.PictureOf(drawn)
	if first+onPage < len(effects) {
		reply.Actions = []bot.Action{bot.Button("More", fmt.Sprintf("/learned page:%d", page+1), bot.OfCar(k.Car))}
	}
	return reply, nil
}

// known is what the record knows of a complaint on a car.
type known struct{ learn.Knowledge }

// knownOf is what the record knows of a complaint on a car, by the evidence that
// was read with its case.
func (c call) knownOf(k tuning.Case, complaint tuning.Complaint, evidence learn.Evidence) known {
	return known{learn.Knowledge{Car: k.Car, Complaint: complaint, History: k.History, Sizes: c.Club.Sizes, Evidence: evidence}}
}

// complainedBook is the record where someone complains: each case is read with
// what is known of the complaint, and the evidence of the last is kept.
type complainedBook struct {
	record
	complaint tuning.Complaint
	evidence  learn.Evidence
}

// Case reads a case.
func (b *complainedBook) Case(ctx context.Context, owner, name string) (k tuning.Case, err error) {
	k, b.evidence, err = b.LearnedCase(ctx, owner, name, b.complaint)
	return k, err
}

// show adds what the record says to the remedies of an answer.
func (k known) show(reply bot.Reply, advice tuning.Advice) bot.Reply {
	for i, r := range reply.Remedies {
		if l, ok := k.Of(advice.Remedies[r.Rank-1]); ok {
			reply.Remedies[i].Learned = bot.LearnedOf(l)
		}
	}
	return reply
}

// whyOrder returns the tries that explain why the record changed the order of
// an advice: those of the remedy that it put first or, where that has none, of
// one that it put behind.
func (k known) whyOrder(advice tuning.Advice) (told learn.Told, changed bool) {
	first := -1
	if slices.ContainsFunc(advice.Facts, func(f tuning.Fact) bool { return f.Kind == tuning.OrderOfRecord }) {
		first = k.inTable(advice.Remedies[0])
	}
	ahead := func(r tuning.Remedy) bool { at := k.inTable(r); return at >= 0 && at < first }
	if !slices.ContainsFunc(advice.Remedies, ahead) { // the rules of judgement had the last word
		return told, false
	}
	for _, r := range advice.Remedies {
		if t, ok := k.Tell(r); ok && t.Tries > 0 {
			return t, true
		}
	}
	return told, false
}

// inTable is a remedy's place in the table's order for the car, -1 for one that
// is no row of it.
func (k known) inTable(r tuning.Remedy) int {
	m, ok := tuning.MatchMoves(k.Car, k.Complaint, r.Moves, k.Sizes)
	if !ok || r.Kind != tuning.TurnClicks {
		return -1
	}
	return slices.Index(tuning.RecipesFor(k.Car, k.Complaint, k.History), m.Key)
}

// explainLearned adds what the record says of the remedy that a reply explains,
// and says it in lines.
func (c call) explainLearned(ctx context.Context, reply bot.Reply, given tuning.Given) (explained bot.Reply, lines []string, err error) {
	if !given.Advice.Complaint.Made() {
		return reply, nil, nil
	}
	k, evidence, err := c.Book.LearnedCase(ctx, c.Owner(), given.Car.Name, given.Advice.Complaint)
	if err != nil {
		return reply, nil, err
	}
	known := c.knownOf(k, given.Advice.Complaint, evidence)
	for i, r := range reply.Remedies {
		remedy := given.Advice.Remedies[r.Rank-1]
		l, ok := known.Of(remedy)
		if !ok {
			continue
		}
		reply.Remedies[i].Learned = bot.LearnedOf(l)
		if told, ok := known.Tell(remedy); ok {
			lines = append(lines, say.Learned(k.Car, told, "your"))
		}
	}
	return reply, lines, nil
}
