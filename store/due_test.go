package store_test

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

const lease = time.Minute

// schedule puts things on the timetable of an event for Sam.
func (r record) schedule(event tuning.Event, due ...calendar.Due) {
	r.Helper()
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.Schedule(ctx, event.ID, sam.Person, due) })
}

// dueAt is a thing that is of use for an hour.
func dueAt(kind calendar.Kind, at time.Time) calendar.Due {
	return calendar.Due{Kind: kind, At: at, Until: at.Add(time.Hour)}
}

func (r record) claim(now time.Time) []calendar.Due {
	r.Helper()
	claimed, err := r.db.Claim(r.Context(), now, "", lease, 100)
	must(r.T, err)
	return claimed
}

// claimOne wants one thing to be due.
func (r record) claimOne(now time.Time) calendar.Due {
	r.Helper()
	claimed := r.claim(now)
	if len(claimed) != 1 {
		r.Fatalf("at %s %d things are claimed, want 1", now, len(claimed))
	}
	return claimed[0]
}

func (r record) settle(now time.Time, d calendar.Due, outcome calendar.Outcome) error {
	return r.db.Settle(r.Context(), now, d, outcome, "", calendar.Due{})
}

func TestDueIsClaimedAndSettledOnce(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	e := r.event(springDay(0))
	at := e.Ends
	r.schedule(e, dueAt(calendar.AskFeel, at))
	if early := r.claim(at.Add(-time.Second)); len(early) != 0 {
		t.Errorf("claimed before its time: %+v", early)
	}
	d := r.claimOne(at)
	same(t, d, calendar.Due{ID: d.ID, Club: sam.Club, Kind: calendar.AskFeel, Person: sam.Person, Event: e.ID,
		At: at, Until: at.Add(time.Hour), Attempts: 1, Lease: d.Lease})
	if again := r.claim(at.Add(lease - time.Second)); len(again) != 0 {
		t.Errorf("claimed while it is leased: %+v", again)
	}
	must(t, r.settle(at, d, calendar.Sent))
	if again := r.claim(at.Add(48 * time.Hour)); len(again) != 0 {
		t.Errorf("claimed after it was settled: %+v", again)
	}
	wantRefusal(t, r.settle(at, d, calendar.Dropped), tuning.LeaseTaken)
}

func TestDueOfAllClubsIsClaimed(t *testing.T) {
	r := open(t)
	for _, who := range []tuning.Who{sam, elsewhere} {
		r.once(who, func(ctx context.Context, b *store.Book) error {
			return b.Schedule(ctx, 0, who.Person, []calendar.Due{dueAt(calendar.Digest, morning)})
		})
	}
	claimed := r.claim(morning)
	if len(claimed) != 2 || claimed[0].Club == claimed[1].Club {
		t.Fatalf("claimed %+v, want one of each club", claimed)
	}
	for _, d := range claimed {
		must(t, r.settle(morning, d, calendar.Sent))
	}
	// The claim is the only door: what was claimed shows nothing else.
	r.asProgram(sam.Club, func(tx *sqlx.Tx) {
		var clubs []string
		must(t, tx.Select(&clubs, `select club from due`))
		same(t, clubs, []string{sam.Club})
	})
}

// Whoever serves one place leaves the clubs of another alone.
func TestDueOfAPlace(t *testing.T) {
	r := open(t)
	clubs := []string{"harrow", "post:harrow", "post:beck", "poster:beck"}
	for _, club := range clubs {
		r.once(tuning.Who{Club: club, Person: "p1"}, func(ctx context.Context, b *store.Book) error {
			return b.Schedule(ctx, 0, "p1", []calendar.Due{dueAt(calendar.Digest, morning)})
		})
	}
	for place, want := range map[string][]string{"": {"harrow"}, "post": {"post:beck", "post:harrow"}, "poster": {"poster:beck"}} {
		claimed, err := r.db.Claim(t.Context(), morning, place, lease, 100)
		must(t, err)
		var got []string
		for _, d := range claimed {
			got = append(got, d.Club)
		}
		slices.Sort(got)
		same(t, got, want)
	}
}

func TestLeaseThatRanOut(t *testing.T) {
	r := open(t)
	e := r.event(springDay(0))
	r.once(sam, nothing)
	r.schedule(e, dueAt(calendar.AskFeel, morning))
	first := r.claimOne(morning)
	second := r.claimOne(morning.Add(lease))
	if second.ID != first.ID || second.Attempts != 2 || second.Lease == first.Lease {
		t.Errorf("claimed again as %+v after %+v", second, first)
	}
	// Whoever was first comes too late, whatever it wants to say.
	const late = tuning.LeaseTaken
	wantRefusal(t, r.settle(morning, first, calendar.Sent), late)
	wantRefusal(t, r.db.Postpone(t.Context(), morning, first, morning, ""), late)
	must(t, r.settle(morning, second, calendar.Sent))
}

// However much is due, what may have been sent is seen to before the platform
// forgets that it was.
func TestTriedIsClaimedFirst(t *testing.T) {
	r := open(t)
	r.once(sam, nothing)
	claim := func(now time.Time) calendar.Due {
		claimed, err := r.db.Claim(t.Context(), now, "", lease, 1)
		must(t, err)
		return first(t, claimed)
	}
	var events []tuning.Event
	for i := range 3 {
		e := springDay(i)
		e.Name = fmt.Sprintf("Day %d", i)
		events = append(events, r.event(e))
	}
	r.schedule(events[0], dueAt(calendar.AskFeel, morning))
	tried := claim(morning)
	for _, e := range events[1:] {
		r.schedule(e, dueAt(calendar.AskFeel, morning.Add(-time.Hour)))
	}
	if d := claim(morning.Add(lease)); d.ID != tried.ID {
		t.Errorf("claimed first: %+v, want what was tried", d)
	}
	if d := claim(morning.Add(lease)); d.Event != events[1].ID {
		t.Errorf("claimed next: %+v, want the oldest", d)
	}
}

func first(t *testing.T, claimed []calendar.Due) calendar.Due {
	t.Helper()
	if len(claimed) == 0 {
		t.Fatal("nothing is claimed")
	}
	return claimed[0]
}

func TestPostpone(t *testing.T) {
	r := open(t)
	e := r.event(springDay(0))
	r.once(sam, nothing)
	r.schedule(e, dueAt(calendar.AskFeel, morning))
	d := r.claimOne(morning)
	d.Attempts = 0 // it was not tried
	later := morning.Add(10 * time.Minute)
	must(t, r.db.Postpone(t.Context(), morning, d, later, "quiet hours"))
	if early := r.claim(later.Add(-time.Second)); len(early) != 0 {
		t.Errorf("claimed before it was to be: %+v", early)
	}
	if again := r.claimOne(later); again.Attempts != 1 || !again.At.Equal(morning) {
		t.Errorf("claimed again as %+v", again)
	}
}

func TestPostponeWhatWasTakenOff(t *testing.T) {
	r := open(t)
	e := r.event(springDay(0))
	r.once(sam, nothing)
	r.schedule(e, dueAt(calendar.AskFeel, morning))
	d := r.claimOne(morning)
	r.schedule(e)
	must(t, r.db.Postpone(t.Context(), morning, d, morning.Add(time.Minute), "the platform is away"))
	if again := r.claim(morning.Add(time.Hour)); len(again) != 0 {
		t.Errorf("claimed after it was taken off: %+v", again)
	}
}

func TestDigestFallsDueAgain(t *testing.T) {
	r := open(t)
	r.once(sam, nothing)
	r.schedule(tuning.Event{}, dueAt(calendar.Digest, morning))
	d := r.claimOne(morning)
	next := dueAt(calendar.Digest, morning.AddDate(0, 0, 7))
	must(t, r.db.Settle(t.Context(), morning, d, calendar.Sent, "", next))
	if early := r.claim(next.At.Add(-time.Second)); len(early) != 0 {
		t.Errorf("claimed a week early: %+v", early)
	}
	if again := r.claimOne(next.At); again.ID != d.ID || again.Attempts != 1 || !again.At.Equal(next.At) || !again.Until.Equal(next.Until) {
		t.Errorf("claimed as %+v, want %+v", again, next)
	}
}

func TestDigestTakenOffWhileItIsSent(t *testing.T) {
	r := open(t)
	r.once(sam, nothing)
	r.schedule(tuning.Event{}, dueAt(calendar.Digest, morning))
	d := r.claimOne(morning)
	r.schedule(tuning.Event{})
	next := dueAt(calendar.Digest, morning.AddDate(0, 0, 7))
	must(t, r.db.Settle(t.Context(), morning, d, calendar.Sent, "", next))
	if again := r.claim(next.At); len(again) != 0 {
		t.Errorf("claimed after it was taken off: %+v", again)
	}
}

// nothing makes whoever asks known.
func nothing(context.Context, *store.Book) error { return nil }

func TestSchedule(t *testing.T) {
	r := open(t)
	e := r.event(springDay(0))
	r.once(sam, nothing)
	kinds := func(now time.Time) (kinds []calendar.Kind) {
		for _, d := range r.claim(now) {
			kinds = append(kinds, d.Kind)
			must(t, r.db.Postpone(t.Context(), now, d, d.At, "")) // put it back
		}
		return kinds
	}
	check, ask := dueAt(calendar.CheckBefore, e.Starts), dueAt(calendar.AskFeel, e.Ends)

	r.schedule(e, check, ask)
	same(t, kinds(e.Ends), []calendar.Kind{calendar.CheckBefore, calendar.AskFeel})
	r.schedule(e, ask) // the check is withdrawn
	same(t, kinds(e.Ends), []calendar.Kind{calendar.AskFeel})
	ask.At = ask.At.Add(30 * time.Minute)
	r.schedule(e, check, ask) // and back; the question is put off
	same(t, kinds(e.Ends), []calendar.Kind{calendar.CheckBefore})
	r.schedule(e)
	same(t, kinds(e.Ends.Add(time.Hour)), []calendar.Kind(nil))

	// Of another event, another person or the channel nothing is touched.
	other := springDay(5)
	other.Name = "Summer day"
	other = r.event(other)
	r.schedule(other, ask)
	r.once(robin, func(ctx context.Context, b *store.Book) error {
		must(t, b.Schedule(ctx, e.ID, robin.Person, []calendar.Due{ask}))
		return b.Schedule(ctx, e.ID, "", []calendar.Due{dueAt(calendar.PostGuide, e.Starts)})
	})
	r.schedule(e)
	if left := kinds(e.Ends.Add(time.Hour)); len(left) != 3 {
		t.Errorf("of others there is left: %q", left)
	}
}

// What was sent is not sent again because an event is saved again; what did
// not come to be sent is.
func TestScheduleAgain(t *testing.T) {
	r := open(t)
	r.once(sam, nothing)
	for i, c := range []struct {
		kind    calendar.Kind
		outcome calendar.Outcome
		later   time.Duration // by how much the event is put off
		again   bool
	}{
		{calendar.AskFeel, calendar.Sent, 0, false},
		{calendar.AskFeel, calendar.Sent, time.Hour, false},
		{calendar.AskFeel, calendar.Dropped, time.Hour, true},
		{calendar.AskAgain, calendar.Sent, 24 * time.Hour, false},
		{calendar.CheckBefore, calendar.Sent, 0, false},
		{calendar.CheckBefore, calendar.Sent, 24 * time.Hour, true},
		{calendar.CheckBefore, calendar.GaveUp, 24 * time.Hour, true},
	} {
		e := springDay(i)
		e.Name = fmt.Sprintf("Day %d", i)
		e = r.event(e)
		r.schedule(e, dueAt(c.kind, morning))
		must(t, r.settle(morning, r.claimOne(morning), c.outcome))
		r.schedule(e, dueAt(c.kind, morning.Add(c.later)))
		again := r.claim(morning.Add(c.later))
		if (len(again) == 1) != c.again {
			t.Errorf("%s that was %s, put off by %v, falls due again as %+v", c.kind, c.outcome, c.later, again)
		}
		r.schedule(e)
	}
}

// A thing that is being sent stays with whoever sends it.
func TestScheduleWhileItIsSent(t *testing.T) {
	r := open(t)
	e := r.event(springDay(0))
	r.once(sam, nothing)
	ask := dueAt(calendar.AskFeel, morning)
	r.schedule(e, ask)
	d := r.claimOne(morning)
	r.schedule(e, ask)
	if twice := r.claim(morning); len(twice) != 0 {
		t.Errorf("claimed twice: %+v", twice)
	}
	r.schedule(e) // withdrawn, too late
	must(t, r.settle(morning, d, calendar.Sent))
	r.schedule(e, ask)
	if again := r.claim(morning.Add(time.Hour)); len(again) != 0 {
		t.Errorf("claimed after it was sent: %+v", again)
	}
}

func TestClaimsByManyAtOnce(t *testing.T) {
	r := open(t)
	const things, workers = 300, 8
	r.once(sam, nothing)
	r.admin.MustExec(`insert into members (club, person, name) select $1, 'p' || n, '' from generate_series(1, $2) n`, sam.Club, things)
	r.admin.MustExec(`
		insert into due (club, kind, person, due_at, until, next_at)
		select $1, 'digest', 'p' || n, $3::timestamptz, $3::timestamptz + interval '1 hour', $3 from generate_series(1, $2) n`, sam.Club, things, morning)
	var mu sync.Mutex
	var ids []int64
	var wait sync.WaitGroup
	for range workers {
		wait.Go(func() {
			for {
				claimed, err := r.db.Claim(t.Context(), morning, "", lease, 7)
				if err != nil || len(claimed) == 0 {
					if err != nil {
						t.Error(err)
					}
					return
				}
				for _, d := range claimed {
					if err := r.settle(morning, d, calendar.Sent); err != nil {
						t.Error(err)
					}
					mu.Lock()
					ids = append(ids, d.ID)
					mu.Unlock()
				}
			}
		})
	}
	wait.Wait()
	slices.Sort(ids)
	if n := len(slices.Compact(slices.Clone(ids))); len(ids) != things || n != things {
		t.Errorf("%d claims of %d things, want %d", len(ids), n, things)
	}
}

func TestOccasion(t *testing.T) {
	r := open(t)
	hatch, coupe, racer := r.car(sam, "Blue hatch"), r.car(sam, "Grey coupe"), r.car(robin, "Red racer")
	e := r.event(springDay(0))
	for _, car := range []tuning.Car{hatch, coupe, racer} {
		must(t, r.enter(e, car))
	}
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		must(t, b.Remind(ctx, e, coupe, false))
		_, err := b.SaveFeel(ctx, tuning.Feel{Car: hatch.ID, Grip: 7})
		return err
	})
	must(t, r.db.CloseDirect(t.Context(), morning, sam.Club, sam.Person))
	for _, c := range []struct {
		due  calendar.Due
		want calendar.Occasion
	}{
		{calendar.Due{Club: sam.Club, Person: sam.Person, Event: e.ID}, calendar.Occasion{
			Event:  e,
			Member: tuning.Member{Person: sam.Person, Name: sam.Name, Reminders: true, NoDirect: true},
			Cars: []tuning.Entrant{
				{Event: e.ID, Person: sam.Person, Name: sam.Name, Car: hatch, Reminded: true, Answered: true, NoDirect: true},
				{Event: e.ID, Person: sam.Person, Name: sam.Name, Car: coupe, NoDirect: true},
			}}},
		{calendar.Due{Club: sam.Club, Event: e.ID}, calendar.Occasion{Event: e}},
		{calendar.Due{Club: sam.Club, Person: robin.Person}, calendar.Occasion{
			Member: tuning.Member{Person: robin.Person, Name: robin.Name, Reminders: true}}},
	} {
		got, err := r.db.Occasion(t.Context(), morning, c.due)
		must(t, err)
		c.want.Club = tuning.DefaultClub(sam.Club)
		same(t, got, c.want)
	}
	must(t, r.db.Left(t.Context(), sam.Club, morning))
	got, err := r.db.Occasion(t.Context(), morning, calendar.Due{Club: sam.Club, Event: e.ID})
	must(t, err)
	if !got.Left {
		t.Error("it does not know that the club has removed the program")
	}
}
