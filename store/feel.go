package store

import (
	"context"
	"time"

	"detent/tuning"
	"detent/tuning/unit"
)

// SaveFeel keeps how the car felt, under the book's clock and tied to the
// car's last change since its dampers were fitted, corrections of the record
// aside: before any change it belongs to none. Where it names no event, it
// belongs to the one that the car is at. What it says of the changes before it
// is kept with it.
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
		insert into feels (car, person, at, event, change, grip, entry, mid, exit, hop, better, lap_ms, notes,
			hot_fl, hot_fr, hot_rl, hot_rr, conditions, air, track)
		values ($1, $2, $3, nullif($4, 0), (select case when reason <> 'fitted' then id end from changes where car = $1 and (reason <> 'by hand' or turned) order by id desc limit 1),
			$5, $6, $7, $8, $9, nullif($10, ''), nullif($11, 0), $12,
			nullif($13::double precision, 0), nullif($14::double precision, 0), nullif($15::double precision, 0), nullif($16::double precision, 0), nullif($17, ''), nullif($18::double precision, 0), nullif($19::double precision, 0))
		returning id, coalesce(change, 0) as change`,
		feel.Car, feel.Person, feel.At, feel.Event, feel.Grip, feel.Entry, feel.Mid, feel.Exit, feel.Hop,
		feel.Better, feel.Lap.Milliseconds(), feel.Notes,
		feel.Hot[tuning.FL], feel.Hot[tuning.FR], feel.Hot[tuning.RL], feel.Hot[tuning.RR], feel.Conditions, feel.Air, feel.Track)
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
	wheelColumns
	Conditions tuning.Conditions
	Air, Track unit.Temperature
}

// wheelColumns are a row's pressures; 0 is not said.
type wheelColumns struct{ FL, FR, RL, RR unit.Pressure }

func (w wheelColumns) pressures() tuning.Pressures { return tuning.Pressures{w.FL, w.FR, w.RL, w.RR} }

const selectFeels = `
	select id, car, person, at, coalesce(event, 0) as event, coalesce(change, 0) as change, grip, entry, mid, exit, hop,
		coalesce(better, '') as better, coalesce(lap_ms, 0) as lap_ms, notes,
		coalesce(hot_fl, 0) as fl, coalesce(hot_fr, 0) as fr, coalesce(hot_rl, 0) as rl, coalesce(hot_rr, 0) as rr,
		coalesce(conditions, '') as conditions, coalesce(air, 0) as air, coalesce(track, 0) as track
	from feels `

func (r feelRow) feel() tuning.Feel {
	return tuning.Feel{ID: r.ID, Car: r.Car, Person: r.Person, At: r.At, Event: r.Event, Change: r.Change, Grip: r.Grip,
		Entry: r.Entry, Mid: r.Mid, Exit: r.Exit, Hop: r.Hop, Better: r.Better,
		Lap: time.Duration(r.LapMS) * time.Millisecond, Notes: r.Notes,
		Hot: r.pressures(), Conditions: r.Conditions, Air: r.Air, Track: r.Track}
}

// feels reads the feels that the rest of a query picks.
func (b *Book) feels(ctx context.Context, rest string, args ...any) ([]tuning.Feel, error) {
	var rows []feelRow
	err := b.list(ctx, &rows, selectFeels+rest, args...)
	feels := make([]tuning.Feel, len(rows))
	for i, r := range rows {
		feels[i] = r.feel()
	}
	return feels, err
}
