package main

import (
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"detent/bot/discord/discordtest"
	"detent/tuning/tuningtest"
)

// What fifty asks a second may take on a quiet machine: 99 of 100 first answers
// within slowestAtPace, in so much of one core.
const (
	pace          = 50
	slowestAtPace = 50 * time.Millisecond
	coreAtPace    = 0.3
)

// BenchmarkPace asks fifty symptoms a second for ten members of the workspace and
// reports how long the slowest hundredth waits for its first answer, and how much
// of one core this process spends: the bot, and with it the stand-in for the
// platform. Postgres beside it is not counted.
func BenchmarkPace(b *testing.B) {
	for name, processes := range map[string]int{"gateway": 0, "posted": 2} {
		b.Run(name, func(b *testing.B) { askAtPace(b, openWorkspace(b, processes)) })
	}
}

func askAtPace(b *testing.B, w workspace) {
	var members []*discordtest.Member
	for n := range 10 {
		m := w.member.Guild.Member(fmt.Sprint("driver", n))
		m.Type(`/car add name:"Blue hatch" drive:front engine:front`)
		m.Type(`/damper fit axle:both ways:two clicks:30 count:hard`)
		members = append(members, m)
	}
	lines := []string{"/symptom what:understeer where:entry", "/symptom what:oversteer where:exit", "/symptom what:low-grip", "/symptom what:hops", "/symptom what:kerbs"}
	waits := make([]time.Duration, b.N)
	tick := time.NewTicker(time.Second / pace)
	defer tick.Stop()
	var all sync.WaitGroup
	b.ResetTimer()
	before := tuningtest.ProcessorTime(b)
	for n := range b.N {
		<-tick.C
		all.Go(func() { waits[n] = members[n%len(members)].Type(lines[n%len(lines)]).FirstAnswerAfter() })
	}
	all.Wait()
	cores := (tuningtest.ProcessorTime(b) - before).Seconds() / b.Elapsed().Seconds()
	b.StopTimer()
	slices.Sort(waits)
	p99 := waits[(len(waits)-1)*99/100]
	b.ReportMetric(float64(p99.Microseconds())/1e3, "p99-ms")
	b.ReportMetric(cores, "cores")
	b.ReportMetric(0, "ns/op")
	if b.N < pace {
		return // too short to judge
	}
	if p99 > slowestAtPace {
		b.Errorf("99 of 100 wait up to %v, and at most %v is wanted", p99, slowestAtPace)
	}
	if cores > coreAtPace {
		b.Errorf("%.2f of a core is spent, and at most %v is wanted", cores, coreAtPace)
	}
}
