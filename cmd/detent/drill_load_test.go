//go:build drill

package main

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"detent/bot/discord/discordtest"
)

// drillAsk is one thing that a member asked for, and what came back.
type drillAsk struct {
	note    string // written with it, and with nothing else
	began   time.Time
	ended   time.Time
	said    string // what the member read, "" for nothing
	unheard string // why nothing came back
}

// noted tells whether the member was told that it was kept.
func (a drillAsk) noted() bool { return strings.Contains(a.said, "Noted: ") }

// open tells whether the member was told that the outcome is unknown.
func (a drillAsk) open() bool {
	return a.said == "" || strings.Contains(a.said, "could not tell") || strings.Contains(a.said, "took too long")
}

// drillLoad is members who go on noting how their cars feel, each note once.
type drillLoad struct {
	testing.TB
	stopped atomic.Bool
	all     sync.WaitGroup
	mu      sync.Mutex
	asks    []drillAsk
}

// loadFrom has members ask, one thing after the other each, until it is
// stopped.
func loadFrom(t testing.TB, members []*discordtest.Member) *drillLoad {
	l := &drillLoad{TB: t}
	for n, m := range members {
		l.all.Go(func() {
			for k := 0; !l.stopped.Load(); k++ {
				l.ask(m, fmt.Sprintf("note %d of %d", k, n))
				time.Sleep(20 * time.Millisecond) // they read the answer
			}
		})
	}
	return l
}

func (l *drillLoad) ask(m *discordtest.Member, note string) {
	a := drillAsk{note: note, began: time.Now()}
	reply := m.Begin(`/feel grip:7 notes:"` + note + `"`)
	if a.unheard = reply.Settle(); a.unheard == "" {
		a.said = reply.Text()
	}
	a.ended = time.Now()
	l.mu.Lock()
	defer l.mu.Unlock()
	l.asks = append(l.asks, a)
}

// stop ends the asking and waits for the last answers.
func (l *drillLoad) stop() {
	l.stopped.Store(true)
	l.all.Wait()
}

// noted is how many members were told that something was kept, of what was
// asked after a time.
func (l *drillLoad) noted(after time.Time) (n int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, a := range l.asks {
		if a.noted() && a.ended.After(after) {
			n++
		}
	}
	return n
}

// drillFigures are what a drill found.
type drillFigures struct {
	asked, noted, refused, unheard int
	lost, doubled, untrue, stuck   int
	slowest                        time.Duration
}

func (f drillFigures) String() string {
	return fmt.Sprintf("asked %d, noted %d, refused in a sentence %d, unheard %d; lost %d, doubled %d, kept though refused %d, stuck %d; slowest %v",
		f.asked, f.noted, f.refused, f.unheard, f.lost, f.doubled, f.untrue, f.stuck, f.slowest.Round(time.Millisecond))
}

// sound fails the test of figures that no drill may have.
func (f drillFigures) sound(t testing.TB) {
	t.Helper()
	if f.lost+f.doubled+f.untrue+f.stuck > 0 {
		t.Errorf("not sound: %v", f)
	}
}

// compare holds what members were told against what the record has.
func (l *drillLoad) compare(admin *sqlx.DB) (f drillFigures) {
	l.Helper()
	kept := keptNotes(l, admin)
	sentences := map[string]int{}
	for _, a := range l.asks {
		f.asked++
		f.slowest = max(f.slowest, a.ended.Sub(a.began))
		switch {
		case a.noted():
			f.noted++
			if kept[a.note] == 0 {
				f.lost++
			}
		case a.said == "":
			f.unheard++
			sentences["unheard: "+a.unheard]++
		default:
			f.refused++
			sentences[a.said]++
			if !a.open() && kept[a.note] > 0 {
				f.untrue++
			}
		}
		if kept[a.note] > 1 {
			f.doubled++
		}
	}
	for sentence, n := range sentences {
		l.Logf("%d times: %s", n, sentence)
	}
	return f
}

// keptNotes counts the notes that the record has.
func keptNotes(t testing.TB, admin *sqlx.DB) map[string]int {
	t.Helper()
	var rows []struct {
		Notes string
		Times int
	}
	drillMust(t, admin.Select(&rows, `select notes, count(*) as times from feels group by notes`))
	kept := map[string]int{}
	for _, row := range rows {
		kept[row.Notes] = row.Times
	}
	return kept
}

// asked is how many times each member was asked by a reminder, in order.
func asked(members []*discordtest.Member) (times []int) {
	for _, m := range members {
		times = append(times, len(m.Inbox().Messages()))
	}
	return times
}

// once tells whether each was asked once.
func once(times []int) bool { return !slices.ContainsFunc(times, func(n int) bool { return n != 1 }) }
