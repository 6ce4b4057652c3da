package store

import (
	"context"
	"time"

	"detent/tuning"
)

// Search finds the search under way on a car in a weather.
func (b *Book) Search(ctx context.Context, car tuning.Car, weather tuning.Weather) (tuning.Search, error) {
	search := tuning.Search{Car: car.ID, Weather: weather}
	var row struct {
		ID      int64
		Started time.Time
		Event   int64
	}
	err := b.get(ctx, &row, `
		select id, started, coalesce(event, 0) as event
		from searches where car = $1 and weather = $2 and stopped is null`, car.ID, weather)
	if err != nil {
		return search, none(err, tuning.NoSearch{Car: car.Name, Weather: weather})
	}
	search.ID, search.Started, search.Event = row.ID, row.Started, row.Event
	err = b.list(ctx, &search.Runs, `
		select at, hop, coalesce(grip, 0) as grip, clicks
		from search_runs where car = $1 and search = $2 order by number`, car.ID, row.ID)
	return search, err
}

// SaveSearch adds a search, or changes the one with the same ID: runs that are
// not kept yet are added, and it may end.
func (b *Book) SaveSearch(ctx context.Context, search tuning.Search) (tuning.Search, error) {
	query := `
		insert into searches (car, weather, started, stopped, why)
		values (:car, :weather, :started, :stopped, nullif(:why, '')) returning id`
	if search.ID != 0 {
		query = `
			update searches set stopped = :stopped, why = nullif(:why, '')
			where car = :car and id = :id returning id`
	}
	query, args, err := b.named(query, map[string]any{
		"id": search.ID, "car": search.Car, "weather": search.Weather, "started": search.Started,
		"stopped": orNull(search.Stopped), "why": search.Why,
	})
	if err != nil {
		return search, err
	}
	if err := b.get(ctx, &search.ID, query, args...); err != nil {
		return search, none(err, tuning.SearchGone)
	}
	return search, b.saveRuns(ctx, search)
}

// saveRuns adds the runs of a search that are not kept yet, and what they say of
// the steps before them.
func (b *Book) saveRuns(ctx context.Context, search tuning.Search) error {
	n := len(search.Runs)
	at, hop := make([]time.Time, n), make([]bool, n)
	grip, clicks := make([]int, n), make([]int, n)
	for i, r := range search.Runs {
		at[i], hop[i], grip[i], clicks[i] = r.At, r.Hop, r.Grip, r.Clicks
	}
	var added []int
	err := b.list(ctx, &added, `
		insert into search_runs (car, search, number, at, hop, grip, clicks)
		select $1, $2, number, at, hop, nullif(grip, 0), clicks
		from unnest($3::timestamptz[], $4::boolean[], $5::smallint[], $6::smallint[])
			with ordinality as run (at, hop, grip, clicks, number)
		on conflict (club, car, search, number) do nothing
		returning number`,
		search.Car, search.ID, at, hop, grip, clicks)
	if err != nil || len(added) == 0 {
		return err
	}
	return b.learn(ctx, search.Car)
}
