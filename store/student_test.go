package store_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
)

// coaches ties a student to a coach; accepted zero is an offer alone.
func (r record) coaches(coach, student tuning.Who, accepted time.Time) (tie tuning.Coaching) {
	r.Helper()
	r.once(student, nothing)
	r.once(coach, func(ctx context.Context, b *store.Book) (err error) {
		if tie, err = b.SaveCoaching(ctx, tuning.Coaching{Coach: coach.Person, Student: student.Person}); err != nil || accepted.IsZero() {
			return err
		}
		tie.Accepted = accepted
		tie, err = b.SaveCoaching(ctx, tie)
		return err
	})
	return tie
}

func (r record) students(coach tuning.Who) (students []tuning.Student) {
	r.Helper()
	r.read(coach, func(ctx context.Context, b *store.Book) (err error) {
		students, err = b.Students(ctx, coach.Person)
		return err
	})
	return students
}

// A coach sees of each student the car they were at last: its newest feels, its
// last change, what is complained of, and the event that comes next.
func TestStudentsAtOnce(t *testing.T) {
	r := open(t)
	lee := tuning.Who{Club: sam.Club, Person: "person-lee", Name: "Lee"}
	r.coaches(robin, sam, morning)
	r.coaches(robin, lee, time.Time{})
	if got := r.students(robin); len(got) != 2 || got[0].Name != "Lee" || got[0].Holds() || got[1].Name != "Sam" || !got[1].Holds() || got[1].Car.ID != 0 {
		t.Errorf("before anybody has a car they are %+v", got)
	}

	car := r.car(sam, "Blue hatch")
	r.car(lee, "Grey coupe")
	second := hatch(sam, "A spare")
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		if second, err = b.SaveCar(ctx, second); err == nil {
			err = fit(ctx, b, &second, damper())
		}
		return err
	})
	var change tuning.Change
	var newest tuning.Feel
	var next tuning.Event
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		c, err := b.Case(ctx, sam.Person, car.Name)
		must(t, err)
		_, err = b.SaveAdvice(ctx, tuning.Advice{Car: car.ID, Complaint: tuning.Complaint{What: tuning.Understeer, Where: tuning.Exit}}, c.Setting)
		must(t, err)
		change, err = b.Record(ctx, c.Car, byHand(turn(c, tuning.Rebound, -2)))
		must(t, err)
		for grip := range 7 {
			newest, err = b.SaveFeel(ctx, tuning.Feel{Car: car.ID, Grip: grip + 1, Notes: fmt.Sprint(grip)})
			must(t, err)
		}
		for i, name := range []string{"Summer day", "Spring day", "Off"} { // the second comes first
			e, err := b.SaveEvent(ctx, tuning.Event{Name: name, Starts: morning.AddDate(0, 0, 9-i), Ends: morning.AddDate(0, 0, 9-i).Add(time.Hour)})
			must(t, err)
			must(t, b.Enter(ctx, e, tuning.Entrant{Car: second}))
			switch name {
			case "Spring day":
				next = e
			case "Off":
				e.Cancelled = true
				_, err = b.SaveEvent(ctx, e)
				must(t, err)
			}
		}
		return nil
	})
	got := r.students(robin)
	if got[0].Car.ID != 0 || got[0].Said.Made() {
		t.Errorf("of one who has not accepted it shows %+v", got[0])
	}
	s := got[1]
	if s.Car.Name != "Blue hatch" || !s.Car.Dampers[tuning.Rear].Fitted() || !s.Others {
		t.Errorf("the car is %+v, others %v", s.Car, s.Others)
	}
	if len(s.Feels) != tuning.TrendOver || s.Feels[0].ID != newest.ID || s.Feels[4].Grip != 3 {
		t.Errorf("the feels are %+v", s.Feels)
	}
	same(t, s.Last, change)
	same(t, s.Next, next)
	if said, open := s.Open(); !open || said.What != tuning.Understeer || said.Where != tuning.Exit || !s.SaidAt.Equal(morning) {
		t.Errorf("the complaint is %+v, open %v", said, open)
	}
	if other := r.students(sam); len(other) != 0 {
		t.Errorf("a student sees %+v", other)
	}
}

// A complaint is open until a later feel says better, and a change of the dampers
// that were on the car before is none.
func TestStudentsComplaintIsOverWhenBetter(t *testing.T) {
	r := open(t)
	tie := r.coaches(robin, sam, morning)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.SaveAdvice(ctx, tuning.Advice{Car: c.Car.ID, Complaint: tuning.Complaint{What: tuning.Hops}}, c.Setting)
		must(t, err)
		_, err = b.Record(ctx, c.Car, byHand(turn(c, tuning.Rebound, -2)))
		return err
	})
	later := func(better tuning.Better) {
		_, err := r.db.Once(t.Context(), sam, morning.Add(time.Hour), "felt "+string(better), func(b *store.Book) ([]byte, error) {
			_, err := b.SaveFeel(t.Context(), tuning.Feel{Car: c.Car.ID, Grip: 7, Better: better})
			return []byte("done"), err
		})
		must(t, err)
	}
	for _, better := range []tuning.Better{tuning.BetterSame, tuning.BetterYes} {
		later(better)
		if _, open := r.students(robin)[0].Open(); open != (better == tuning.BetterSame) {
			t.Errorf("after %q it is open: %v", better, open)
		}
	}
	r.once(sam, func(ctx context.Context, b *store.Book) error { return fit(ctx, b, &c.Car, damper()) })
	if s := r.students(robin)[0]; s.Last.ID != 0 || s.Car.ID != c.Car.ID {
		t.Errorf("after other dampers the last change is %+v", s.Last)
	}
	tie.Ended = morning
	r.once(sam, func(ctx context.Context, b *store.Book) error { _, err := b.SaveCoaching(ctx, tie); return err })
	if got := r.students(robin); len(got) != 0 {
		t.Errorf("after it ended there are %+v", got)
	}
}

// Whoever turns the pages of a list looks once in ten minutes, and reads the
// reply again only while all the coachings hold.
func TestLookedThrough(t *testing.T) {
	r := open(t)
	lee := tuning.Who{Club: sam.Club, Person: "person-lee", Name: "Lee"}
	r.coaches(robin, sam, morning)
	r.coaches(robin, lee, morning)
	for i, minutes := range []int{0, 5, 9, 11} {
		_, err := r.db.Once(t.Context(), robin, morning.Add(time.Duration(minutes)*time.Minute), fmt.Sprint("page ", i), func(b *store.Book) ([]byte, error) {
			return []byte("all"), b.LookedThrough(t.Context(), robin.Person, []string{sam.Person, lee.Person, "person-gone"}, "the list")
		})
		must(t, err)
	}
	for _, who := range []tuning.Who{sam, lee} {
		r.read(who, func(ctx context.Context, b *store.Book) error {
			looks, err := b.Looks(ctx, who.Person, 10)
			if len(looks) != 2 || looks[0].What != "the list" || !looks[0].At.Equal(morning.Add(11*time.Minute)) {
				t.Errorf("%s reads of the looks %+v", who.Name, looks)
			}
			return err
		})
	}
}

func TestFeltBetween(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	for hour := range 3 {
		_, err := r.db.Once(t.Context(), sam, morning.Add(time.Duration(hour)*time.Hour), fmt.Sprint("feel ", hour), func(b *store.Book) ([]byte, error) {
			_, err := b.SaveFeel(t.Context(), tuning.Feel{Car: car.ID, Grip: 5 + hour})
			return []byte("done"), err
		})
		must(t, err)
	}
	r.read(robin, func(ctx context.Context, b *store.Book) error {
		feels, err := b.FeltBetween(ctx, []string{sam.Person}, morning, morning.Add(2*time.Hour))
		if len(feels) != 2 || feels[0].Grip != 6 || feels[1].Grip != 7 {
			t.Errorf("it lists %+v", feels)
		}
		none, err2 := b.FeltBetween(ctx, []string{robin.Person}, morning, morning.Add(2*time.Hour))
		if len(none) != 0 || err2 != nil {
			t.Errorf("of another: %+v, %v", none, err2)
		}
		return err
	})
}
