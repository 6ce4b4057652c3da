package store

import (
	"context"
	"time"

	"detent/tuning"
	"detent/tuning/learn"
)

// sumRow is what one car, or the others together, know of a remedy.
type sumRow struct {
	keyRow
	Own       bool
	A, B      float64
	Cars      int
	Strangers int
	People    int
	Tries     int
	Helped    int
	Last      time.Time
	Worse     bool
}

// selectSums reads sumRows beside the car that "this" holds, of owner $1, at
// time $3. The sums are weighed as of then, by a half-life of $4 seconds, and
// those of other cars are eased by the variance $5 as learn.Others are. OFFSET
// 0 is an optimisation fence: the weight is computed once a row.
const selectSums = `
	select what, place, drive, part, job, turn, own,
		sum(case when own then a else a / (1 + $5 * a) end) as a, sum(case when own then b else b / (1 + $5 * a) end) as b,
		count(*) as cars, count(*) filter (where owner <> $1) as strangers,
		(select count(*) from (select from unnest(array_agg(owner) filter (where owner <> $1)) person group by person) each) as people,
		sum(tries) as tries, sum(helped) as helped, max(last) as last, bool_or(worse) as worse
	from (
		select what, place, drive, part, job, turn, own, owner, a * weight as a, b * weight as b, tries, helped, last, worse
		from (
			select s.*, s.car = (select id from this) as own,
				power(2::double precision, -greatest(0, date_part('epoch', $3::timestamptz - s.at)) / $4::double precision) as weight
			from try_sums s
			where `

// sumsOfThose ends selectSums, behind the condition that picks rows.
const sumsOfThose = ` offset 0) weighed) eased
	group by what, place, drive, part, job, turn, own`

// selectLearned reads the sums of every row of the table of which car $2 has tries.
const selectLearned = `with this as (select $2::bigint as id)` + selectSums + `
			(s.what, s.place, s.drive) in (select what, place, drive from try_sums where car = (select id from this))` + sumsOfThose

// LearnedAll reads what the club knows of every complaint of which the car has
// tries, the car's own apart from those of the others.
func (b *Book) LearnedAll(ctx context.Context, car tuning.Car) (learn.Evidence, error) {
	var rows []sumRow
	err := b.list(ctx, &rows, selectLearned, car.Owner, car.ID, b.now, learn.HalfLife.Seconds(), learn.CarVariance)
	return evidenceOf(rows), err
}

func evidenceOf(rows []sumRow) learn.Evidence {
	e := learn.Evidence{Own: map[learn.Key]learn.Sums{}, Others: map[learn.Key]learn.Others{}}
	for _, r := range rows {
		if r.Own {
			e.Own[r.key()] = learn.Sums{A: r.A, B: r.B, Tries: r.Tries, Helped: r.Helped, Last: r.Last, Worse: r.Worse}
			continue
		}
		e.Others[r.key()] = learn.Others{A: r.A, B: r.B, Cars: r.Cars, Tries: r.Tries, Helped: r.Helped, Strangers: r.Strangers, People: r.People}
	}
	return e
}
