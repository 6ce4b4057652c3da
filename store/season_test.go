package store_test

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
)

// springDay is an event of the tests: eight hours from nine in the morning,
// some days after morning.
func springDay(days int) tuning.Event {
	starts := time.Date(2026, 5, 2+days, 9, 0, 0, 0, time.UTC)
	return tuning.Event{Name: "Spring day", Starts: starts, Ends: starts.Add(8 * time.Hour), Place: "Windy Hill",
		Surface: tuning.Bumpy, Weather: tuning.Wet, By: robin.Person}
}

// event saves an event as Robin.
func (r record) event(e tuning.Event) tuning.Event {
	r.Helper()
	r.once(robin, func(ctx context.Context, b *store.Book) (err error) {
		e, err = b.SaveEvent(ctx, e)
		return err
	})
	return e
}

// at runs fn under a new request id at another time.
func (r record) at(now time.Time, who tuning.Who, fn func(ctx context.Context, b *store.Book) error) error {
	id := fmt.Sprintf("request-%d", requests.Add(1))
	_, err := r.db.Once(r.Context(), who, now, id, func(b *store.Book) ([]byte, error) { return nil, fn(r.Context(), b) })
	return err
}

func (r record) enter(e tuning.Event, car tuning.Car) error {
	return r.try(sam, func(ctx context.Context, b *store.Book) error {
		return b.Enter(ctx, e, tuning.Entrant{Car: car, Reminded: true})
	})
}

func TestEventsAreKept(t *testing.T) {
	r := open(t)
	want := springDay(3)
	want.Limit, want.GuideAt, want.GuideHash = 30, want.Starts.Add(-24*time.Hour), "abc"
	want.ID = r.event(want).ID
	later := springDay(10)
	later.Name = "Summer day"
	later = r.event(later)
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		events, err := b.Events(ctx, morning)
		must(t, err)
		same(t, events, []tuning.Event{want, later})
		events, err = b.Events(ctx, want.Ends)
		must(t, err)
		same(t, events, []tuning.Event{later})
		for name, wanted := range map[string]tuning.Event{"": want, "SPRING day": want, "summer day": later} {
			got, err := b.Event(ctx, name)
			must(t, err)
			same(t, got, wanted)
		}
		_, err = b.Event(ctx, "Autumn day")
		wantRefusal(t, err, tuning.Missing{What: tuning.EventThing, Name: "Autumn day"})
		return nil
	})
	want.Cancelled = true
	r.event(want)
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		got, err := b.Event(ctx, "") // the next that takes place
		same(t, got, later)
		return err
	})
	must(t, r.at(later.Ends, sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.Event(ctx, "")
		wantRefusal(t, err, tuning.Missing{What: tuning.EventThing})
		return nil
	}))
}

func TestEventsOfOneNameOverTheYears(t *testing.T) {
	r := open(t)
	last, next := springDay(-365), springDay(3)
	last.ID = r.event(last).ID
	next.ID = r.event(next).ID
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		got, err := b.Event(ctx, "Spring day")
		same(t, got, next)
		return err
	})
	must(t, r.at(next.Ends.Add(time.Hour), sam, func(ctx context.Context, b *store.Book) error {
		got, err := b.Event(ctx, "Spring day") // both are over: the newer
		same(t, got, next)
		return err
	}))
}

func TestEventsKeepApart(t *testing.T) {
	r := open(t)
	first := r.event(springDay(3))
	save := func(e tuning.Event) error {
		return r.try(robin, func(ctx context.Context, b *store.Book) error { _, err := b.SaveEvent(ctx, e); return err })
	}
	again := springDay(5)
	wantRefusal(t, save(again), tuning.Taken{What: tuning.EventThing, Name: "Spring day"})
	again = springDay(3)
	again.Name, again.Starts = "Evening", first.Ends.Add(-time.Minute)
	again.Ends = again.Starts.Add(time.Hour)
	wantRefusal(t, save(again), tuning.Overlaps{Event: "Spring day"})
	again.Starts = first.Ends // one after the other is no overlap
	must(t, save(again))
	first.Place = "Long Meadow" // an event does not stand in its own way
	must(t, save(first))
	first.Cancelled = true
	must(t, save(first))
	must(t, save(springDay(3)))
}

func TestEventsSavedAtOnceKeepApart(t *testing.T) {
	r := open(t)
	r.once(robin, func(ctx context.Context, b *store.Book) error { return nil })
	const organisers = 6
	errs := make([]error, organisers)
	var wait sync.WaitGroup
	for i := range organisers {
		wait.Go(func() {
			errs[i] = r.try(robin, func(ctx context.Context, b *store.Book) error {
				e := springDay(3)
				e.Name = fmt.Sprintf("Day %d", i)
				_, err := b.SaveEvent(ctx, e)
				return err
			})
		})
	}
	wait.Wait()
	kept := 0
	for _, err := range errs {
		switch tuning.KindOf(err) {
		case "":
			kept++
		case tuning.Conflict:
		default:
			t.Error(err)
		}
	}
	if kept != 1 || r.count("events") != 1 {
		t.Errorf("%d of %d events at one time were kept", kept, organisers)
	}
}

func TestEntering(t *testing.T) {
	r := open(t)
	hatch, coupe, racer := r.car(sam, "Blue hatch"), r.car(sam, "Grey coupe"), r.car(robin, "Red racer")
	e := springDay(3)
	e.Limit = 2
	e = r.event(e)
	must(t, r.enter(e, hatch))
	wantRefusal(t, r.enter(e, hatch), tuning.Entered{Car: "Blue hatch", Event: "Spring day"})
	must(t, r.enter(e, racer))
	wantRefusal(t, r.enter(e, coupe), tuning.Full{Event: "Spring day", Places: 2})

	r.once(sam, func(ctx context.Context, b *store.Book) error {
		must(t, b.Remind(ctx, e, hatch, false))
		must(t, b.WantSheet(ctx, e, hatch, true))
		wantRefusal(t, b.WantSheet(ctx, e, coupe, true), tuning.NotEntered{Car: "Grey coupe", Event: "Spring day"})
		wantRefusal(t, b.Remind(ctx, e, coupe, false), tuning.NotEntered{Car: "Grey coupe", Event: "Spring day"})
		return b.Leave(ctx, e, racer)
	})
	want := []tuning.Entrant{{Event: e.ID, Person: sam.Person, Name: sam.Name, Car: hatch, Sheet: true}}
	entrants := func() (list []tuning.Entrant) {
		r.read(robin, func(ctx context.Context, b *store.Book) (err error) {
			list, err = b.Entrants(ctx, e)
			return err
		})
		return list
	}
	same(t, entrants(), want)
	wantRefusal(t, r.try(robin, func(ctx context.Context, b *store.Book) error { return b.Leave(ctx, e, racer) }),
		tuning.NotEntered{Car: "Red racer", Event: "Spring day"})

	must(t, r.enter(e, racer)) // and in again, in the place that came free
	if list := entrants(); len(list) != 2 || list[1].Person != robin.Person || !list[1].Reminded || list[1].Answered {
		t.Errorf("the entrants are %+v", list)
	}
	e.Cancelled = true
	r.event(e)
	wantRefusal(t, r.enter(e, coupe), tuning.Cancelled{Event: "Spring day"})
}

func TestTheLastPlaceIsTakenOnce(t *testing.T) {
	r := open(t)
	e := springDay(3)
	e.Limit = 1
	e = r.event(e)
	var cars []tuning.Car
	for i := range 5 {
		cars = append(cars, r.car(sam, fmt.Sprintf("Car %d", i)))
	}
	errs := make([]error, len(cars))
	var wait sync.WaitGroup
	for i, car := range cars {
		wait.Go(func() { errs[i] = r.enter(e, car) })
	}
	wait.Wait()
	in := 0
	for _, err := range errs {
		switch tuning.KindOf(err) {
		case "":
			in++
		case tuning.Conflict:
		default:
			t.Error(err)
		}
	}
	if in != 1 || r.count("entries") != 1 {
		t.Errorf("%d cars have the one place", in)
	}
}

// TestTheDayBelongsToTheEvent writes at times around an event and looks what
// was put to it.
func TestTheDayBelongsToTheEvent(t *testing.T) {
	r := open(t)
	car, other := r.car(sam, "Blue hatch"), r.car(sam, "Grey coupe")
	e := r.event(springDay(3))
	must(t, r.enter(e, car))
	next := springDay(4)
	next.Name = "Sunday"
	next = r.event(next)
	must(t, r.enter(next, car))

	for _, c := range []struct {
		at         time.Time
		car        tuning.Car
		done, felt int64 // the events that what is done, and a feel, are put to
	}{
		{e.Starts.Add(-13 * time.Hour), car, 0, 0},
		{e.Starts.Add(-11 * time.Hour), car, e.ID, e.ID},
		{e.Starts.Add(time.Hour), car, e.ID, e.ID},
		{e.Starts.Add(time.Hour), other, 0, 0},
		{e.Ends.Add(5 * time.Hour), car, e.ID, e.ID}, // of two, the one that has begun
		{next.Starts, car, next.ID, next.ID},
		{next.Ends.Add(13 * time.Hour), car, 0, next.ID}, // three days to say how it felt
		{next.Ends.Add(85 * time.Hour), car, 0, 0},
	} {
		var changed, searched, advised, felt int64
		must(t, r.at(c.at, sam, func(ctx context.Context, b *store.Book) error {
			now, err := b.Case(ctx, sam.Person, c.car.Name)
			must(t, err)
			if now.Event.ID != c.done {
				t.Errorf("at %s the case is of event %d, want %d", c.at, now.Event.ID, c.done)
			}
			_, err = b.Record(ctx, now.Car, byHand(turn(now, tuning.Rebound, 0)))
			must(t, err)
			_, err = b.SaveAdvice(ctx, tuning.Advice{Car: c.car.ID}, now.Setting)
			must(t, err)
			_, err = b.SaveFeel(ctx, tuning.Feel{Car: c.car.ID, Grip: 6})
			must(t, err)
			_, err = b.SaveSearch(ctx, tuning.Search{Car: c.car.ID, Weather: tuning.Dry, Started: c.at, Stopped: c.at, Why: tuning.EndDriver})
			return err
		}))
		for table, into := range map[string]*int64{"changes": &changed, "searches": &searched, "advice": &advised, "feels": &felt} {
			must(t, r.admin.Get(into, `select coalesce(event, 0) from `+table+` order by id desc limit 1`))
		}
		if changed != c.done || searched != c.done || advised != c.done || felt != c.felt {
			t.Errorf("at %s: change %d, search %d, advice %d, want %d; feel %d, want %d", c.at, changed, searched, advised, c.done, felt, c.felt)
		}
	}
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		entries, _, err := b.Log(ctx, car, 1)
		must(t, err)
		entries = slices.DeleteFunc(entries, func(e tuning.Logged) bool { return e.Feel != nil })
		if entries[0].Event != "" || entries[2].Event != "Sunday" || entries[3].Event != "Spring day" {
			t.Errorf("the log names the events %q, %q, %q", entries[0].Event, entries[2].Event, entries[3].Event)
		}
		entrants, err := b.Entrants(ctx, e)
		if len(entrants) != 1 || !entrants[0].Answered {
			t.Errorf("whoever said how it felt has not answered: %+v", entrants)
		}
		return err
	})
}

// Of two events of one day that have not begun, what is done belongs to the
// next.
func TestTheNextOfTwoEvents(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	morning, afternoon := springDay(3), springDay(3)
	morning.Ends = morning.Starts.Add(3 * time.Hour)
	afternoon.Name, afternoon.Starts = "Afternoon", morning.Ends.Add(time.Hour)
	morning, afternoon = r.event(morning), r.event(afternoon)
	must(t, r.enter(afternoon, car))
	must(t, r.enter(morning, car))
	for at, want := range map[time.Time]string{
		morning.Starts.Add(-30 * time.Minute): morning.Name,
		morning.Ends.Add(30 * time.Minute):    morning.Name, // which has begun
		afternoon.Starts:                      afternoon.Name,
	} {
		must(t, r.at(at, sam, func(ctx context.Context, b *store.Book) error {
			c, err := b.Case(ctx, sam.Person, car.Name)
			if c.Event.Name != want {
				t.Errorf("at %s the case is of %q, want %q", at, c.Event.Name, want)
			}
			return err
		}))
	}
}

// Whoever says on Sunday how Saturday felt has answered for Saturday.
func TestAFeelOfAnEventThatIsNamed(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	saturday, sunday := springDay(3), springDay(4)
	sunday.Name = "Sunday"
	saturday, sunday = r.event(saturday), r.event(sunday)
	must(t, r.enter(saturday, car))
	must(t, r.enter(sunday, car))
	must(t, r.at(sunday.Starts.Add(30*time.Minute), sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.SaveFeel(ctx, tuning.Feel{Car: car.ID, Event: saturday.ID, Grip: 6})
		return err
	}))
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		for e, want := range map[tuning.Event]bool{saturday: true, sunday: false} {
			entrants, err := b.Entrants(ctx, e)
			must(t, err)
			if entrants[0].Answered != want {
				t.Errorf("answered for %s: %t, want %t", e.Name, entrants[0].Answered, want)
			}
		}
		return nil
	})
}

func TestTried(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	e := r.event(springDay(0)) // morning is on the day
	must(t, r.enter(e, car))
	c := r.theCase(sam)
	said := tuning.Complaint{What: tuning.Understeer, Where: tuning.Entry}
	asked := tuning.Complaint{What: tuning.Hops}
	moves := turn(c, tuning.Rebound, -2)
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		advise := func(complaint tuning.Complaint) int64 {
			advice, err := b.SaveAdvice(ctx, tuning.Advice{Car: car.ID, Complaint: complaint}, c.Setting)
			must(t, err)
			return advice.ID
		}
		advice := advise(said)
		_, err := b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByRemedy, Complaint: &said, Advice: advice, Remedy: 1, Moves: moves})
		must(t, err)
		_, err = b.SaveFeel(ctx, tuning.Feel{Car: car.ID, Grip: 7, Better: tuning.BetterYes})
		advise(asked)
		advise(tuning.Complaint{Weather: tuning.Dry}) // the start is no complaint
		return err
	})
	r.read(robin, func(ctx context.Context, b *store.Book) error {
		tried, err := b.Tried(ctx, e)
		same(t, tried, []tuning.Tried{{Car: car.ID, Complaint: said, Moves: moves, Felt: tuning.BetterYes}, {Car: car.ID, Complaint: asked}})
		return err
	})
}

func TestAnOrganiserLeavesForGood(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	e := r.event(springDay(0))
	must(t, r.enter(e, car))
	c := r.theCase(sam)
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.Record(ctx, c.Car, byHand(turn(c, tuning.Rebound, -1)))
		return err
	})
	r.once(robin, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, robin.Person) })
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		got, err := b.Event(ctx, e.Name)
		e.By = ""
		same(t, got, e)
		return err
	})
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, sam.Person) })
	if n := r.count("entries"); n != 0 {
		t.Errorf("%d entries are left of whoever was erased", n)
	}
	if n := r.count("events"); n != 1 {
		t.Errorf("the club has %d events, want its 1", n)
	}
}
