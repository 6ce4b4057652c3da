package main

import (
	"cmp"
	"fmt"
	"slices"
	"testing"
	"time"
)

// slowestEntry is the longest wait of 99 in 100 who enter an event at one moment.
const slowestEntry = 1500 * time.Millisecond

// Sixty enter one event at one moment: with places for all, and for forty.
func BenchmarkEnterAtOnce(b *testing.B) {
	for name, limit := range map[string]int{"no-limit": 0, "forty": 40} {
		b.Run(name, func(b *testing.B) {
			c := newCrowd(b)
			names := c.drivers(60)
			day := time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC)
			var waits []time.Duration
			for b.Loop() {
				day = day.AddDate(0, 0, 1)
				event := "Day " + day.Format(time.DateOnly)
				c.event(event, day.Format(time.DateOnly), limit)
				var lines []line
				for _, driver := range names {
					lines = append(lines, line{who: driver, text: fmt.Sprintf(`/event enter name:%q`, event)})
				}
				replies, took := c.together(lines)
				c.counted(replies, cmp.Or(limit, 60), "is full: all 40 places are taken")
				waits = append(waits, took...)
			}
			slices.Sort(waits)
			p99 := waits[(len(waits)-1)*99/100]
			b.ReportMetric(float64(waits[len(waits)/2].Microseconds())/1e3, "p50-ms")
			b.ReportMetric(float64(p99.Microseconds())/1e3, "p99-ms")
			b.ReportMetric(0, "ns/op")
			if p99 > slowestEntry {
				b.Errorf("99 of 100 wait up to %v, and at most %v is wanted", p99, slowestEntry)
			}
		})
	}
}
