package store

import (
	"context"
	"time"

	"github.com/jmoiron/sqlx/types"

	"detent/tuning"
)

// selectCarSeason reads as JSON a carSeasonRow of car $1 from $2 to $3; $4 is now.
// Of each kind it reads the newest 5,000, more than anybody turns or feels in a
// year. A change that turned nothing does not make a year, so the nearest other
// years are found without such changes.
const selectCarSeason = `
	with changed as materialized (
		select ` + changeColumns + `from changes c where c.car = $1 and c.at >= $2 and c.at < $3 order by c.id desc limit 5000
	), felt as materialized (` + selectFeels + `where car = $1 and at >= $2 and at < $3 order by id desc limit 5000
	), noted as materialized (` + selectCarNotes + `where car = $1 and at >= $2 and at < $3 order by id desc limit 5000
	), turns as (
		select c.id, c.at from changes c
		where c.car = $1 and c.reason <> 'fitted' and (c.reason <> 'by hand' or c.turned)
			and exists (select from clicks l where l.car = c.car and l.change = c.id and l.from_click <> l.to_click)
	)
	select json_build_object(
		'changes', (select json_agg(c order by c.id) from changed c),
		'lines', (
			select string_agg(concat_ws(' ', c.id, l.corner, l.adjuster, l.from_click, l.to_click), E'\n') from changed c
			cross join lateral (` + selectLines + `where car = $1 and change = c.id offset 0) l),
		'feels', (select json_agg(f order by f.id) from felt f),
		'notes', (select json_agg(n order by n.id) from noted n),
		'events', (
			select json_agg(e order by e.starts, e.id) from (` + selectEvents + `
				where id in (select event from changed union select event from felt union select event from noted)
					or starts >= $2 and starts < $3 and starts <= $4 and not cancelled
						and id in (select event from entries where car = $1 and left_at is null)) e),
		'before', (
			select json_agg(b) from (
				select distinct on (l.corner, l.adjuster) l.corner, l.adjuster, l.to_click
				from clicks l join changes c on c.car = l.car and c.id = l.change
				where l.car = $1 and c.at < $2 order by l.corner, l.adjuster, l.change desc) b),
		'fitted', (
			select json_agg(f) from (
				select l.corner, max(c.at) as at from changes c join clicks l on l.car = c.car and l.change = c.id
				where c.car = $1 and c.reason = 'fitted' group by l.corner) f),
		'earlier', greatest(
			(select at from turns where at < $2 order by id desc limit 1),
			(select at from feels where car = $1 and at < $2 order by id desc limit 1),
			(select at from car_notes where car = $1 and at < $2 order by id desc limit 1)),
		'later', least(
			(select at from turns where at >= $3 order by id limit 1),
			(select at from feels where car = $1 and at >= $3 order by id limit 1),
			(select at from car_notes where car = $1 and at >= $3 order by id limit 1)))`

// carSeasonRow is a year of a car.
type carSeasonRow struct {
	Changes []changeRow
	Lines   lineTexts
	Feels   []feelRow
	Notes   []carNoteRow
	Events  []eventRow
	Before  []lineRow
	Fitted  []struct {
		Corner cornerWord
		At     time.Time
	}
	Earlier, Later *time.Time
}

// CarSeason reads what the record holds of a car from a moment to another, and
// where its adjusters stood before.
func (b *Book) CarSeason(ctx context.Context, car tuning.Car, from, to time.Time) (tuning.CarSeason, error) {
	var row carSeasonRow
	if err := b.whole(ctx, &row, selectCarSeason, car.ID, from, to, b.now); err != nil {
		return tuning.CarSeason{}, err
	}
	s := tuning.CarSeason{From: from, To: to, Earlier: orZero(row.Earlier), Later: orZero(row.Later)}
	for _, l := range compose(row.Changes, row.Lines) {
		s.Changes = append(s.Changes, l.Change)
	}
	for _, f := range row.Feels {
		s.Feels = append(s.Feels, f.feel())
	}
	for _, n := range row.Notes {
		s.Notes = append(s.Notes, n.note())
	}
	for _, e := range row.Events {
		s.Events = append(s.Events, e.event())
	}
	for _, l := range row.Before {
		s.Before = append(s.Before, tuning.Move{Corner: tuning.Corner(l.Corner), Adjuster: tuning.Adjuster(l.Adjuster), From: -1, To: l.To})
	}
	for _, f := range row.Fitted {
		s.Fitted[tuning.Corner(f.Corner).Axle()] = f.At
	}
	return s, nil
}

// whole reads a row that comes as one JSON value.
func (b *Book) whole(ctx context.Context, row any, query string, args ...any) error {
	var text types.JSONText
	if err := b.get(ctx, &text, query, args...); err != nil {
		return problem(err)
	}
	return problem(text.Unmarshal(row))
}

// orZero is a time that may be null.
func orZero(t *time.Time) time.Time {
	if t == nil {
		return time.Time{}
	}
	return *t
}
