package main

import (
	"fmt"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"detent/bot/discord/discordtest"
)

// BenchmarkWorkspace asks as fast as eight members at once can, most of it
// reading, with Postgres and the stand-in on the same machine. p99 is the time
// to the first answer that one in a hundred waits longer than.
func BenchmarkWorkspace(b *testing.B) {
	for name, processes := range map[string]int{"gateway": 0, "posted": 2} {
		b.Run(name, func(b *testing.B) {
			w := openWorkspace(b, processes)
			club := w.member.Guild
			const askers = 8
			var members []*discordtest.Member
			for n := range askers {
				m := club.Member(fmt.Sprint("driver", n))
				m.Type(`/car add name:"Blue hatch" drive:front engine:front`)
				m.Type(`/damper fit axle:both ways:two clicks:30 count:hard`)
				members = append(members, m)
			}
			lines := []string{`/clicks show`, `/symptom what:understeer where:entry`, `/log`, `/clicks set at:front adjuster:bump to:12`,
				`/car show`, `/baseline`, `/clicks set at:front adjuster:bump to:13`, `/feel grip:7 exit:-1`}
			waits := make([][]time.Duration, askers)
			var next atomic.Int64
			var all sync.WaitGroup
			b.ResetTimer()
			for n, m := range members {
				all.Go(func() {
					for k := next.Add(1); k <= int64(b.N); k = next.Add(1) {
						r := m.Type(lines[int(k)%len(lines)])
						waits[n] = append(waits[n], r.FirstAnswerAfter())
					}
				})
			}
			all.Wait()
			b.StopTimer()
			sorted := slices.Sorted(slices.Values(slices.Concat(waits...)))
			at := func(share float64) float64 {
				return float64(sorted[int(share*float64(len(sorted)-1))].Microseconds()) / 1000
			}
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "asks/s")
			b.ReportMetric(at(0.50), "p50-ms")
			b.ReportMetric(at(0.99), "p99-ms")
		})
	}
}
