package store

import (
	"context"
	"time"

	"detent/tuning"
)

// SaveFeel keeps how the car felt, under the book's clock and tied to the
// car's last change since its dampers were fitted: before any change it belongs
// to none. Where it names no event, it belongs to the one that the car is at. What
// it says of the changes before it is kept with it.
func (b *Book) SaveFeel(ctx context.Context, feel tuning.Feel) (tuning.Feel, error) {
	feel.At = b.now
	if feel.Person == "" {
		feel.Person = b.who.Person
	}
	var row struct {
		ID     int64
		Change int64
	}
	err := b.get(ctx, &row, `
		insert into feels (car, person, at, event, change, grip, entry, mid, exit, hop, better, lap_ms, notes)
		values ($1, $2, $3, nullif($4, 0), (select case when reason <> 'fitted' then id end from changes where car = $1 order by id desc limit 1),
			$5, $6, $7, $8, $9, nullif($10, ''), nullif($11, 0), $12)
		returning id, coalesce(change, 0) as change`,
		feel.Car, feel.Person, feel.At, feel.Event, feel.Grip, feel.Entry, feel.Mid, feel.Exit, feel.Hop,
		feel.Better, feel.Lap.Milliseconds(), feel.Notes)
	feel.ID, feel.Change = row.ID, row.Change
	if err != nil {
		return feel, problem(err)
	}
	return feel, b.learn(ctx, feel.Car)
}

// feelRow is a row of feels.
type feelRow struct {
	ID     int64
	Car    int64
	Person string
	At     time.Time
	Event  int64
	Change int64
	Grip   int
	Entry  *int
	Mid    *int
	Exit   *int
	Hop    *bool
	Better tuning.Better
	LapMS  int64 `json:"lap_ms"`
	Notes  string
}

const selectFeels = `
	select id, car, person, at, coalesce(event, 0) as event, coalesce(change, 0) as change, grip, entry, mid, exit, hop,
		coalesce(better, '') as better, coalesce(lap_ms, 0) as lap_ms, notes
	from feels `

func (r feelRow) feel() tuning.Feel {
	return tuning.Feel{ID: r.ID, Car: r.Car, Person: r.Person, At: r.At, Event: r.Event, Change: r.Change, Grip: r.Grip,
		Entry: r.Entry, Mid: r.Mid, Exit: r.Exit, Hop: r.Hop, Better: r.Better,
		Lap: time.Duration(r.LapMS) * time.Millisecond, Notes: r.Notes}
}

// feels reads the newest feels of a car, newest first.
func (b *Book) feels(ctx context.Context, car int64, most int) ([]tuning.Feel, error) {
	var rows []feelRow
	err := b.list(ctx, &rows, selectFeels+`where car = $1 order by id desc limit $2`, car, most)
	feels := make([]tuning.Feel, len(rows))
	for i, r := range rows {
		feels[i] = r.feel()
	}
	return feels, err
}
