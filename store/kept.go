package store

import (
	"context"
	"time"

	"github.com/jmoiron/sqlx/types"

	"detent/tuning"
)

// damperJSON is a damper as it is kept with a setting.
type damperJSON struct {
	Ways  tuning.Ways          `json:"ways"`
	Count tuning.Count         `json:"count"`
	Moves tuning.Moves         `json:"moves,omitempty"`
	Range map[adjusterWord]int `json:"range"`
}

func dampersToJSON(dampers [tuning.Axles]tuning.Damper) map[axleWord]damperJSON {
	kept := map[axleWord]damperJSON{}
	for axle, d := range dampers {
		ranges := map[adjusterWord]int{}
		for _, a := range d.Adjusters() {
			ranges[adjusterWord(a)] = d.Range[a]
		}
		kept[axleWord(axle)] = damperJSON{d.Ways, d.Count, d.Moves, ranges}
	}
	return kept
}

func dampersOf(kept map[axleWord]damperJSON) (dampers [tuning.Axles]tuning.Damper) {
	for axle, k := range kept {
		d := tuning.Damper{Ways: k.Ways, Count: k.Count, Moves: k.Moves}
		for a, clicks := range k.Range {
			d.Range[a] = clicks
		}
		dampers[axle] = d
	}
	return dampers
}

// lastTurn is the last change of car $1 that turned something or fitted
// dampers.
const lastTurn = `select id from changes where car = $1 and (reason <> 'by hand' or turned) order by id desc limit 1`

// SaveKept keeps where a car's clicks stand under a name, under the book's
// clock. A name that other clicks of the car have is a Conflict.
func (b *Book) SaveKept(ctx context.Context, kept tuning.Kept) (tuning.Kept, error) {
	kept.At = b.now
	stood := settingToJSON(kept.Setting)
	clicks, err := asJSON(&stood)
	if err != nil {
		return kept, err
	}
	on := dampersToJSON(kept.Dampers)
	dampers, err := asJSON(&on)
	if err != nil {
		return kept, err
	}
	err = b.get(ctx, &kept.ID, `
		insert into kept_settings (car, name, at, event, weather, clicks, dampers, change)
		values ($1, $2, $3, nullif($4, 0), nullif($5, ''), $6, $7, (`+lastTurn+`)) returning id`,
		kept.Car, kept.Name, kept.At, kept.Event, kept.Weather, clicks, dampers)
	if err != nil {
		return kept, problem(err)
	}
	return b.keptOne(ctx, `where k.car = $1 and k.id = $2`, kept.Car, kept.ID)
}

// KeptSetting finds what was kept of a car under a name, whatever its case, or
// where that is empty under its number.
func (b *Book) KeptSetting(ctx context.Context, car tuning.Car, name string, id int64) (tuning.Kept, error) {
	kept, err := b.keptOne(ctx, `where k.car = $1 and ($2 = '' and k.id = $3 or lower(k.name) = lower($2))`, car.ID, name, id)
	if tuning.KindOf(err) == tuning.NotFound && name != "" {
		err = tuning.Missing{What: tuning.KeptThing, Name: name}
	}
	return kept, err
}

// KeptSettings lists what was kept of a car, newest first: so many, after the
// first few.
func (b *Book) KeptSettings(ctx context.Context, car tuning.Car, after, most int) ([]tuning.Kept, error) {
	return b.kept(ctx, `where k.car = $1 order by k.id desc offset $2 limit $3`, car.ID, after, most)
}

// ForgetKept forgets clicks that were kept.
func (b *Book) ForgetKept(ctx context.Context, kept tuning.Kept) error {
	var id int64
	err := b.get(ctx, &id, `delete from kept_settings where car = $1 and id = $2 returning id`, kept.Car, kept.ID)
	return none(err, tuning.Gone{What: tuning.KeptThing, Name: kept.Name})
}

// FeltToday is the newest feel with a car's clicks as they stand, nil for none.
func (b *Book) FeltToday(ctx context.Context, car tuning.Car) (*tuning.Feel, error) {
	feels, err := b.feels(ctx, `where car = $1 and `+behind+` = (`+lastTurn+`) order by id desc limit 1`, car.ID)
	if err != nil || len(feels) == 0 {
		return nil, err
	}
	return &feels[0], nil
}

// behind is the change that a row of feels stands behind: where it names none,
// the last fitting before it.
const behind = `
	coalesce(feels.change, (
		select c.id from changes c where c.car = feels.car and c.reason = 'fitted' and c.at <= feels.at order by c.id desc limit 1))`

// selectKept reads what was kept of car $1. A feel belongs to kept clicks when
// it follows the change before they were kept, or a change that loaded them
// onto the same dampers. The car's feels and changes are gone through once,
// however many settings were kept.
const selectKept = `
	with newest as materialized (
		select change, max(id) as id from (select feels.id, ` + behind + ` as change from feels where car = $1) f group by change
	), fitted as materialized (
		select id from changes where car = $1 and reason = 'fitted'
	), loaded as materialized (
		select l.id, (a.given->'remedies'->(l.remedy - 1)->>'of')::bigint as kept
		from changes l join advice a on a.car = l.car and a.id = l.advice
		where l.car = $1 and l.reason = 'loaded'
	)
	select k.id, k.car, k.name, k.at, coalesce(k.event, 0) as event, coalesce(e.place, '') as place,
		coalesce(k.weather, '') as weather, k.clicks, k.dampers, (
			select to_json(f) from (` + selectFeels + `
				where car = k.car and id = (
					select max(n.id) from newest n
					where n.change = k.change or n.change in (
						select l.id from loaded l
						where l.kept = k.id and not exists (select from fitted x where x.id between k.change + 1 and l.id)))) f) as felt
	from kept_settings k left join events e on e.id = k.event `

// kept reads the settings of car $1 that the rest of a query picks.
func (b *Book) kept(ctx context.Context, rest string, args ...any) ([]tuning.Kept, error) {
	var rows []struct {
		ID      int64
		Car     int64
		Name    string
		At      time.Time
		Event   int64
		Place   string
		Weather tuning.Conditions
		Clicks  types.JSONText
		Dampers types.JSONText
		Felt    types.NullJSONText
	}
	if err := b.list(ctx, &rows, selectKept+rest, args...); err != nil {
		return nil, err
	}
	list := make([]tuning.Kept, len(rows))
	for i, r := range rows {
		var clicks settingJSON
		if err := r.Clicks.Unmarshal(&clicks); err != nil {
			return nil, problem(err)
		}
		var dampers map[axleWord]damperJSON
		if err := r.Dampers.Unmarshal(&dampers); err != nil {
			return nil, problem(err)
		}
		list[i] = tuning.Kept{ID: r.ID, Car: r.Car, Name: r.Name, At: r.At, Event: r.Event, Place: r.Place, Weather: r.Weather,
			Setting: clicks.setting(), Dampers: dampersOf(dampers)}
		if r.Felt.Valid {
			var row feelRow
			if err := r.Felt.Unmarshal(&row); err != nil {
				return nil, problem(err)
			}
			feel := row.feel()
			list[i].Felt = &feel
		}
	}
	return list, nil
}

// keptOne reads the one that the rest of a query picks.
func (b *Book) keptOne(ctx context.Context, rest string, args ...any) (tuning.Kept, error) {
	list, err := b.kept(ctx, rest, args...)
	if err == nil && len(list) == 0 {
		err = tuning.Gone{What: tuning.KeptThing}
	}
	return first(list), err
}
