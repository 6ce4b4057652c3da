package store

import (
	"context"
	"time"

	"detent/tuning"
)

// remembered picks the changes that the judgement looks back on: the newest,
// since the dampers were fitted.
const remembered = `
	and c.id > coalesce((select max(id) from changes where car = $1 and reason = 'fitted'), 0)
	order by c.id desc limit 50`

// selectRemembered reads the lines of those changes. The offset keeps the
// planner from any other way than looking up each change by the index, however
// long the log is and whatever it knows of it.
const selectRemembered = `
	select line.*
	from (select c.car, c.id from changes c where c.car = $1` + remembered + `) newest
	cross join lateral (
		select change, corner, adjuster, coalesce(from_click, -1) as from_click, to_click
		from clicks where car = newest.car and change = newest.id offset 0) line`

// Case reads a car with its setting and history; the name as for Car.
func (b *Book) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	car, err := b.bareCar(ctx, owner, name)
	if err != nil {
		return tuning.Case{}, err
	}
	var (
		dampers []damperRow
		stands  []standing
		changes []changeRow
		lines   []lineRow
		feels   []feelRow
		advice  []adviceRow
		events  []eventRow
	)
	for _, read := range []struct {
		rows  any
		query string
		args  []any
	}{
		{&dampers, selectDampers + `where d.car = $1`, []any{car.ID}},
		{&stands, selectStanding, []any{car.ID}},
		{&changes, selectChanges + remembered, []any{car.ID}},
		{&lines, selectRemembered, []any{car.ID}},
		{&feels, selectFeels + `where car = $1 order by id desc limit 1`, []any{car.ID}},
		{&advice, selectLastAdvice, []any{car.ID}},
		{&events, selectEvents + `where id = event_of($1, $2, interval '12 hours')`, []any{car.ID, b.now}},
	} {
		if err := b.list(ctx, read.rows, read.query, read.args...); err != nil {
			return tuning.Case{}, err
		}
	}
	for _, d := range dampers {
		if err := d.fit(&car); err != nil {
			return tuning.Case{}, err
		}
	}
	logged, err := compose(changes, lines)
	c := tuning.Case{Car: car, Event: first(events).event()}
	c.Setting, c.History.Unrecorded = stand(stands)
	b.sawStanding(car.ID, stands)
	for _, l := range logged {
		c.History.Changes = append(c.History.Changes, l.Change)
	}
	c.History.LastFeel = onlyFeel(feels)
	last := first(advice)
	c.History.LastAdvice, c.History.AdviceEvent = last.At, last.Event
	return c, err
}

// onlyFeel is the feel that was read, nil for none.
func onlyFeel(rows []feelRow) *tuning.Feel {
	if len(rows) == 0 {
		return nil
	}
	feel := rows[0].feel()
	return &feel
}

const selectLastAdvice = `
	select at, coalesce(event, 0) as event from advice
	where car = $1 and complaint->>'what' <> '' order by id desc limit 1`

// adviceRow is when an advice for a complaint was given, and at which event.
type adviceRow struct {
	At    time.Time
	Event int64
}

// standing is where an adjuster stands, and whether only its fitting says so.
type standing struct {
	Corner   cornerWord
	Adjuster adjusterWord
	Clicks   int
	Change   int64 // that put it there
	Fitted   bool
}

const selectStanding = `
	select p.corner, p.adjuster, p.clicks, p.change,
		(select c.reason = 'fitted' from changes c where c.car = p.car and c.id = p.change) as fitted
	from positions p
	where p.car = $1`

// stand is where a car's clicks stand, and whether nobody has said so since
// its dampers were fitted.
func stand(rows []standing) (s tuning.Setting, unrecorded bool) {
	unrecorded = true
	for _, r := range rows {
		s[r.Corner][r.Adjuster] = r.Clicks
		unrecorded = unrecorded && r.Fitted
	}
	return s, unrecorded
}
