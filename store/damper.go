package store

import (
	"context"
	"fmt"

	"detent/tuning"
)

// damperRow is a row of dampers with its force table.
type damperRow struct {
	Car         int64
	Axle        axleWord
	Ways        tuning.Ways
	Bump        int
	Rebound     int
	LowBump     int `json:"low_bump"`
	HighBump    int `json:"high_bump"`
	LowRebound  int `json:"low_rebound"`
	HighRebound int `json:"high_rebound"`
	Count       tuning.Count
	Moves       tuning.Moves
	CSV         string // empty for none
}

const selectDampers = `
	select d.car, d.axle, d.ways, coalesce(d.bump, 0) as bump, coalesce(d.rebound, 0) as rebound,
		coalesce(d.low_bump, 0) as low_bump, coalesce(d.high_bump, 0) as high_bump,
		coalesce(d.low_rebound, 0) as low_rebound, coalesce(d.high_rebound, 0) as high_rebound,
		d.count, coalesce(d.moves, '') as moves, coalesce(c.csv, '') as csv
	from dampers d left join curves c using (club, car, axle) `

// fit puts the dampers into their car.
func (r damperRow) fit(car *tuning.Car) (err error) {
	car.Dampers[r.Axle] = tuning.Damper{Ways: r.Ways, Count: r.Count, Moves: r.Moves,
		Range: [tuning.Adjusters]int{
			tuning.Bump: r.Bump, tuning.LowBump: r.LowBump, tuning.HighBump: r.HighBump,
			tuning.Rebound: r.Rebound, tuning.LowRebound: r.LowRebound, tuning.HighRebound: r.HighRebound,
		}}
	if r.CSV == "" {
		return nil
	}
	if car.Curves[r.Axle], err = tuning.ParseForceTable(r.CSV); err != nil {
		return problem(fmt.Errorf("the force table kept for car %d: %v", r.Car, err))
	}
	return nil
}

// dampers reads the dampers and force tables of cars into them.
func (b *Book) dampers(ctx context.Context, cars []tuning.Car) error {
	at := make(map[int64]*tuning.Car, len(cars))
	ids := make([]int64, len(cars))
	for i := range cars {
		at[cars[i].ID], ids[i] = &cars[i], cars[i].ID
	}
	var rows []damperRow
	if err := b.list(ctx, &rows, selectDampers+`where d.car = any ($1)`, ids); err != nil {
		return err
	}
	for _, r := range rows {
		if err := r.fit(at[r.Car]); err != nil {
			return err
		}
	}
	return nil
}

// FitDampers keeps the car's dampers of one axle, drops the axle's force table
// and positions, and starts the axle at the given moves, whose From is -1. It
// is logged as a fitting.
func (b *Book) FitDampers(ctx context.Context, car tuning.Car, axle tuning.Axle, start []tuning.Move) error {
	if err := b.take(ctx, car); err != nil {
		return err
	}
	d := car.Dampers[axle]
	n := func(a tuning.Adjuster) *int {
		if !d.Has(a) {
			return nil
		}
		return &d.Range[a]
	}
	err := b.exec(ctx, `
		insert into dampers (car, axle, ways, bump, rebound, low_bump, high_bump, low_rebound, high_rebound, count, moves)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, nullif($11, ''))
		on conflict (club, car, axle) do update set
			(ways, bump, rebound, low_bump, high_bump, low_rebound, high_rebound, count, moves) =
			(excluded.ways, excluded.bump, excluded.rebound, excluded.low_bump, excluded.high_bump,
			excluded.low_rebound, excluded.high_rebound, excluded.count, excluded.moves)`,
		car.ID, axle.String(), d.Ways, n(tuning.Bump), n(tuning.Rebound), n(tuning.LowBump), n(tuning.HighBump),
		n(tuning.LowRebound), n(tuning.HighRebound), d.Count, d.Moves)
	if err != nil {
		return err
	}
	if _, err = b.log(ctx, car, tuning.Change{Reason: tuning.ByFitting, Moves: start}); err != nil {
		return err
	}
	return b.sumTries(ctx, car.ID)
}

// SaveCurve keeps the force table of one axle.
func (b *Book) SaveCurve(ctx context.Context, car tuning.Car, axle tuning.Axle, table *tuning.ForceTable) error {
	return b.exec(ctx, `
		insert into curves (car, axle, csv) values ($1, $2, $3)
		on conflict (club, car, axle) do update set csv = excluded.csv`, car.ID, axle.String(), table.CSV)
}
