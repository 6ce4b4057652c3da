package store_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
)

func TestOnceAnswersOnce(t *testing.T) {
	r := open(t)
	ran := 0
	ask := func(who tuning.Who, id, reply string) string {
		t.Helper()
		got, err := r.db.Once(t.Context(), who, morning, id, func(b *store.Book) ([]byte, error) {
			ran++
			_, err := b.SaveCar(t.Context(), hatch(who, "Car "+reply))
			return []byte(reply), err
		})
		must(t, err)
		return string(got)
	}
	for _, step := range []struct {
		who         tuning.Who
		id, reply   string
		want        string
		wantHaveRun int
	}{
		{sam, "a", "first", "first", 1},
		{sam, "a", "second", "first", 1},
		{sam, "b", "third", "third", 2},
		{robin, "a", "fourth", "fourth", 3}, // another's id is another request
		{tuning.Who{Club: "elsewhere", Person: sam.Person}, "a", "fifth", "fifth", 4},
		{sam, "a", "sixth", "first", 4},
	} {
		if got := ask(step.who, step.id, step.reply); got != step.want || ran != step.wantHaveRun {
			t.Errorf("%s asking %q is answered %q after %d runs, want %q after %d", step.who.Person, step.id, got, ran, step.want, step.wantHaveRun)
		}
	}
}

func TestOnceKeepsAnEmptyReply(t *testing.T) {
	r := open(t)
	ran := 0
	for range 2 {
		_, err := r.db.Once(t.Context(), sam, morning, "a", func(*store.Book) ([]byte, error) { ran++; return nil, nil })
		must(t, err)
	}
	if ran != 1 {
		t.Errorf("ran %d times", ran)
	}
}

// A request that is turned down is turned down again under the same id, and
// nothing of it is kept but that: not even when the database itself gave up.
func TestOnceKeepsARefusal(t *testing.T) {
	r := open(t)
	r.car(robin, "Red racer")
	for id, refuse := range map[string]func(b *store.Book) error{
		"by the function": func(b *store.Book) error { return nil },
		"by the database": func(b *store.Book) error {
			_, err := b.SaveCar(t.Context(), hatch(sam, "Blue hatch"))
			wantRefusal(t, err, tuning.Taken{What: tuning.CarThing})
			return nil
		},
	} {
		ran := 0
		for range 2 {
			reply, err := r.db.Once(t.Context(), sam, morning, id, func(b *store.Book) ([]byte, error) {
				ran++
				if _, err := b.SaveCar(t.Context(), hatch(sam, "Blue hatch")); err != nil {
					return nil, err
				}
				must(t, refuse(b))
				return nil, &store.Refused{Reply: []byte("no, " + id)}
			})
			must(t, err)
			if string(reply) != "no, "+id || ran != 1 {
				t.Errorf("refused %s it is answered %q after running %d times", id, reply, ran)
			}
		}
	}
	if cars := r.count("cars"); cars != 1 {
		t.Errorf("%d cars are kept, want only Robin's", cars)
	}
}

// Replies go, in every club, when they are old; what the requests did stays.
func TestRepliesAreForgotten(t *testing.T) {
	r := open(t)
	r.everything(sam)
	r.everything(elsewhere)
	r.admin.MustExec(`
		insert into requests (club, person, id, at, reply)
		select $1, $2, 'many-' || n, $3, '' from generate_series(1, 12000) n`, sam.Club, sam.Person, morning)
	kept := r.count("requests")
	must(t, r.at(morning.Add(time.Hour), sam, nothing))
	for _, c := range []struct {
		now  time.Time
		want int
	}{{morning.Add(store.RepliesKept), 0}, {morning.Add(store.RepliesKept + time.Minute), kept}, {morning.Add(store.RepliesKept + 2*time.Hour), 1}} {
		if n, err := r.db.ForgetReplies(t.Context(), c.now); err != nil || n != c.want {
			t.Errorf("at %s %d replies are forgotten, %v; want %d", c.now, n, err, c.want)
		}
	}
	if n := r.count("cars"); n != 2 {
		t.Errorf("%d cars are left, want both", n)
	}
}

func TestOnceKeepsNothingOfAFailure(t *testing.T) {
	r := open(t)
	refusal := tuning.NoName
	for _, want := range []error{refusal, fmt.Errorf("while trying: %w", refusal)} {
		_, err := r.db.Once(t.Context(), sam, morning, "a", func(b *store.Book) ([]byte, error) {
			if _, err := b.SaveCar(t.Context(), hatch(sam, "Blue hatch")); err != nil {
				return nil, err
			}
			return []byte("lost"), want
		})
		if !errors.Is(err, refusal) {
			t.Errorf("the error is %v, want %v", err, want)
		}
	}
	for _, table := range []string{"clubs", "members", "cars", "requests"} {
		if n := r.count(table); n != 0 {
			t.Errorf("%s holds %d rows of what failed", table, n)
		}
	}
	r.car(sam, "Blue hatch") // the same id may be used for what works
}

func (r record) count(table string) (n int) {
	r.Helper()
	must(r.T, r.admin.Get(&n, "select count(*) from "+table))
	return n
}

// One press too many, or a platform that delivers twice: however many come at
// once, one is done and all get its reply.
func TestOnceConcurrently(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	before := r.count("changes")
	var runs atomic.Int64
	replies := make([]string, 20)
	var all sync.WaitGroup
	for i := range replies {
		all.Go(func() {
			reply, err := r.db.Once(t.Context(), sam, morning, "press", func(b *store.Book) ([]byte, error) {
				run := runs.Add(1)
				c, err := b.Case(t.Context(), sam.Person, "")
				if err != nil {
					return nil, err
				}
				_, err = b.Record(t.Context(), c.Car, byHand(turn(c, tuning.Rebound, 1)))
				return fmt.Appendf(nil, "run %d", run), err
			})
			if err != nil {
				t.Error(err)
			}
			replies[i] = string(reply)
		})
	}
	all.Wait()
	for _, reply := range replies {
		if reply == "" || reply != replies[0] {
			t.Fatalf("the replies differ: %q", replies)
		}
	}
	if n := r.count("changes") - before; n != 1 {
		t.Errorf("%d changes were made", n)
	}
}

// A club's first evening: many come at once, and none is turned away.
func TestFirstSightTogether(t *testing.T) {
	r := open(t)
	var all sync.WaitGroup
	for i := range 12 {
		all.Go(func() {
			who := tuning.Who{Club: sam.Club, Person: fmt.Sprintf("person-%d", i/2), Name: "Someone"} // two requests each
			if err := r.try(who, func(context.Context, *store.Book) error { return nil }); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	if clubs, members, requests := r.count("clubs"), r.count("members"), r.count("requests"); clubs != 1 || members != 6 || requests != 12 {
		t.Errorf("there are %d clubs, %d members and %d requests", clubs, members, requests)
	}
}

func TestNamesAreKeptCurrent(t *testing.T) {
	r := open(t)
	nothing := func(context.Context, *store.Book) error { return nil }
	for _, step := range []struct{ name, want string }{{"Sam", "Sam"}, {"Sam H.", "Sam H."}, {"", "Sam H."}} {
		r.once(tuning.Who{Club: sam.Club, Person: sam.Person, Name: step.name}, nothing)
		r.read(sam, func(ctx context.Context, b *store.Book) error {
			m, err := b.Member(ctx, sam.Person)
			if m.Name != step.want {
				t.Errorf("called %q the member is %q, want %q", step.name, m.Name, step.want)
			}
			return err
		})
	}
	rewritten := func() (n string) {
		must(t, r.admin.Get(&n, `select xmin::text from members where person = $1`, sam.Person))
		return n
	}
	before := rewritten()
	r.once(sam, nothing)
	r.once(sam, nothing)
	if got := rewritten(); got == before {
		t.Fatal("the name was not written when it changed")
	}
	before = rewritten()
	r.once(sam, nothing)
	if got := rewritten(); got != before {
		t.Error("the row was written though the name is the same")
	}
}

// Before anyone has changed anything, reading gives the usual settings.
func TestReadOfWhatIsNotKnown(t *testing.T) {
	r := open(t)
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		club, err := b.Club(ctx)
		if err != nil {
			return err
		}
		member, err := b.Member(ctx, sam.Person)
		if err != nil {
			return err
		}
		cars, err := b.Cars(ctx, sam.Person)
		same(t, club, tuning.DefaultClub(sam.Club))
		same(t, member, tuning.Member{Person: sam.Person, Reminders: true})
		same(t, len(cars), 0)
		return err
	})
}

func TestReadTakesNothingIn(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	err := r.db.Read(t.Context(), sam, morning, func(b *store.Book) error {
		_, err := b.SaveCar(t.Context(), hatch(sam, "Red hatch"))
		return err
	})
	if tuning.KindOf(err) != tuning.Internal || r.count("cars") != 1 {
		t.Errorf("writing while reading: %v", err)
	}
}

// A book shows one moment, whatever others do meanwhile.
func TestReadShowsOneMoment(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		before, err := b.Case(ctx, sam.Person, "")
		if err != nil {
			return err
		}
		r.once(sam, func(ctx context.Context, b *store.Book) error {
			_, err := b.Record(ctx, before.Car, byHand(turn(before, tuning.Rebound, 1)))
			return err
		})
		after, err := b.Case(ctx, sam.Person, "")
		same(t, after, before)
		return err
	})
}

func TestSettingsAreKept(t *testing.T) {
	r := open(t)
	club := tuning.DefaultClub(sam.Club)
	club.Zone, club.Channel, club.CoachRole, club.Units = "Europe/London", "the-paddock", "coaches", tuning.Imperial
	club.QuietFrom, club.Sizes.StepSome = club.QuietFrom+club.QuietTo/16, 4 // 21:30
	member := tuning.Member{Person: sam.Person, Name: "Sam", Units: tuning.Imperial, NoDirect: true}
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		return errors.Join(b.SaveClub(ctx, club), b.SaveMember(ctx, member))
	})
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		gotClub, err := b.Club(ctx)
		if err != nil {
			return err
		}
		gotMember, err := b.Member(ctx, sam.Person)
		same(t, gotClub, club)
		same(t, gotMember, member)
		return err
	})
}

// meeting makes the first runs of two requests meet: each waits until both
// have come, so that each sees the record without the other's doing.
type meeting struct {
	both sync.WaitGroup
}

func meet() *meeting {
	m := &meeting{}
	m.both.Add(2)
	return m
}

func (m *meeting) come() {
	m.both.Done()
	m.both.Wait()
}

// Two who turn the same adjuster at one moment: the later is told of the other.
func TestTwoTurnOneAdjuster(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	one, other := r.turnTogether(tuning.Rebound, tuning.Rebound)
	if one != nil {
		one, other = other, one
	}
	if one != nil || other == nil {
		t.Fatalf("both ended alike: %v, %v", one, other)
	}
	won := r.theCase(sam).History.Changes
	if len(won) != 1 {
		t.Fatalf("%d changes were made", len(won))
	}
	name := "Sam"
	if won[0].By == robin.Person {
		name = "Robin"
	}
	wantOvertaken(t, other, name, false, won[0].Moves)
}

// Two who turn different adjusters are not in each other's way.
func TestTwoTurnOneCar(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	before := r.theCase(sam).Setting
	one, other := r.turnTogether(tuning.Rebound, tuning.HighBump)
	must(t, errors.Join(one, other))
	for _, corner := range tuning.Front.Corners() {
		before[corner][tuning.Rebound] += 2
		before[corner][tuning.HighBump] += 2
	}
	same(t, r.theCase(sam).Setting, before)
}

// turnTogether lets Sam and Robin each turn an adjuster of Sam's car by hand,
// both having seen it as it stood before.
func (r record) turnTogether(sams, robins tuning.Adjuster) (error, error) {
	m := meet()
	change := func(who tuning.Who, adjuster tuning.Adjuster) error {
		come := sync.OnceFunc(m.come)
		return r.try(who, func(ctx context.Context, b *store.Book) error {
			c, err := b.Case(ctx, sam.Person, "")
			come()
			if err == nil {
				_, err = b.Record(ctx, c.Car, byHand(turn(c, adjuster, 2)))
			}
			return err
		})
	}
	errs := make(chan error)
	go func() { errs <- change(sam, sams) }()
	go func() { errs <- change(robin, robins) }()
	return <-errs, <-errs
}

// A car that was turned away and back again while a request was under way is
// not what the request was meant for: the clicks stand as it saw them, and yet
// somebody is at the car. Other dampers it can be given all the same.
func TestTurnedAwayAndBackMeanwhile(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	var advice tuning.Advice
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		advice, err = b.SaveAdvice(ctx, tuning.Advice{Car: c.Car.ID, Complaint: tuning.Complaint{What: tuning.Hops}}, c.Setting)
		return err
	})
	byRobin := func() {
		for _, moves := range [][]tuning.Move{turn(c, tuning.Rebound, 1), tuning.Backward(turn(c, tuning.Rebound, 1))} {
			r.once(robin, func(ctx context.Context, b *store.Book) error {
				_, err := b.Record(ctx, c.Car, byHand(moves))
				return err
			})
		}
	}
	readCase := func(ctx context.Context, b *store.Book) error { _, err := b.Case(ctx, sam.Person, ""); return err }
	readGiven := func(ctx context.Context, b *store.Book) error {
		_, err := b.Given(ctx, sam.Person, advice.ID)
		return err
	}
	record := func(why tuning.Reason, adjuster tuning.Adjuster) func(context.Context, *store.Book) error {
		return func(ctx context.Context, b *store.Book) error {
			_, err := b.Record(ctx, c.Car, tuning.Change{Reason: why, Moves: turn(c, adjuster, 1)})
			return err
		}
	}
	refit := func(ctx context.Context, b *store.Book) error { car := c.Car; return fit(ctx, b, &car, damper()) }
	for name, test := range map[string]struct {
		read, write func(context.Context, *store.Book) error
		refused     bool
	}{
		"that adjuster by hand":    {readCase, record(tuning.ByHand, tuning.Rebound), true},
		"another adjuster by hand": {readCase, record(tuning.ByHand, tuning.HighBump), false},
		"another by a search":      {readCase, record(tuning.BySearch, tuning.HighBump), true},
		"an advice":                {readGiven, record(tuning.ByRemedy, tuning.HighBump), true},
		"a fitting":                {readCase, refit, false},
	} {
		runs := 0
		c = r.theCase(sam)
		err := r.try(sam, func(ctx context.Context, b *store.Book) error {
			must(t, test.read(ctx, b))
			if runs++; runs == 1 {
				byRobin()
			}
			return test.write(ctx, b)
		})
		if runs != 2 {
			t.Errorf("%s: it ran %d times", name, runs)
		}
		if !test.refused {
			must(t, err)
			continue
		}
		wantOvertaken(t, err, "Robin", false, r.theCase(sam).History.Changes[0].Moves)
	}
}

// Two who write the same row in no order that matters both succeed.
func TestCollisionIsTriedAgain(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	r.once(robin, func(context.Context, *store.Book) error { return nil })
	m := meet()
	var runs atomic.Int64
	rename := func(who tuning.Who, name string) error {
		come := sync.OnceFunc(m.come)
		return r.try(who, func(ctx context.Context, b *store.Book) error {
			runs.Add(1)
			come()
			renamed := car
			renamed.Name = name
			_, err := b.SaveCar(ctx, renamed)
			return err
		})
	}
	errs := make(chan error)
	go func() { errs <- rename(sam, "Red hatch") }()
	go func() { errs <- rename(robin, "Green hatch") }()
	must(t, errors.Join(<-errs, <-errs))
	if n := runs.Load(); n != 3 {
		t.Errorf("they ran %d times, want 3: one of the two again", n)
	}
}

func TestStaleChangeSaysWhoTurnedIt(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	record := func(who tuning.Who, moves ...tuning.Move) error {
		return r.try(who, func(ctx context.Context, b *store.Book) error {
			_, err := b.Record(ctx, c.Car, byHand(moves))
			return err
		})
	}
	bump, rebound := turn(c, tuning.LowBump, 1), turn(c, tuning.Rebound, -3)
	robins := []tuning.Move{bump[0], rebound[0], bump[1], rebound[1]}
	sams := turn(c, tuning.HighBump, 1)[:1]
	must(t, record(robin, robins...))
	must(t, record(sam, sams...))
	wantOvertaken(t, record(sam, turn(c, tuning.Rebound, 1)...), "Robin", false, robins)
	wantOvertaken(t, record(robin, turn(c, tuning.HighBump, 1)...), "Sam", false, sams)
	wantOvertaken(t, record(sam, turn(c, tuning.HighBump, 1)...), "Sam", true, sams)
}
