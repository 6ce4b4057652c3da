package remind_test

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"slices"
	"strings"
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
	"detent/tuning/calendar"
	"detent/tuning/tuningtest"
)

func TestMain(m *testing.M) {
	defer storetest.Leave()
	m.Run()
}

// must ends the test at an error.
var must = tuningtest.Must

// clock is the time as the tests have it.
type clock struct{ nanos atomic.Int64 }

func (c *clock) Now() time.Time          { return time.Unix(0, c.nanos.Load()).UTC() }
func (c *clock) set(t time.Time)         { c.nanos.Store(t.UnixNano()) }
func (c *clock) advance(d time.Duration) { c.nanos.Add(int64(d)) }

// mail is a message as it arrived.
type mail struct {
	to    string // a person or a channel
	reply bot.Reply
	meant []string
	at    time.Time
	nonce string
}

// postman is a Messenger that knows nonces and may be told to fail.
type postman struct {
	clock *clock

	mu    sync.Mutex
	mails []mail
	tried int
	fails map[string]error // by whom it is to, every time
	next  []error          // one for each of the next messages
}

func (p *postman) Direct(_ context.Context, club, person string, r bot.Reply, nonce string) error {
	return p.deliver(mail{to: person, reply: r, nonce: nonce})
}

func (p *postman) Post(_ context.Context, channel string, r bot.Reply, nonce string, meant ...string) error {
	return p.deliver(mail{to: channel, reply: r, nonce: nonce, meant: meant})
}

func (p *postman) deliver(m mail) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.tried++
	if len(p.next) > 0 {
		err := p.next[0]
		if p.next = p.next[1:]; err != nil {
			return err
		}
	}
	if err := p.fails[m.to]; err != nil {
		return err
	}
	known := func(had mail) bool { return had.to == m.to && had.nonce == m.nonce }
	if !slices.ContainsFunc(p.mails, known) {
		m.at = p.clock.Now()
		p.mails = append(p.mails, m)
	}
	return nil
}

// take empties the postman's book.
func (p *postman) take() (mails []mail) {
	p.mu.Lock()
	defer p.mu.Unlock()
	mails, p.mails = p.mails, nil
	return mails
}

// titles are what arrived since, and for whom.
func (p *postman) titles() (titles []string) {
	for _, m := range p.take() {
		titles = append(titles, m.to+": "+m.reply.Title)
	}
	slices.Sort(titles)
	return titles
}

// remindedClub is a club's record, a clock and a heartbeat.
type remindedClub struct {
	*testing.T
	db    *store.DB
	admin *sqlx.DB
	clock *clock
	post  *postman
	heart *remind.Heartbeat
}

func newRemindedClub(t *testing.T) remindedClub {
	t.Helper()
	url := storetest.URL(t)
	db, err := store.Rehearse(t.Context(), url)
	must(t, err)
	t.Cleanup(func() { db.Close() })
	admin, err := sqlx.Open("postgres", url)
	must(t, err)
	t.Cleanup(func() { admin.Close() })
	w := remindedClub{T: t, db: db, admin: admin, clock: &clock{}}
	w.post = &postman{clock: w.clock, fails: map[string]error{}}
	w.heart = w.heartbeat(db, w.post)
	return w
}

func (w remindedClub) heartbeat(timetable remind.Timetable, post remind.Messenger) *remind.Heartbeat {
	return &remind.Heartbeat{Timetable: timetable, Messenger: post, Pace: rate.NewLimiter(rate.Inf, 1),
		Now: w.clock.Now, Log: slog.New(slog.NewTextHandler(io.Discard, nil))}
}

var asked atomic.Int64

// ask runs fn on the book of a club, as a person.
func (w remindedClub) ask(who tuning.Who, fn func(ctx context.Context, b *store.Book) error) {
	w.Helper()
	_, err := w.db.Once(w.Context(), who, w.clock.Now(), fmt.Sprint("ask-", asked.Add(1)), func(b *store.Book) ([]byte, error) {
		return nil, fn(w.Context(), b)
	})
	must(w.T, err)
}

func person(club, name string) tuning.Who {
	return tuning.Who{Club: club, Person: "person-" + name, Name: strings.ToUpper(name[:1]) + name[1:]}
}

// club sets a club up in a zone, with a channel.
func (w remindedClub) club(key, zone string) tuning.Club {
	w.Helper()
	club := tuning.DefaultClub(key)
	club.Zone, club.Channel = zone, "channel-"+key
	w.ask(person(key, "ash"), func(ctx context.Context, b *store.Book) error { return b.SaveClub(ctx, club) })
	return club
}

// event makes an event by its local times.
func (w remindedClub) event(club tuning.Club, name, starts, ends string) (event tuning.Event) {
	w.Helper()
	event = tuning.Event{Name: name, Starts: w.local(club, starts), Ends: w.local(club, ends), Place: "Windy Hill"}
	w.ask(person(club.Key, "ash"), func(ctx context.Context, b *store.Book) (err error) {
		event, err = b.SaveEvent(ctx, event)
		return err
	})
	return event
}

// local is an instant by the club's clocks.
func (w remindedClub) local(club tuning.Club, text string) time.Time {
	w.Helper()
	wall, err := time.Parse("2006-01-02 15:04", text)
	must(w.T, err)
	zone, err := calendar.Zone(club.Zone)
	must(w.T, err)
	at, _ := calendar.Settle(wall, zone)
	return at
}

// enter enters a new car of a person and puts what is due on the timetable.
func (w remindedClub) enter(club tuning.Club, event tuning.Event, name, car string) tuning.Car {
	w.Helper()
	who := person(club.Key, name)
	entrant := tuning.Entrant{Person: who.Person, Reminded: true,
		Car: tuning.Car{Owner: who.Person, Name: car, Drive: tuning.FrontDrive, Engine: tuning.FrontEngine}}
	w.ask(who, func(ctx context.Context, b *store.Book) (err error) {
		if had, err := b.Car(ctx, who.Person, car); err == nil {
			entrant.Car.ID = had.ID
		}
		if entrant.Car, err = b.SaveCar(ctx, entrant.Car); err != nil {
			return err
		}
		if err := b.Enter(ctx, event, entrant); err != nil {
			return err
		}
		due, err := calendar.ForEntrant(club, event, entrant, w.clock.Now())
		if err != nil {
			return err
		}
		return b.Schedule(ctx, event.ID, who.Person, due)
	})
	return entrant.Car
}

// beat drains what is due now.
func (w remindedClub) beat() {
	w.Helper()
	must(w.T, w.heart.Drain(w.Context()))
}

// rows are what the timetable says came of everything.
func (w remindedClub) rows() (rows []string) {
	w.Helper()
	must(w.T, w.admin.Select(&rows, `
		select concat_ws(' ', kind, coalesce(person, club), coalesce(outcome, 'open'), nullif(note, ''))
		from due order by due_at, id`))
	return rows
}

func (w remindedClub) wantRows(want ...string) {
	w.Helper()
	if got := w.rows(); !slices.Equal(got, want) {
		w.Errorf("the timetable says\n%q, want\n%q", got, want)
	}
}

func (w remindedClub) wantMail(want ...string) {
	w.Helper()
	if got := w.post.titles(); !slices.Equal(got, want) {
		w.Errorf("at %s there arrived\n%q, want\n%q", w.clock.Now(), got, want)
	}
}
