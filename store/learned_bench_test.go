package store_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
	"detent/tuning/learn"
)

// dearestLearning is what the record may add to a symptom, whatever the club has
// in its log.
const dearestLearning = 2 * time.Millisecond

// BenchmarkLearned reads the case of a car of a club of 250 cars, with 1,000,000
// rows in its log and 100,000 tries, and judges a complaint by the table alone;
// and, in turn, by what the club knows: read, the remedies put in order, and what
// is told of them gathered. It fails where half the asks that learn take more than
// dearestLearning longer than half of those that do not.
func BenchmarkLearned(b *testing.B) {
	url := storetest.URL(b)
	db, err := store.Rehearse(b.Context(), url)
	must(b, err)
	b.Cleanup(func() { db.Close() })
	car := newCar(b, db)
	fillClub(b, url, db, car)
	var plain, learned []time.Duration
	timed := func(took *[]time.Duration, judge func(*store.Book) error) {
		must(b, db.Read(b.Context(), sam, morning.AddDate(0, 6, 0), func(book *store.Book) error {
			began := time.Now()
			err := judge(book)
			*took = append(*took, time.Since(began))
			return err
		}))
	}
	complaint := tuning.Complaint{What: tuning.Understeer}
	for b.Loop() {
		timed(&plain, func(book *store.Book) error {
			c, err := book.Case(b.Context(), sam.Person, "")
			if err == nil {
				_, err = tuning.Advise(c.Car, c.Setting, complaint, c.History, tuning.DefaultSizes)
			}
			return err
		})
		timed(&learned, func(book *store.Book) error { return judgeByRecord(b, book, complaint) })
	}
	median := func(took []time.Duration) time.Duration { slices.Sort(took); return took[len(took)/2] }
	more := median(learned) - median(plain)
	b.ReportMetric(float64(median(plain).Microseconds())/1e3, "ms/plain")
	b.ReportMetric(float64(median(learned).Microseconds())/1e3, "ms/learned")
	b.ReportMetric(float64(more.Microseconds())/1e3, "ms/more")
	b.ReportMetric(0, "ns/op")
	if more > dearestLearning {
		b.Errorf("learning from the record takes %v more, and at most %v is wanted", more, dearestLearning)
	}
}

// judgeByRecord judges a complaint by what the club knows, and gathers what is
// told of each remedy.
func judgeByRecord(b *testing.B, book *store.Book, complaint tuning.Complaint) error {
	c, evidence, err := book.LearnedCase(b.Context(), sam.Person, "", complaint)
	if err != nil {
		return err
	}
	known := learn.Knowledge{Car: c.Car, Complaint: complaint, History: c.History, Sizes: tuning.DefaultSizes, Evidence: evidence}
	c.History.Prefer = known.Prefer
	advice, err := tuning.Advise(c.Car, c.Setting, complaint, c.History, tuning.DefaultSizes)
	if err != nil {
		return err
	}
	if n := len(advice.Remedies); n != 2 {
		return fmt.Errorf("there are %d remedies", n)
	}
	for _, r := range advice.Remedies {
		if told, ok := known.Tell(r); !ok || told.Club.Cars != 249 || told.Tries == 0 {
			return fmt.Errorf("told is %+v", told)
		}
	}
	return nil
}

// fillClub gives a club 250 cars with 2,000 changes of two lines each, every
// fifth of them a try of one of the two remedies against understeer, past the
// triggers that would take minutes over it.
func fillClub(b *testing.B, url string, db *store.DB, car tuning.Car) {
	admin, err := sqlx.Connect("postgres", url)
	must(b, err)
	defer admin.Close()
	tx := admin.MustBegin()
	tx.MustExec(`set local session_replication_role = replica`)
	tx.MustExec(`select set_config('detent.club', $1, true)`, sam.Club)
	tx.MustExec(`insert into members (person, name) select 'person ' || n, 'P' || n from generate_series(2, 250) n`)
	tx.MustExec(`
		insert into cars (owner, name, main, retired, drive, engine, tyre, aero, use, torque_front, mass, front_share, wheelbase, cg_height,
			track_front, track_rear, spring_front, spring_rear, ratio_front, ratio_rear, unsprung_front, unsprung_rear, tyre_rate_front, tyre_rate_rear)
		select 'person ' || n, 'Hatch', true, false, 'front', 'front', '', '', '', 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0 from generate_series(2, 250) n`)
	tx.MustExec(`
		with change as (
			insert into changes (car, at, person, reason)
			select c.id, $1::timestamptz + n * interval '1 minute', c.owner, 'remedy' from cars c, generate_series(1, 2000) n
			returning id, car, at, person
		), felt as (
			insert into feels (car, person, at, change, grip, better, notes)
			select car, person, at, id, 6, 'yes', '' from change
			where extract(epoch from at - $1)::bigint / 60 % 5 = 0
			returning id, car, at, change, extract(epoch from at - $1)::bigint / 60 % 2 = 0 as even
		), tried as (
			insert into tries (car, change, feel, at, what, place, drive, part, job, turn, fraction, moved, variance, helped, worse)
			select car, change, id, at, 'understeer', 'entry', '', case when even then 'rear' else 'front' end, 'rebound',
				case when even then 'stiffer' else 'softer' end, 1, 0.9, 0.8, true, false from felt
		)
		insert into clicks (car, change, corner, adjuster, from_click, to_click)
		select car, id, corner::corner, 'rebound', 10 + id % 2, 11 - id % 2 from change, unnest('{FL,FR}'::text[]) corner`, morning)
	must(b, tx.Commit())
	var cars []int64
	must(b, admin.Select(&cars, `select id from cars order by id`))
	if car.ID != cars[0] || len(cars) != 250 {
		b.Fatalf("there are %d cars", len(cars))
	}
	_, err = db.Once(b.Context(), sam, morning, "sum", func(book *store.Book) ([]byte, error) {
		for _, id := range cars {
			if err := book.Refit(b.Context(), id, store.Tyres); err != nil {
				return nil, err
			}
		}
		return nil, nil
	})
	must(b, err)
	admin.MustExec(`vacuum analyze`)
}
