package main

import (
	"regexp"
	"slices"
	"testing"
	"time"

	"detent/bot"
)

// slowestSymptom is what a symptom may take through the router, everything read
// and the advice saved, without the model, on a quiet machine with the database
// beside it.
const slowestSymptom = 4 * time.Millisecond

// BenchmarkAsk asks for a symptom and presses its first button, in turn, as one
// member through the router, and reports the median of each. A message leaves the
// model to Why and --json, whose benchmarks are in tuning/figures and bot/model.
func BenchmarkAsk(b *testing.B) {
	c := newCrowd(b)
	robin := func(text string) bot.Reply { return c.does(line{who: "Robin", text: text}) }
	robin(`/car add name:"Blue hatch" drive:front engine:front`)
	robin(`/damper fit axle:both ways:two clicks:30 count:hard`)
	applying := regexp.MustCompile(`^/apply `)
	var symptoms, applied []time.Duration
	timed := func(took *[]time.Duration, text string) bot.Reply {
		began := time.Now()
		reply := robin(text)
		*took = append(*took, time.Since(began))
		return reply
	}
	for b.Loop() {
		reply := timed(&symptoms, `/symptom what:understeer where:entry`)
		i := slices.IndexFunc(reply.Actions, func(a bot.Action) bool { return applying.MatchString(a.Ask) })
		if i < 0 || reply.Remedies[0].Model != nil {
			b.Fatalf("nothing can be applied, or the model was asked: %+v", reply)
		}
		timed(&applied, reply.Actions[i].Ask)
		robin(`/undo`)
	}
	median := func(took []time.Duration) time.Duration { slices.Sort(took); return took[len(took)/2] }
	symptom := median(symptoms)
	b.ReportMetric(float64(symptom.Microseconds())/1e3, "ms/symptom")
	b.Log("the quickest symptom took", symptoms[0], "and the quickest apply", slices.Min(applied))
	b.ReportMetric(float64(median(applied).Microseconds())/1e3, "ms/apply")
	b.ReportMetric(0, "ns/op")
	if symptom > slowestSymptom {
		b.Errorf("half the symptoms take more than %v, and at most %v is wanted", symptom, slowestSymptom)
	}
}
