package main

import (
	"fmt"
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

// BenchmarkSeason is a member's /car season for a car with 200 changes and as many
// runs, through the router and the record. It fails at 300 ms of one core, the
// server's part aside.
func BenchmarkSeason(b *testing.B) {
	p := newPits(b)
	p.plays("Robin", `/car add name:"Blue רכב 12 車 hatch" drive:front engine:front`, `/damper fit axle:both ways:four clicks:40 count:hard`)
	adjusters := []string{"low-bump", "high-bump", "low-rebound", "high-rebound"}
	for i := range 200 {
		if i%25 == 0 {
			*p.now = p.now.AddDate(0, 0, 9)
		}
		p.plays("Robin", fmt.Sprintf(`/clicks set at:%s adjuster:%s to:%d turned:yes`, []string{"front", "rear"}[i%2], adjusters[i/2%4], 15+i%7),
			fmt.Sprintf(`/feel grip:%d lap:1:4%d.5 notes:"रन %[1]d 車"`, 1+i%10, i%10))
	}
	ask := func() {
		if r := p.asks("hill", "Robin", tuning.MemberRole, `/car season`); r.Problem != nil || r.Picture == nil || len(r.Files) != 1 {
			b.Fatal(r.Title)
		}
	}
	ask() // fonts are read once
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		ask()
	}
	tuningtest.AtMost(b, before, 300*time.Millisecond)
}
