package store

import (
	"context"

	"detent/tuning"
)

// remembered is how many changes the judgement looks back on.
const remembered = 50

// Case reads a car with its setting and history; the name as for Car.
func (b *Book) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	car, err := b.Car(ctx, owner, name)
	if err != nil {
		return tuning.Case{}, err
	}
	c := tuning.Case{Car: car}
	if c.Setting, c.History.Unrecorded, err = b.setting(ctx, car.ID); err != nil {
		return c, err
	}
	entries, err := b.changes(ctx, car.ID, `
		and c.id > coalesce((select max(id) from changes where car = $1 and reason = 'fitted'), 0)
		order by c.id desc limit $2`, remembered)
	if err != nil {
		return c, err
	}
	for _, e := range entries {
		c.History.Changes = append(c.History.Changes, e.Change)
	}
	if c.History.LastFeel, err = b.lastFeel(ctx, car.ID); err != nil {
		return c, err
	}
	if c.History.LastAdvice, c.History.AdviceEvent, err = b.lastAdvice(ctx, car.ID); err != nil {
		return c, err
	}
	c.Event, err = b.at(ctx, car.ID)
	return c, err
}

// setting reads where a car's clicks stand, and whether nobody has said so
// since its dampers were fitted.
func (b *Book) setting(ctx context.Context, car int64) (s tuning.Setting, unrecorded bool, err error) {
	var rows []struct {
		position
		Fitted bool
	}
	err = b.list(ctx, &rows, `
		select p.corner, p.adjuster, p.clicks, p.change, c.reason = 'fitted' as fitted
		from positions p join changes c on c.car = p.car and c.id = p.change
		where p.car = $1`, car)
	unrecorded = true
	for _, r := range rows {
		s[r.Corner][r.Adjuster] = r.Clicks
		unrecorded = unrecorded && r.Fitted
	}
	return s, unrecorded, err
}
