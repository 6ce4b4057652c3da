package store

import (
	"context"
	"time"

	"detent/tuning"
)

// eventRow is a row of events.
type eventRow struct {
	ID          int64
	Name        string
	Starts      time.Time
	Ends        time.Time
	Place       string
	Surface     tuning.Surface
	Weather     tuning.Weather
	Most        int
	Organiser   string
	Cancelled   bool
	GuideAt     *time.Time `json:"guide_at"`
	GuideHash   string     `json:"guide_hash"`
	GoneCars    int        `json:"gone_cars"`
	GoneAnswers int        `json:"gone_answers"`
}

const selectEvents = `
	select id, name, starts, ends, place, surface, weather, most, coalesce(organiser, '') as organiser,
		cancelled, guide_at, guide_hash, gone_cars, gone_answers
	from events `

func (r eventRow) event() tuning.Event {
	e := tuning.Event{ID: r.ID, Name: r.Name, Starts: r.Starts, Ends: r.Ends, Place: r.Place, Surface: r.Surface,
		Weather: r.Weather, Limit: r.Most, By: r.Organiser, Cancelled: r.Cancelled, GuideHash: r.GuideHash,
		GoneCars: r.GoneCars, GoneAnswers: r.GoneAnswers}
	if r.GuideAt != nil {
		e.GuideAt = *r.GuideAt
	}
	return e
}

// events reads the events that the rest of a query picks.
func (b *Book) events(ctx context.Context, rest string, args ...any) ([]tuning.Event, error) {
	var rows []eventRow
	if err := b.list(ctx, &rows, selectEvents+rest, args...); err != nil {
		return nil, err
	}
	events := make([]tuning.Event, len(rows))
	for i, r := range rows {
		events[i] = r.event()
	}
	return events, nil
}

// Events lists the club's events that end after from, soonest first, those
// that were cancelled among them.
func (b *Book) Events(ctx context.Context, from time.Time) ([]tuning.Event, error) {
	return b.events(ctx, `where ends > $1 order by starts, id`, from)
}

// Event finds an event by name, whatever its case: of several of one name the
// one under way or the next, else the last. "" is the one under way or the
// next that is not cancelled.
func (b *Book) Event(ctx context.Context, name string) (tuning.Event, error) {
	if name == "" {
		events, err := b.events(ctx, `where ends > $1 and not cancelled order by starts limit 1`, b.now)
		if err == nil && len(events) == 0 {
			err = tuning.Missing{What: tuning.EventThing}
		}
		return first(events), err
	}
	events, err := b.events(ctx, `
		where lower(name) = lower($2)
		order by ends > $1 desc, cancelled, case when ends > $1 then starts end, starts desc limit 1`, b.now, name)
	if err == nil && len(events) == 0 {
		err = tuning.Missing{What: tuning.EventThing, Name: name}
	}
	return first(events), err
}

// first is the first of a list, the zero value when there is none.
func first[T any](list []T) (one T) {
	if len(list) > 0 {
		one = list[0]
	}
	return one
}

// SaveEvent adds an event, or changes the one with the same ID. One that runs
// at the same time as another, or a name that another event to come has, is a
// Conflict.
func (b *Book) SaveEvent(ctx context.Context, e tuning.Event) (tuning.Event, error) {
	if err := b.apart(ctx, e); err != nil {
		return e, err
	}
	query := `
		insert into events (name, starts, ends, place, surface, weather, most, organiser, cancelled, guide_at, guide_hash)
		values (:name, :starts, :ends, :place, :surface, :weather, :most, nullif(:organiser, ''), :cancelled, :guide_at, :guide_hash)
		returning id`
	if e.ID != 0 {
		query = `
			update events set (name, starts, ends, place, surface, weather, most, cancelled, guide_at, guide_hash) =
				(:name, :starts, :ends, :place, :surface, :weather, :most, :cancelled, :guide_at, :guide_hash)
			where id = :id returning id`
	}
	row := eventRow{ID: e.ID, Name: e.Name, Starts: e.Starts, Ends: e.Ends, Place: e.Place,
		Surface: e.Surface, Weather: e.Weather, Most: e.Limit, Organiser: e.By, Cancelled: e.Cancelled,
		GuideHash: e.GuideHash}
	if !e.GuideAt.IsZero() {
		row.GuideAt = &e.GuideAt
	}
	query, args, err := b.named(query, row)
	if err != nil {
		return e, err
	}
	err = b.get(ctx, &e.ID, query, args...)
	return e, none(err, tuning.Gone{What: tuning.EventThing, Name: e.Name})
}

// apart returns a Conflict when an event to come shares its time or its name
// with another. It takes the club's row, so that of two events saved at once
// the later is tried again and sees the earlier.
func (b *Book) apart(ctx context.Context, e tuning.Event) error {
	if e.Cancelled {
		return nil
	}
	if err := b.exec(ctx, `update clubs set zone = zone`); err != nil {
		return err
	}
	var others []struct {
		Name  string
		Named bool
	}
	err := b.list(ctx, &others, `
		select name, lower(name) = lower($2) as named from events
		where id <> $1 and not cancelled
			and (lower(name) = lower($2) and ends > $5 or starts < $4 and ends > $3)
		order by named desc, starts limit 1`, e.ID, e.Name, e.Starts, e.Ends, b.now)
	switch {
	case err != nil || len(others) == 0:
		return err
	case others[0].Named:
		return tuning.Taken{What: tuning.EventThing, Name: others[0].Name}
	}
	return tuning.Overlaps{Event: others[0].Name}
}

// GuidePosted notes which guide of an event was posted.
func (db *DB) GuidePosted(ctx context.Context, now time.Time, club string, event int64, hash string) error {
	return db.write(ctx, club, now, func(b *Book) error {
		return b.exec(ctx, `update events set guide_hash = $2 where id = $1`, event, hash)
	})
}
