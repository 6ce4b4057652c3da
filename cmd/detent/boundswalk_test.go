package main

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/tuning"
)

// TestMessagesKeepTheirBoundsOnTheWay holds messages to the bounds wherever a
// driver may come: cars of any dampers, whose clicks are turned at random, near
// the stops and unequal, in any weather, with answers that say better or worse.
func TestMessagesKeepTheirBoundsOnTheWay(t *testing.T) {
	t.Parallel()
	cars := 40
	if raceEnabled || testing.Short() {
		cars = 6
	}
	club := newMeasured(t)
	for n := range cars {
		w := walk{club, rand.New(rand.NewPCG(uint64(n), 2026)), tuning.Who{Club: "hill", Person: fmt.Sprint("driver ", n), Name: names[n%len(names)]}}
		w.ask(w.car(n))
		w.ask(w.dampers("front"))
		w.ask(w.dampers("rear"))
		for range 40 {
			*club.now = club.now.Add(time.Duration(w.IntN(300)) * time.Minute)
			w.ask(w.line())
		}
	}
}

// walk is one driver's way.
type walk struct {
	measured
	*rand.Rand
	who tuning.Who
}

func (w walk) ask(line string) { w.measured.ask(w.who, line) }

func (w walk) one(of ...string) string { return of[w.IntN(len(of))] }

func (w walk) car(n int) string {
	line := fmt.Sprintf("/car add name:%s drive:%s engine:%s", bot.Quote(names[n%len(names)]), w.one("front", "rear", "four"), w.one("front", "mid", "rear"))
	if w.IntN(2) == 0 {
		line += " mass:1080kg spring-front:45N/mm spring-rear:40N/mm tyre:slick aero:high"
	}
	return line
}

func (w walk) dampers(axle string) string {
	ways := w.IntN(4)
	line := fmt.Sprintf("/damper fit axle:%s ways:%s count:%s", axle, tuning.WaysWords[ways], w.one("hard", "soft"))
	if ways == 0 {
		line += " moves:" + w.one("rebound", "both")
	}
	for _, adjuster := range [][]string{{"rebound"}, {"bump", "rebound"}, {"low-bump", "high-bump", "rebound"}, {"low-bump", "high-bump", "low-rebound", "high-rebound"}}[ways] {
		line += fmt.Sprintf(" %s:%d", adjuster, 3+w.IntN(38))
	}
	return line
}

func (w walk) line() string {
	switch w.IntN(10) {
	case 0, 1, 2:
		what := tuning.Whats[w.IntN(len(tuning.Whats))].What
		return fmt.Sprintf("/symptom what:%s axle:%s where:%s weather:%s", what, w.one("front", "rear"), w.one("entry", "mid", "exit"), w.one("dry", "wet"))
	case 3, 4:
		adjuster := w.one("bump", "rebound", "low-bump", "high-bump", "low-rebound", "high-rebound")
		return fmt.Sprintf("/clicks set at:%s adjuster:%s to:%d turned:%s", w.one("FL", "RR", "front", "rear", "all"), adjuster, w.IntN(9), w.one("yes", "no"))
	case 5:
		return w.one("/apply", "/undo", "/apply remedy:2", "/why", "/why part:figures", "/clicks show", "/log", "/learned")
	case 6:
		return fmt.Sprintf("/feel grip:%d better:%s entry:%d exit:%d", 1+w.IntN(10), w.one("yes", "no", "same"), w.IntN(7)-3, w.IntN(7)-3)
	case 7:
		return "/baseline weather:" + w.one("dry", "wet")
	case 8:
		return "/window surface:" + w.one("smooth", "bumpy", "rough")
	}
	return w.one("/sweep start", "/sweep run hop:no", "/sweep run hop:yes", "/sweep stop", "/clicks save name:"+fmt.Sprint(w.IntN(3)), "/clicks load name:"+fmt.Sprint(w.IntN(3)),
		"/apply", `/feel grip:4 notes:"`+strings.Repeat("it knocks over the kerbs ", w.IntN(2))+`"`, `/feel grip:6 notes:"fixed, no knock"`)
}
