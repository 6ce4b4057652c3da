package remind_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"detent/bot"
	"detent/bot/discord"
	"detent/bot/discord/discordtest"
	"detent/bot/remind"
	"detent/store"
	"detent/store/localpg"
	"detent/tuning"
	"detent/tuning/calendar"
)

const (
	kills       = 200
	serverKills = 4 // of those; each costs the server's recovery

	perRound = 2 // people who are to get a message between two kills
	round    = time.Minute + time.Second
)

// However often a process or the database is killed, at whatever point of
// claiming, reading, sending and settling, each message arrives, and once.
func TestTwoHundredKills(t *testing.T) {
	t.Parallel()
	w := newSite(t)
	w.everyone()
	random := rand.New(rand.NewPCG(4, 200)) // seeded: a run can be had again
	for n := range kills {
		fuse := w.fuse(n, random)
		w.beats(w.process(fuse), w.process(fuse))
		if fuse.steps.Load() > 0 {
			t.Fatalf("kill %d did not come", n)
		}
		w.clock.advance(round) // what the dead held runs out
		if n%3 == 2 {
			// The platform knows a nonce for five minutes. Whatever three kills
			// left is seen to before that, in a round of its own.
			w.beats(w.process(nil))
			w.clock.advance(round)
		}
	}
	for range 3 {
		w.clock.advance(round)
		w.beats(w.process(nil))
	}
	w.verify()
}

// site is a workspace on the stand-in, and a record on a server of its own that
// may be killed.
type site struct {
	*testing.T
	platform *discordtest.Platform
	guild    *discordtest.Guild
	server   string // its folder
	dead     int    // the process number of the last that was killed
	db       *store.DB
	admin    *sqlx.DB
	clock    *clock
	event    tuning.Event
	people   []*discordtest.Member
}

func newSite(t *testing.T) *site {
	t.Helper()
	dir := t.TempDir()
	server, err := localpg.Start(t.Context(), dir, localpg.Throwaway())
	must(t, err)
	t.Cleanup(func() { must(t, server.Close()) })
	url := server.URL(localpg.Database)
	admin, err := sqlx.Open("postgres", url)
	must(t, err)
	t.Cleanup(func() { admin.Close() })
	// What is committed must outlast the server's death, though not the machine's.
	admin.MustExec(`alter database ` + localpg.Database + ` set synchronous_commit = on`)
	db, err := store.Rehearse(t.Context(), url)
	must(t, err)
	t.Cleanup(func() { db.Close() })

	w := &site{T: t, server: dir, db: db, admin: admin, clock: &clock{}}
	w.clock.set(time.Date(2027, 5, 8, 20, 0, 0, 0, time.UTC))
	w.platform = discordtest.New(t, discordtest.WithClock(w.clock.Now))
	w.guild = w.platform.Guild("Windy Hill")
	w.once("plan", func(ctx context.Context, b *store.Book) (err error) {
		club := tuning.DefaultClub(w.club())
		club.QuietFrom, club.QuietTo = 0, 0
		must(t, b.SaveClub(ctx, club))
		w.event, err = b.SaveEvent(ctx, tuning.Event{Name: "Spring day", Starts: w.clock.Now().Add(-11 * time.Hour), Ends: w.clock.Now().Add(-3 * time.Hour)})
		return err
	})
	return w
}

func (w *site) club() string { return discord.Place + ":" + w.guild.ID }

// once runs fn as the organiser.
func (w *site) once(id string, fn func(ctx context.Context, b *store.Book) error) {
	w.Helper()
	who := tuning.Who{Club: w.club(), Person: "organiser", Name: "Ash"}
	_, err := w.db.Once(w.Context(), who, w.clock.Now(), id, func(b *store.Book) ([]byte, error) { return nil, fn(w.Context(), b) })
	must(w.T, err)
}

// roundOf is in which round the n-th kill comes.
func roundOf(n int) time.Duration { return time.Duration(n + n/3) }

// everyone enters the people, who are to get a message each round by round: one
// of every kind in turn.
func (w *site) everyone() {
	w.Helper()
	w.once("enter", func(ctx context.Context, b *store.Book) error {
		for n := range kills * perRound {
			who := w.guild.Member(fmt.Sprintf("member %d", n))
			at := w.clock.Now().Add(roundOf(n/perRound) * round)
			w.people = append(w.people, who)
			must(w.T, b.SaveMember(ctx, tuning.Member{Person: who.ID, Name: who.Name, Reminders: true}))
			car, err := b.SaveCar(ctx, tuning.Car{Owner: who.ID, Name: "Blue hatch", Drive: tuning.FrontDrive, Engine: tuning.FrontEngine})
			must(w.T, err)
			must(w.T, b.Enter(ctx, w.event, tuning.Entrant{Car: car, Reminded: true}))
			must(w.T, w.plan(ctx, b, n, car, at))
		}
		return nil
	})
	w.admin.MustExec(`update coachings set told_at = null`)
	w.admin.MustExec(`analyze`) // as the server does by itself, after a while
}

// fuse kills something at a step of the processes that share it: the process
// that comes to that step, or the database.
type fuse struct {
	steps atomic.Int64
	kill  func() error // an error is the end of the process
}

var errDead = errors.New("the process is dead")

// fuse is the n-th kill, at any of the steps that two processes take over two
// messages.
func (w *site) fuse(n int, random *rand.Rand) *fuse {
	f := &fuse{kill: func() error { return errDead }}
	f.steps.Store(1 + random.Int64N(16))
	switch {
	case n%(kills/serverKills) == 7:
		f.kill = w.killServer
	case random.IntN(3) == 0:
		f.kill = w.killConnections
	}
	return f
}

// process is one process of the bot, which once dead does nothing more.
type process struct {
	timetable remind.Timetable
	messenger remind.Messenger
	fuse      *fuse // nil for none
	dead      atomic.Bool
}

func (w *site) process(fuse *fuse) *process {
	log := slog.New(slog.NewTextHandler(io.Discard, nil))
	door := discord.New(discord.Config{Token: w.platform.Token(), Transport: w.platform.Client().Transport,
		Log: log, Metrics: discord.NewMetrics(), Now: w.clock.Now}, nil, nil)
	return &process{timetable: w.db, messenger: door, fuse: fuse}
}

// step is a moment at which the process may be killed.
func (p *process) step() error {
	if p.dead.Load() {
		return errDead
	}
	if p.fuse != nil && p.fuse.steps.Add(-1) == 0 && p.fuse.kill() != nil {
		p.dead.Store(true)
		return errDead
	}
	return nil
}

// do does something between two such moments.
func (p *process) do(what func() error) error {
	if err := p.step(); err != nil {
		return err
	}
	err := what()
	return errors.Join(p.step(), err)
}

func (p *process) Claim(ctx context.Context, now time.Time, place string, lease time.Duration, most int) (due []calendar.Due, err error) {
	err = p.do(func() (err error) { due, err = p.timetable.Claim(ctx, now, place, lease, most); return err })
	return due, err
}

func (p *process) Occasion(ctx context.Context, now time.Time, due calendar.Due) (o calendar.Occasion, err error) {
	err = p.do(func() (err error) { o, err = p.timetable.Occasion(ctx, now, due); return err })
	return o, err
}

func (p *process) Settle(ctx context.Context, now time.Time, due calendar.Due, outcome calendar.Outcome, note string, next calendar.Due) error {
	return p.do(func() error { return p.timetable.Settle(ctx, now, due, outcome, note, next) })
}

func (p *process) Postpone(ctx context.Context, now time.Time, due calendar.Due, to time.Time, note string) error {
	return p.do(func() error { return p.timetable.Postpone(ctx, now, due, to, note) })
}

func (p *process) CloseDirect(ctx context.Context, now time.Time, club, person string) error {
	return p.do(func() error { return p.timetable.CloseDirect(ctx, now, club, person) })
}

func (p *process) Direct(ctx context.Context, club, person string, message bot.Reply, nonce string) error {
	return p.do(func() error { return p.messenger.Direct(ctx, club, person, message, nonce) })
}

func (p *process) Post(ctx context.Context, channel string, message bot.Reply, nonce string, meant ...string) error {
	return p.do(func() error { return p.messenger.Post(ctx, channel, message, nonce, meant...) })
}

// beats has processes beat side by side, as they do whatever happens to them.
func (w *site) beats(processes ...*process) {
	var wait sync.WaitGroup
	for _, p := range processes {
		heart := (remindedClub{clock: w.clock}).heartbeat(p, p)
		heart.Place = discord.Place
		wait.Go(func() { heart.Drain(w.Context()) }) // what fails is what is tried here
	}
	wait.Wait()
	w.recover()
}

// killConnections ends every session of the database.
func (w *site) killConnections() error {
	_, err := w.admin.Exec(`select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()`)
	if err != nil {
		w.Error(err)
	}
	return nil
}

// killServer kills the database's server without a word.
func (w *site) killServer() error {
	w.dead = w.pid()
	if err := syscall.Kill(w.dead, syscall.SIGKILL); err != nil {
		w.Errorf("the server with the number %d cannot be killed: %v", w.dead, err)
	}
	return nil
}

// pid is the process number that the server has, or had when it is dead; 0
// while a new one starts.
func (w *site) pid() int {
	text, _ := os.ReadFile(filepath.Join(w.server, "postgres", "postmaster.pid"))
	first, _, _ := bytes.Cut(text, []byte("\n"))
	pid, _ := strconv.Atoi(string(first))
	return pid
}

// recover waits until the database answers again, and not only what is left of
// a server that was killed.
func (w *site) recover() {
	w.Helper()
	for end := time.Now().Add(time.Minute); ; time.Sleep(10 * time.Millisecond) {
		err := w.db.Ping(w.Context())
		if err == nil && w.pid() != w.dead {
			return
		}
		if time.Now().After(end) {
			w.Fatalf("the database does not come back: %v", err)
		}
	}
}

// verify wants one message in every inbox, everything settled, and the kills
// to have been such that messages were sent again.
func (w *site) verify() {
	w.Helper()
	for _, who := range w.people {
		if n := len(who.Inbox().Messages()); n != 1 {
			w.Errorf("%s got %d messages", who.Name, n)
		}
	}
	w.verifyKinds()
	var unsettled []string
	must(w.T, w.admin.Select(&unsettled, `select concat(person, ' ', outcome, ' ', note) from due where outcome is distinct from 'sent' or next_at is not null`))
	if len(unsettled) != 0 {
		w.Errorf("not settled as sent: %q", unsettled)
	}
	var most int
	must(w.T, w.admin.Get(&most, `select max(attempts) from due`))
	posted := 0
	for _, r := range w.platform.Requests(discordtest.PostMessage) {
		if r.Status == http.StatusOK {
			posted++
		}
	}
	if posted <= len(w.people) {
		w.Errorf("%d messages were sent for %d people: nothing came to be sent again", posted, len(w.people))
	}
	w.Logf("%d kills, %d people, %d messages sent, at most %d attempts at one", kills, len(w.people), posted, most)
}
