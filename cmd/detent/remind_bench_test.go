package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"
	"golang.org/x/time/rate"

	"detent/bot"
	"detent/bot/remind"
	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
)

const (
	dueAtOnce = 100_000
	commandIn = 250 * time.Millisecond // the 99th of a hundred commands is answered by then
)

// sink is a messenger whose platform takes its time.
type sink struct {
	takes time.Duration
	taken atomic.Int64
}

func (s *sink) Direct(context.Context, string, string, bot.Reply, string) error { return s.take() }
func (s *sink) Post(context.Context, string, bot.Reply, string, ...string) error {
	return s.take()
}

func (s *sink) take() error {
	time.Sleep(s.takes)
	s.taken.Add(1)
	return nil
}

// BenchmarkAllDueAtOnce has 100,000 reminders due at one moment, while members go
// on asking: at the rate that the platform allows, and as fast as the record can
// hand them out.
func BenchmarkAllDueAtOnce(b *testing.B) {
	r := newRush(b)
	b.Run("rate=platform", func(b *testing.B) { r.measure(b, remind.NewPace(), 150*time.Millisecond) })
	b.Run("rate=any", func(b *testing.B) { r.measure(b, rate.NewLimiter(rate.Inf, 1), 0) })
}

// rush is a club whose members were all at one event and are to be asked about it
// at one moment.
type rush struct {
	*testing.B
	db     *store.DB
	router *bot.Router
	log    *slog.Logger
	asked  atomic.Int64
}

const busy = 4 // members who go on asking

// rushHour is when all are due.
var rushHour = time.Date(2026, 5, 16, 20, 0, 0, 0, time.UTC)

func newRush(b *testing.B) *rush {
	b.Helper()
	url := storetest.URL(b)
	db, err := store.Rehearse(b.Context(), url)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { db.Close() })
	log := slog.New(slog.NewTextHandler(io.Discard, nil))
	r := &rush{B: b, db: db, router: bot.NewRouter(lines, records{db}, log), log: log}
	for member := range busy {
		r.ask(member, rushHour, `/car add name:"Blue hatch" drive:front engine:front`)
		r.ask(member, rushHour, `/damper fit axle:both ways:two clicks:30 count:hard`)
	}
	r.ask(0, rushHour.Add(-24*time.Hour), `/event add name:"Spring day" starts:"2026-05-16 09:00" ends:"2026-05-16 17:00"`)
	r.fill(url)
	return r
}

// fill enters 100,000 more members, with copies of a car.
func (r *rush) fill(url string) {
	r.Helper()
	admin, err := sqlx.Open("postgres", url)
	if err != nil {
		r.Fatal(err)
	}
	defer admin.Close()
	for _, statement := range []string{
		`insert into members (club, person, name) select 'paddock', 'p' || n, 'P' || n from generate_series(1, $1) n`,
		`insert into cars overriding system value
			select p.* from (select * from cars where owner = 'busy 0') c, generate_series(1, $1) n,
				jsonb_populate_record(null::cars, to_jsonb(c) || jsonb_build_object('id', 1000000 + n, 'owner', 'p' || n)) p`,
		`insert into entries (club, event, car, at, reminded)
			select 'paddock', e.id, 1000000 + n, e.starts, true from events e, generate_series(1, $1) n`,
		`insert into due (club, kind, person, event, due_at, until, next_at)
			select 'paddock', 'ask-feel', 'p' || n, e.id, e.ends + interval '3 hours', e.ends + interval '1 day', e.ends + interval '3 hours'
			from events e, generate_series(1, $1) n`,
	} {
		if _, err := admin.Exec(statement, dueAtOnce); err != nil {
			r.Fatal(err)
		}
		if _, err := admin.Exec(`analyze`); err != nil { // or the next checks its keys one by one
			r.Fatal(err)
		}
	}
}

// ask asks a line as one of the busy members.
func (r *rush) ask(member int, at time.Time, text string) {
	line, err := bot.ParseLine(text)
	if err != nil {
		r.Error(err)
	}
	person := fmt.Sprintf("busy %d", member)
	reply := r.router.Answer(r.Context(), bot.Ask{ID: fmt.Sprint(r.asked.Add(1)), At: at, Line: line,
		Who: tuning.Who{Club: "paddock", Person: person, Name: person, Role: tuning.OrganiserRole}})
	if reply.Problem != nil {
		r.Errorf("%s: %s", text, reply.Problem.Say)
	}
}

// window is how long the benchmark watches.
const window = 20 * time.Second

// measure tells what members wait for their answers while the heartbeat hands
// over, at a pace, to a platform that takes its time for each message.
func (r *rush) measure(b *testing.B, pace *rate.Limiter, takes time.Duration) {
	for range b.N {
		out := &sink{takes: takes}
		heart := heartbeat(r.db, out, func() time.Time { return rushHour }, r.log)
		heart.Pace = pace
		ctx, cancel := context.WithTimeout(b.Context(), window)
		waits := r.waits(ctx)
		heart.Drain(ctx) // it ends with the window
		cancel()

		all := <-waits
		slices.Sort(all)
		p99 := all[len(all)*99/100]
		b.ReportMetric(float64(out.taken.Load())/window.Seconds(), "sent/s")
		b.ReportMetric(float64(len(all)), "commands")
		b.ReportMetric(float64(all[len(all)/2].Microseconds())/1000, "median-ms")
		b.ReportMetric(float64(p99.Microseconds())/1000, "p99-ms")
		if p99 > commandIn {
			b.Errorf("of %d commands the slowest hundredth took %v or more", len(all), p99)
		}
	}
}

// waits has the busy members ask until ctx ends, and then returns how long each
// answer took.
func (r *rush) waits(ctx context.Context) <-chan []time.Duration {
	all := make(chan []time.Duration, 1)
	one := make(chan time.Duration, 1000)
	go func() {
		var waits []time.Duration
		for w := range one {
			waits = append(waits, w)
		}
		all <- waits
	}()
	var asking sync.WaitGroup
	for member := range busy {
		asking.Go(func() {
			for n := 0; ctx.Err() == nil; n++ {
				time.Sleep(50 * time.Millisecond) // they read the answers, too
				began := time.Now()
				r.ask(member, rushHour, []string{"/symptom what:understeer where:entry", "/clicks show", "/log"}[n%3])
				one <- time.Since(began)
			}
		})
	}
	go func() { asking.Wait(); close(one) }()
	return all
}
