package store

import (
	"context"

	"github.com/jmoiron/sqlx/types"

	"detent/tuning"
)

// Entrants lists the cars entered in an event, in the order they entered.
func (b *Book) Entrants(ctx context.Context, event tuning.Event) ([]tuning.Entrant, error) {
	return b.entrants(ctx, `n.event = $1`, event.ID)
}

// EntriesOf lists a person's own cars in an event, in the order they entered,
// and tells how many are in it of everybody's.
func (b *Book) EntriesOf(ctx context.Context, event tuning.Event, person string) (own []tuning.Entrant, all int, err error) {
	if err := b.get(ctx, &all, `select count(*) from entries where event = $1 and left_at is null`, event.ID); err != nil || all == 0 {
		return nil, 0, err
	}
	own, err = b.entrants(ctx, `n.event = $1 and c.owner = $2`, event.ID, person)
	return own, all, err
}

// entrants reads the entries n of cars c that a condition picks.
func (b *Book) entrants(ctx context.Context, condition string, args ...any) ([]tuning.Entrant, error) {
	var rows []struct {
		Event    int64
		Car      int64
		Person   string
		Name     string
		Reminded bool
		Sheet    bool
		Muted    bool
		NoDirect bool `json:"no_direct"`
		Answered bool
	}
	err := b.list(ctx, &rows, `
		select n.event, n.car, m.person, m.name, n.reminded, n.sheet, not (m.reminders and m.messages) as muted, m.no_direct,
			exists (select from feels f where f.event = n.event and f.car = n.car and f.at >= e.starts) as answered
		from entries n join events e on e.id = n.event join cars c on c.id = n.car join members m on m.person = c.owner
		where n.left_at is null and `+condition+`
		order by n.at, n.car`, args...)
	if err != nil || len(rows) == 0 {
		return nil, err
	}
	ids := make([]int64, len(rows))
	for i, r := range rows {
		ids[i] = r.Car
	}
	cars, err := b.cars(ctx, `where id = any ($1)`, ids)
	if err != nil {
		return nil, err
	}
	carOf := byID(cars)
	entrants := make([]tuning.Entrant, len(rows))
	for i, r := range rows {
		entrants[i] = tuning.Entrant{Event: r.Event, Person: r.Person, Name: r.Name, Car: carOf[r.Car], Reminded: r.Reminded, Sheet: r.Sheet, Answered: r.Answered,
			Muted: r.Muted, NoDirect: r.NoDirect}
	}
	return entrants, nil
}

// The statements that lock an event for an entry. Where places are counted,
// entries come one at a time, because each takes the next version; without a
// limit only changes of the event itself are kept out.
const (
	selectPlaces = `
		select e.cancelled, e.most, count(n.car) as taken, coalesce(bool_or(n.car = $2), false) as in
		from events e left join entries n on n.event = e.id and n.left_at is null
		where e.id = $1
		group by e.id, e.cancelled, e.most`
	takePlace = `update events set version = version + 1 where id = $1`
	keepEvent = `select from events where id = $1 for share`
)

// Enter enters a car. A car that is in already, an event that is cancelled and
// one with no place left are Conflicts.
func (b *Book) Enter(ctx context.Context, event tuning.Event, entrant tuning.Entrant) error {
	var at struct {
		Cancelled bool
		Most      int
		Taken     int
		In        bool
	}
	err := b.get(ctx, &at, selectPlaces, event.ID, entrant.Car.ID)
	switch {
	case err != nil:
		return none(err, tuning.Gone{What: tuning.EventThing, Name: event.Name})
	case at.Cancelled:
		return tuning.Cancelled{Event: event.Name}
	case at.In:
		return tuning.Entered{Car: entrant.Car.Name, Event: event.Name}
	case at.Most > 0 && at.Taken >= at.Most:
		return tuning.Full{Event: event.Name, Places: at.Most}
	}
	lock := keepEvent
	if at.Most > 0 {
		lock = takePlace
	}
	if err := b.exec(ctx, lock, event.ID); err != nil { // it fails when the event is not as it was just read
		return err
	}
	return b.exec(ctx, `
		insert into entries (event, car, at, reminded, sheet) values ($1, $2, $3, $4, $5)
		on conflict (club, event, car) do update set (at, reminded, sheet, left_at) = (excluded.at, excluded.reminded, excluded.sheet, null)`,
		event.ID, entrant.Car.ID, b.now, entrant.Reminded, entrant.Sheet)
}

// Remind keeps whether the messages about an event are wanted for a car: the
// check before it and the question after it.
func (b *Book) Remind(ctx context.Context, event tuning.Event, car tuning.Car, reminded bool) error {
	var id int64
	err := b.get(ctx, &id, `
		update entries set reminded = $3 where event = $1 and car = $2 and left_at is null returning car`,
		event.ID, car.ID, reminded)
	return none(err, tuning.NotEntered{Car: car.Name, Event: event.Name})
}

// WantSheet keeps whether a car's sheet for an event is wanted.
func (b *Book) WantSheet(ctx context.Context, event tuning.Event, car tuning.Car, wanted bool) error {
	var id int64
	err := b.get(ctx, &id, `
		update entries set sheet = $3 where event = $1 and car = $2 and left_at is null returning car`,
		event.ID, car.ID, wanted)
	return none(err, tuning.NotEntered{Car: car.Name, Event: event.Name})
}

// Leave takes a car's entry back.
func (b *Book) Leave(ctx context.Context, event tuning.Event, car tuning.Car) error {
	var id int64
	err := b.get(ctx, &id, `
		update entries set left_at = $3 where event = $1 and car = $2 and left_at is null returning car`,
		event.ID, car.ID, b.now)
	return none(err, tuning.NotEntered{Car: car.Name, Event: event.Name})
}

// Tried lists the complaints that were made at an event, oldest first, and
// what was turned for each.
func (b *Book) Tried(ctx context.Context, event tuning.Event) ([]tuning.Tried, error) {
	var rows []struct {
		ID        int64
		Car       int64
		Complaint types.JSONText
		Felt      tuning.Better
	}
	err := b.list(ctx, &rows, `
		select a.id, a.car, a.complaint,
			coalesce((select f.better from feels f
				where f.car = a.car and f.change = a.change and f.better is not null order by f.id desc limit 1), '') as felt
		from advice a
		where a.event = $1 and a.complaint->>'what' <> ''
		order by a.id`, event.ID)
	if err != nil {
		return nil, err
	}
	tried := make([]tuning.Tried, len(rows))
	at := make(map[int64]*tuning.Tried, len(rows))
	for i, r := range rows {
		tried[i] = tuning.Tried{Car: r.Car, Felt: r.Felt}
		at[r.ID] = &tried[i]
		var kept complaintJSON
		if err := r.Complaint.Unmarshal(&kept); err != nil {
			return nil, problem(err)
		}
		tried[i].Complaint = kept.complaint()
	}
	var lines []struct {
		Advice   int64
		Corner   cornerWord
		Adjuster adjusterWord
		From     int `json:"from_click"`
		To       int `json:"to_click"`
	}
	err = b.list(ctx, &lines, `
		select a.id as advice, l.corner, l.adjuster, l.from_click, l.to_click
		from advice a join clicks l on l.car = a.car and l.change = a.change
		where a.event = $1 and a.complaint->>'what' <> ''
		order by a.id, l.corner, l.adjuster`, event.ID)
	for _, l := range lines {
		at[l.Advice].Moves = append(at[l.Advice].Moves,
			tuning.Move{Corner: tuning.Corner(l.Corner), Adjuster: tuning.Adjuster(l.Adjuster), From: l.From, To: l.To})
	}
	return tried, err
}
