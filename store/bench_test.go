package store_test

import (
	"context"
	"fmt"
	"os"
	"slices"
	"syscall"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"detent/store"
	"detent/store/localpg"
	"detent/store/storetest"
	"detent/tuning"
)

// contender is one of two things that a benchmark compares.
type contender struct {
	name string
	run  func() error
}

// race times two contenders in turn, so that both meet the same machine, and
// reports the median of each in µs and how many times the first the second
// costs. It fails when that is more than most, 0 for as much as it likes. What
// prepare does is not timed.
func race(b *testing.B, most float64, prepare func(), contenders ...contender) {
	took := make([][]time.Duration, len(contenders))
	for b.Loop() {
		prepare()
		for i, c := range contenders {
			began := time.Now()
			must(b, c.run())
			took[i] = append(took[i], time.Since(began))
		}
	}
	median := func(d []time.Duration) float64 {
		slices.Sort(d)
		return float64(d[len(d)/2].Nanoseconds()) / 1e3
	}
	for i, c := range contenders {
		b.ReportMetric(median(took[i]), "µs/"+c.name)
	}
	ratio := median(took[1]) / median(took[0])
	b.ReportMetric(ratio, "ratio")
	b.ReportMetric(0, "ns/op") // of both together it says nothing
	if most != 0 && ratio > most {
		b.Errorf("%s costs %.2f times %s, and at most %g are wanted", contenders[1].name, ratio, contenders[0].name, most)
	}
}

// newCar gives Sam a car that stands at the start.
func newCar(b *testing.B, db *store.DB) (car tuning.Car) {
	_, err := db.Once(b.Context(), sam, morning, "car", func(book *store.Book) (_ []byte, err error) {
		if car, err = book.SaveCar(b.Context(), hatch(sam, "Blue hatch")); err != nil {
			return nil, err
		}
		return nil, fit(b.Context(), book, &car, damper())
	})
	must(b, err)
	return car
}

// What an answer needs to know costs the same however long the log is.
func BenchmarkCase(b *testing.B) {
	ask := func(rows int) func() error {
		url := storetest.URL(b)
		db, err := store.Rehearse(b.Context(), url)
		must(b, err)
		b.Cleanup(func() { db.Close() })
		fill(b, url, newCar(b, db), rows)
		return func() error {
			return db.Read(b.Context(), sam, morning, func(book *store.Book) error {
				c, err := book.Case(b.Context(), sam.Person, "")
				if n := len(c.History.Changes); err == nil && n != 50 {
					err = fmt.Errorf("%d changes are remembered", n)
				}
				return err
			})
		}
	}
	race(b, 1.5, func() {}, contender{"1000-rows", ask(1_000)}, contender{"1000000-rows", ask(1_000_000)})
}

// fill gives a car a log of so many lines, two a change and with a feel after
// every tenth, past the triggers that would take minutes over it.
func fill(b *testing.B, url string, car tuning.Car, rows int) {
	admin, err := sqlx.Connect("postgres", url)
	must(b, err)
	defer admin.Close()
	tx := admin.MustBegin()
	tx.MustExec(`set local session_replication_role = replica`)
	tx.MustExec(`select set_config('detent.club', $1, true)`, sam.Club)
	tx.MustExec(`
		with stands as (
			select clicks from positions where car = $1 and corner = 'FL' and adjuster = 'rebound'
		), change as (
			insert into changes (car, at, person, reason)
			select $1, $2::timestamptz + n * interval '1 second', $3, 'by hand' from generate_series(1, $4) n
			returning id
		), felt as (
			insert into feels (car, person, at, change, grip, better, notes)
			select $1, $3, $2, id, 6, 'same', '' from change where id % 10 = 0
		)
		insert into clicks (car, change, corner, adjuster, from_click, to_click)
		select $1, id, corner::corner, 'rebound', clicks + id % 2, clicks + 1 - id % 2
		from change, stands, unnest('{FL,FR}'::text[]) corner`, car.ID, morning, sam.Person, rows/2)
	tx.MustExec(`update positions set change = (select max(id) from changes where car = $1) where car = $1`, car.ID)
	must(b, tx.Commit())
	admin.MustExec(`vacuum analyze`)
}

// Applying a remedy, with all that is checked and kept for it, beside the
// least that a durable database can do: a row inserted and committed. That is
// three calls of database/sql, or one for a statement that commits by itself.
func BenchmarkApply(b *testing.B) {
	server, err := localpg.Start(b.Context(), onDisk(b)) // one that syncs what it commits
	must(b, err)
	b.Cleanup(func() { server.Close() })
	db, err := store.Rehearse(b.Context(), server.URL(localpg.Database))
	must(b, err)
	b.Cleanup(func() { db.Close() })
	newCar(b, db)

	bare, err := sqlx.Connect("postgres", server.URL(localpg.Database))
	must(b, err)
	b.Cleanup(func() { bare.Close() })
	bare.MustExec(`create table bare (id bigint generated always as identity primary key, what text not null)`)

	const insert = `insert into bare (what) values ($1)`
	n := 0
	var advice int64
	remedy := contender{"apply", func() error {
		_, err := db.Once(b.Context(), sam, morning, fmt.Sprint("apply ", n), func(book *store.Book) ([]byte, error) {
			return []byte("done"), apply(b.Context(), book, advice)
		})
		return err
	}}
	against := func(name string, most float64, least func() error) {
		b.Run(name, func(b *testing.B) {
			race(b, most, func() { n++; advice = advise(b, db, n) }, contender{name, least}, remedy)
		})
	}
	against("insert-and-commit", 4, func() error {
		tx, err := bare.BeginTxx(b.Context(), nil)
		if err != nil {
			return err
		}
		defer tx.Rollback() // does nothing after the commit
		if _, err := tx.ExecContext(b.Context(), insert, "a row"); err != nil {
			return err
		}
		return tx.Commit()
	})
	against("one-statement", 0, func() error {
		_, err := bare.ExecContext(b.Context(), insert, "a row")
		return err
	})
}

// onDisk is a new folder that is on a disk, since in memory a commit costs
// nothing.
func onDisk(b *testing.B) string {
	const tmpfs, ramfs = 0x01021994, 0x858458f6 // as Linux numbers them
	for _, home := range []string{os.TempDir(), "/var/tmp"} {
		var on syscall.Statfs_t
		if syscall.Statfs(home, &on) != nil || on.Type == tmpfs || on.Type == ramfs {
			continue
		}
		folder, err := os.MkdirTemp(home, "detent-bench-")
		must(b, err)
		b.Cleanup(func() { os.RemoveAll(folder) })
		return folder
	}
	b.Fatalf("%s and /var/tmp are in memory: TMPDIR must name a folder on a disk", os.TempDir())
	return ""
}

// advise gives Sam an advice: one click of rebound, this way and that.
func advise(b *testing.B, db *store.DB, n int) (id int64) {
	_, err := db.Once(b.Context(), sam, morning, fmt.Sprint("advise ", n), func(book *store.Book) ([]byte, error) {
		c, err := book.Case(b.Context(), sam.Person, "")
		if err != nil {
			return nil, err
		}
		advice, err := book.SaveAdvice(b.Context(), tuning.Advice{Car: c.Car.ID, Complaint: tuning.Complaint{What: tuning.Hops},
			Remedies: []tuning.Remedy{{Kind: tuning.TurnClicks, Moves: turn(c, tuning.Rebound, 1-2*(n%2))}}}, c.Setting)
		id = advice.ID
		return nil, err
	})
	must(b, err)
	return id
}

// apply does what a press of the button does.
func apply(ctx context.Context, book *store.Book, advice int64) error {
	given, err := book.Given(ctx, sam.Person, advice)
	if err != nil {
		return err
	}
	_, err = book.Record(ctx, given.Car, tuning.Change{Reason: tuning.ByRemedy, Complaint: &given.Advice.Complaint,
		Advice: advice, Remedy: 1, Moves: given.Advice.Remedies[0].Moves})
	return err
}
