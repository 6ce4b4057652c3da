package store

import (
	"context"
	"time"

	"github.com/lib/pq"

	"detent/tuning"
	"detent/tuning/learn"
)

// learn reads the end of a car's record into tries, where a feel or a run of a
// grip search has just been added. A car whose older record was never read is
// read whole.
func (b *Book) learn(ctx context.Context, car int64) error {
	first, err := b.readFirst(ctx, car)
	if err != nil {
		return err
	}
	since := sinceLastFeel
	if first {
		since = wholeRecord
	}
	r, runs, err := b.record(ctx, car, since)
	if err != nil {
		return err
	}
	tries := r.Tries()
	if len(tries) == 0 {
		return nil
	}
	for _, t := range tries {
		if err := b.saveTry(ctx, t, runs); err != nil {
			return err
		}
	}
	return b.sumTries(ctx, car)
}

// readFirst marks a car's record as read, and tells whether it was not before.
func (b *Book) readFirst(ctx context.Context, car int64) (first bool, err error) {
	var marked []int64
	err = b.list(ctx, &marked, `update cars set tries_read = true where id = $1 and not tries_read returning id`, car)
	return len(marked) > 0, err
}

// saveTry keeps a try; runs are those of grip searches by the number that the
// record gave their feels. One that is kept already stays.
func (b *Book) saveTry(ctx context.Context, t learn.Try, runs map[int64]runKey) error {
	run, judged := runs[t.Feel]
	feel := t.Feel
	if judged {
		feel = 0
	}
	return b.exec(ctx, `
		insert into tries (car, change, feel, search, run, at, what, place, drive, part, job, turn, fraction, moved, variance, helped, worse)
		values ($1, $2, nullif($3, 0), nullif($4, 0), nullif($5, 0), $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17)
		on conflict (club, car, change) do nothing`,
		t.Car, t.Change, feel, run.Search, run.Number, t.At, t.Key.Row.What, t.Key.Row.Where, t.Key.Row.Drive, t.Key.Part, t.Key.Job, t.Key.Turn,
		t.Fraction, t.Moved, t.Variance, t.Helped, t.Worse)
}

// keyRow are the columns that name a remedy of the table.
type keyRow struct {
	What  tuning.What
	Place tuning.Where
	Drive tuning.Drive
	Part  tuning.Part
	Job   tuning.Job
	Turn  tuning.Turn
}

func (r keyRow) key() learn.Key {
	return learn.Key{Row: tuning.RowKey{What: r.What, Where: r.Place, Drive: r.Drive}, Part: r.Part, Job: r.Job, Turn: r.Turn}
}

// tryRow is a row of tries with the owner of its car.
type tryRow struct {
	keyRow
	Car      int64
	Owner    string
	Change   int64
	Feel     int64
	At       time.Time
	Fraction float64
	Moved    float64
	Variance float64
	Helped   bool
	Worse    bool
}

const selectTries = `
	select t.car, c.owner, t.change, coalesce(t.feel, 0) as feel, t.at, t.what, t.place, t.drive, t.part, t.job, t.turn,
		t.fraction, t.moved, t.variance, t.helped, t.worse
	from tries t join cars c on c.id = t.car `

func (r tryRow) try() learn.Try {
	return learn.Try{Car: r.Car, Owner: r.Owner, Change: r.Change, Feel: r.Feel, Key: r.key(), At: r.At, Fraction: r.Fraction,
		Reading: learn.Reading{Moved: r.Moved, Variance: r.Variance, Helped: r.Helped, Worse: r.Worse}}
}

// tries reads the tries that the rest of a query picks.
func (b *Book) tries(ctx context.Context, rest string, args ...any) ([]learn.Try, error) {
	var rows []tryRow
	err := b.list(ctx, &rows, selectTries+rest, args...)
	tries := make([]learn.Try, len(rows))
	for i, r := range rows {
		tries[i] = r.try()
	}
	return tries, err
}

// TriesAt lists the tries that were judged at an event, oldest first.
func (b *Book) TriesAt(ctx context.Context, event tuning.Event) ([]learn.Try, error) {
	return b.tries(ctx, `
		left join feels f on f.car = t.car and f.id = t.feel
		left join searches s on s.car = t.car and s.id = t.search
		where coalesce(f.event, s.event) = $1 order by t.at, t.car, t.change`, event.ID)
}

// TriesOf lists the tries of a car that were judged from a moment to another,
// oldest first.
func (b *Book) TriesOf(ctx context.Context, car tuning.Car, from, to time.Time) ([]learn.Try, error) {
	return b.tries(ctx, `where t.car = $1 and t.at >= $2 and t.at < $3 order by t.at, t.change`, car.ID, from, to)
}

// TriesIn lists the tries of the whole club that were judged from a moment to
// another, oldest first.
func (b *Book) TriesIn(ctx context.Context, from, to time.Time) ([]learn.Try, error) {
	return b.tries(ctx, `where t.at >= $1 and t.at < $2 order by t.at, t.car, t.change`, from, to)
}

// sumTries writes a car's sums anew, as its tries weigh now.
func (b *Book) sumTries(ctx context.Context, car int64) error {
	tries, err := b.tries(ctx, `where t.car = $1 order by t.change`, car)
	if err != nil || len(tries) == 0 {
		return err
	}
	refits, err := b.refits(ctx, car)
	if err != nil {
		return err
	}
	for key, s := range learn.SumsOf(tries, refits, b.now) {
		err := b.exec(ctx, `
			insert into try_sums (what, place, drive, part, job, turn, car, at, a, b, tries, helped, last, worse)
			values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)
			on conflict (club, what, place, drive, car, part, job, turn) do update set
				(at, a, b, tries, helped, last, worse) =
				(excluded.at, excluded.a, excluded.b, excluded.tries, excluded.helped, excluded.last, excluded.worse)`,
			key.Row.What, key.Row.Where, key.Row.Drive, key.Part, key.Job, key.Turn, car, b.now, s.A, s.B, s.Tries, s.Helped, s.Last, s.Worse)
		if err != nil {
			return err
		}
	}
	return nil
}

// ReadOlder reads the record of cars of before there were tries, a car at a
// time, and tells how many those were. It may be stopped at any moment, and goes
// on where it was when it is run again.
func (db *DB) ReadOlder(ctx context.Context, now time.Time) (cars int, err error) {
	var clubs pq.StringArray
	err = db.retries.retry(ctx, "", func() error {
		return db.pool.GetContext(ctx, &clubs, `select array(select unread_clubs())`)
	})
	for _, club := range clubs {
		for err == nil {
			read := 0
			err = db.write(ctx, club, now, func(b *Book) (err error) {
				read, err = b.readOlder(ctx)
				return err
			})
			if cars += read; read == 0 {
				break
			}
		}
	}
	return cars, err
}

// readOlder reads the next car of the club, or marks the club as read and tells
// 0 cars.
func (b *Book) readOlder(ctx context.Context) (cars int, err error) {
	var next []int64
	if err := b.list(ctx, &next, `select id from cars where not tries_read order by id limit 1`); err != nil {
		return 0, err
	}
	for _, car := range next {
		return 1, b.learn(ctx, car)
	}
	return 0, b.exec(ctx, `update clubs set tries_read = true`)
}
