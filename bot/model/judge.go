package model

import (
	"math"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/figures"
)

// Judge adds what the vehicle model says of the remedies that a reply shows of
// an advice given at a setting. The trade's answer and its order stand whatever
// the model says.
func Judge(reply bot.Reply, car tuning.Car, at tuning.Setting, advice tuning.Advice, imperial bool) bot.Reply {
	if !advice.Complaint.Made() || len(reply.Remedies) == 0 { // a start: the model has nothing to compare it with
		return reply
	}
	model, err := figures.Of(car)
	if err != nil {
		return unjudged(reply, advice, err)
	}
	rests := figures.OnNothing
	for i := range reply.Remedies {
		rests = max(rests, judge(&reply.Remedies[i], model, car, at, advice))
	}
	if line := modelLine(model, car, at, advice, reply.Remedies[0].Rank); line != "" {
		reply.Notes = append(reply.Notes, line)
		rests = max(rests, figures.OnDampers)
	}
	return assuming(reply, model, rests, imperial)
}

// judge adds the model's judgement to one remedy, and returns what it rests on.
func judge(r *bot.Remedy, model figures.Model, car tuning.Car, at tuning.Setting, advice tuning.Advice) figures.Rests {
	j, ok, err := model.Judge(advice.Complaint, at, advice.Remedies[r.Rank-1])
	switch {
	case err != nil:
		r.Model = &bot.Verdict{Verdict: string(figures.Unknown), Say: silence(err)}
		return figures.OnNothing
	case !ok: // the model has no measure for it
		return figures.OnNothing
	}
	estimate := false
	for _, m := range advice.Remedies[r.Rank-1].Moves {
		estimate = estimate || model.Estimate(j.Rests, m.Corner.Axle())
	}
	r.Model = &bot.Verdict{
		Verdict: string(j.Word), Say: sayJudgement(car, j, estimate),
		Leans: string(j.Leans), Does: sayDoes(j.Does, estimate),
	}
	if j.Counts != figures.Mechanism {
		points := math.Round(1e4*j.Points) / 1e4
		r.Model.Points = &points
	}
	if j.Peak.Inside {
		r.Model.Peak, r.Model.At = &j.Peak.Best, &j.Peak.At
	}
	return j.Rests
}

// unjudged says why the model has no answer.
func unjudged(reply bot.Reply, advice tuning.Advice, err error) bot.Reply {
	for i := range reply.Remedies {
		if advice.Remedies[reply.Remedies[i].Rank-1].Kind == tuning.TurnClicks {
			reply.Remedies[i].Model = &bot.Verdict{Verdict: string(figures.Unknown), Say: silence(err)}
		}
	}
	return reply
}

// modelLine is what the model has to say of the first remedy: a verdict that a driver can
// feel, or else a measured damper outside its window, or front and rear damping far
// apart.
func modelLine(model figures.Model, car tuning.Car, at tuning.Setting, advice tuning.Advice, rank int) string {
	remedy := advice.Remedies[rank-1]
	word, ok, err := model.Word(advice.Complaint, at, remedy)
	if line := sayWord(word); ok && err == nil && line != "" {
		return line
	}
	if len(remedy.Moves) > 0 {
		axle := remedy.Moves[0].Corner.Axle()
		if lost, err := model.Loses(axle, figures.ClicksOf(at, axle)); err == nil && lost > startGivesAway {
			return sayLoses(axle, lost)
		}
	}
	spread, err := model.Spread(at)
	if err != nil || !spread.Far {
		return ""
	}
	return saySpread(car, spread)
}

// assuming adds what an answer of the model assumed, and the caution that goes
// with estimates.
func assuming(reply bot.Reply, model figures.Model, rests figures.Rests, imperial bool) bot.Reply {
	if reply.Assumed = sayAssumed(model.Assumed(rests), imperial); len(reply.Assumed) > 0 {
		reply.Cautions = append(reply.Cautions, say.Caution(tuning.Estimate))
	}
	return reply
}
