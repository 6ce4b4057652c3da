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
	return declare(bot.Command{Name: "learned", Help: "What your answers say each turn does on your car, surest first", Private: true}, listLearned)
}

type learnedOptions struct {
	bot.CarOption
	Page int `name:"page" help:"which page, 1 is the surest" min:"1" max:"100"`
}

// learnedPage is how many remedies a page lists, and its picture shows.
const learnedPage = 7

func listLearned(ctx context.Context, call call, o learnedOptions) (bot.Reply, error) {
	c, err := call.FindCase(ctx, call.Book, o.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	evidence, err := call.Book.LearnedAll(ctx, c.Car)
	if err != nil {
		return bot.Reply{}, err
	}
	effects := evidence.Effects(c.Car, c.History, call.Club.Sizes)
	page := max(1, o.Page)
	first := (page - 1) * learnedPage
	switch {
	case len(effects) == 0:
		return bot.Reply{Title: "Nothing learned on " + c.Car.Name + " yet",
			Text:    "Turn what an answer says and drive. Then record it with /feel: say better:yes, same or no, or mark the balance before and after. Each answer teaches me what that turn does on your car.",
			Actions: []bot.Action{bot.Button("How did it feel", "/feel", bot.OfCar(c.Car))}}, nil
	case first >= len(effects):
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "What is learned of %s has no page %d: try a smaller number.", c.Car.Name, page)
	}
	shown := effects[first:min(len(effects), first+learnedPage)]
	var lines []string
	for _, e := range shown {
		lines = append(lines, say.Effect(c.Car, e)+".")
	}
	reply := bot.Reply{
		Title: fmt.Sprintf("Learned on %s: %s", c.Car.Name, say.Count(len(effects), "remedy", "remedies")), Text: strings.Join(lines, "\n"),
		Picture: picture(effectsChart(c.Car, shown)),
	}
	if first+learnedPage < len(effects) {
		reply.Actions = []bot.Action{bot.Button("More", fmt.Sprintf("/learned page:%d", page+1), bot.OfCar(c.Car))}
	}
	return reply, nil
}

// effectsChart is the picture of what a car has learned.
func effectsChart(car tuning.Car, effects []learn.Effect) chart.Effects {
	drawn := chart.Effects{Title: car.Name}
	for _, e := range effects {
		low, high := e.Estimate.Interval90()
		drawn.Rows = append(drawn.Rows, chart.Effect{Name: say.Capital(say.EffectName(car, e)), Mean: e.Estimate.Mean, Low: low, High: high, Tries: e.Own.Tries})
	}
	return drawn
}

// known reads what the record knows of a complaint on a car.
func (c call) known(ctx context.Context, car tuning.Car, h tuning.History, complaint tuning.Complaint) (learn.Knowledge, error) {
	k := learn.Knowledge{Car: car, Complaint: complaint, History: h, Sizes: c.Club.Sizes}
	recipes := tuning.RecipesFor(car, complaint, h)
	if len(recipes) == 0 {
		return k, nil
	}
	var err error
	k.Evidence, err = c.Book.Learned(ctx, car, recipes[0].Row)
	return k, err
}

// showLearned adds what the record says to the remedies of an answer.
func showLearned(reply bot.Reply, known learn.Knowledge, advice tuning.Advice) bot.Reply {
	for i, r := range reply.Remedies {
		if l, ok := known.Of(advice.Remedies[r.Rank-1]); ok {
			reply.Remedies[i].Learned = bot.LearnedOf(l)
		}
	}
	return reply
}

// whyOrder is what tells why the record changed the order of an advice: the
// tries of the remedy that it put first, or where that has none, of one that
// it put behind.
func whyOrder(known learn.Knowledge, advice tuning.Advice) (told learn.Told, changed bool) {
	if !slices.ContainsFunc(advice.Facts, isOrder) {
		return told, false
	}
	for _, r := range advice.Remedies {
		if t, ok := known.Tell(r); ok && t.Tries > 0 {
			return t, true
		}
	}
	return told, false
}

func isOrder(f tuning.Fact) bool { return f.Kind == tuning.OrderOfRecord }

// besideOrder leaves out the fact that the order is the car's own, which has its
// own sentence.
func besideOrder(facts []tuning.Fact) []tuning.Fact {
	return slices.DeleteFunc(slices.Clone(facts), isOrder)
}

// explainLearned adds what the record says of the remedy that a reply explains,
// and says it in lines.
func (c call) explainLearned(ctx context.Context, reply bot.Reply, given tuning.Given) (explained bot.Reply, lines []string, err error) {
	if !given.Advice.Complaint.Made() {
		return reply, nil, nil
	}
	k, err := c.Book.Case(ctx, c.Owner(), given.Car.Name)
	if err != nil {
		return reply, nil, err
	}
	known, err := c.known(ctx, k.Car, k.History, given.Advice.Complaint)
	if err != nil {
		return reply, nil, err
	}
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
