package store

import (
	"context"
	"slices"

	"detent/tuning"
	"detent/tuning/learn"
)

// AtPlace reads what is on record of a car at a place: at the events there that
// have begun, of which something was changed or felt. Where there is none the
// record is empty. The tries are those that were judged there, oldest first.
func (b *Book) AtPlace(ctx context.Context, car tuning.Car, place string) (r tuning.PlaceRecord, tries []learn.Try, err error) {
	r.Car = car
	if r.Visits, err = b.visits(ctx, car.ID, place); err != nil || len(r.Visits) == 0 {
		return r, nil, err
	}
	ids := make([]int64, len(r.Visits))
	for i, e := range r.Visits {
		ids[i] = e.ID
	}
	if r.Changes, err = b.everyChange(ctx, car.ID); err != nil {
		return r, nil, err
	}
	if r.Feels, err = b.feltAt(ctx, car.ID, r.Visits, ids); err != nil {
		return r, nil, err
	}
	tries, err = b.tries(ctx, `
		left join feels f on f.car = t.car and f.id = t.feel
		left join searches s on s.car = t.car and s.id = t.search
		where t.car = $1 and coalesce(f.event, s.event) = any ($2) order by t.at, t.change`, car.ID, ids)
	return r, tries, err
}

// visits lists the events at a place of which something is on record of a car, in
// order of their start.
func (b *Book) visits(ctx context.Context, car int64, place string) ([]tuning.Event, error) {
	events, err := b.events(ctx, `
		where starts <= $2 and not cancelled and place <> '' and (
			id in (select event from changes where car = $1 and event is not null)
			or id in (select event from feels where car = $1 and event is not null))
		order by starts, id`, car, b.now)
	return slices.DeleteFunc(events, func(e tuning.Event) bool { return !tuning.SamePlace(e.Place, place) }), err
}

// everyChange lists all changes of a car, oldest first.
func (b *Book) everyChange(ctx context.Context, car int64) ([]tuning.Change, error) {
	var rows []changeRow
	err := b.list(ctx, &rows, `
		select id, at, reason, coalesce(undoes, 0) as undoes, coalesce(event, 0) as event, turned
		from changes where car = $1 order by id`, car)
	if err != nil {
		return nil, err
	}
	var lines []lineRow
	if err := b.list(ctx, &lines, selectLines+`where car = $1`, car); err != nil {
		return nil, err
	}
	changes := make([]tuning.Change, len(rows))
	for i, l := range compose(rows, lines) {
		changes[i] = l.Change
	}
	return changes, nil
}

// feltAt lists how a car felt at some events, oldest first.
func (b *Book) feltAt(ctx context.Context, car int64, events []tuning.Event, ids []int64) ([]tuning.FeltThere, error) {
	feels, err := b.feels(ctx, `where car = $1 and event = any ($2) order by id`, car, ids)
	if err != nil || len(feels) == 0 {
		return nil, err
	}
	asked, err := b.asked(ctx, car, feels[0].At.Add(-sameDay))
	if err != nil {
		return nil, err
	}
	felt := make([]tuning.FeltThere, len(feels))
	for i, f := range feels {
		e := events[slices.Index(ids, f.Event)]
		weather := f.Conditions.Weather()
		if weather == "" {
			weather = weatherOf(feltRow{feelRow: feelRow{At: f.At}, Weather: e.Weather.Known()}, asked)
		}
		felt[i] = tuning.FeltThere{Feel: f, Weather: weather, Event: e.Name}
	}
	return felt, nil
}
