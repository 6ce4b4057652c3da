package store

import (
	"context"

	"detent/tuning"
)

// pageSize is how many lines a page of the log shows.
const pageSize = 10

// selectLog finds a page of a car's log: of each kind no more lines are looked
// at than all pages up to this one can hold, by the index.
const selectLog = `
	select kind, id,
		coalesce((select name from members m where m.person = line.person), '') as by_name,
		coalesce((select name from events e where e.id = line.event), '') as event_name
	from (
		(select 1 as kind, id, at, person, event from changes where car = $1 order by id desc limit $2::bigint + $3::bigint)
		union all
		(select 2, id, at, person, event from feels where car = $1 order by id desc limit $2::bigint + $3::bigint)
		union all
		(select 3, id, at, person, event from car_notes where car = $1 order by id desc limit $2::bigint + $3::bigint)
	) line
	order by at desc, kind desc, id desc
	offset $2::bigint limit $3::bigint`

// The kinds of line, in the order of those written at one moment.
const (
	changeLine = 1 + iota
	feelLine
	noteLine
)

// logLine is where a line of the log is to be found.
type logLine struct {
	Kind      int
	ID        int64
	ByName    string `json:"by_name"`
	EventName string `json:"event_name"`
}

// Log returns one page of a car's log, its changes, feels and notes newest
// first, pages counted from 1, and whether there are more.
func (b *Book) Log(ctx context.Context, car tuning.Car, page int) (entries []tuning.Logged, more bool, err error) {
	var lines []logLine
	err = b.list(ctx, &lines, selectLog, car.ID, (max(page, 1)-1)*pageSize, pageSize+1)
	if err != nil || len(lines) == 0 {
		return nil, false, err
	}
	if more = len(lines) > pageSize; more {
		lines = lines[:pageSize]
	}
	ids := map[int][]int64{changeLine: {}, feelLine: {}, noteLine: {}}
	for _, l := range lines {
		ids[l.Kind] = append(ids[l.Kind], l.ID)
	}
	changes, err := b.changes(ctx, car.ID, `and c.id = any ($2)`, ids[changeLine])
	if err != nil {
		return nil, false, err
	}
	feels, err := b.feels(ctx, `where car = $1 and id = any ($2)`, car.ID, ids[feelLine])
	if err != nil {
		return nil, false, err
	}
	notes, err := b.carNotes(ctx, `where car = $1 and id = any ($2)`, car.ID, ids[noteLine])
	if err != nil {
		return nil, false, err
	}
	return inOrder(lines, changes, feels, notes), more, nil
}

// inOrder puts the parts of a page where its lines say.
func inOrder(lines []logLine, changes []tuning.Logged, feels []tuning.Feel, notes []tuning.CarNote) []tuning.Logged {
	type place struct {
		kind int
		id   int64
	}
	found := map[place]tuning.Logged{}
	for _, c := range changes {
		found[place{changeLine, c.Change.ID}] = c
	}
	for i := range feels {
		found[place{feelLine, feels[i].ID}] = tuning.Logged{Feel: &feels[i]}
	}
	for i := range notes {
		found[place{noteLine, notes[i].ID}] = tuning.Logged{Note: &notes[i]}
	}
	entries := make([]tuning.Logged, len(lines))
	for i, l := range lines {
		entries[i] = found[place{l.Kind, l.ID}]
		entries[i].ByName, entries[i].Event = l.ByName, l.EventName
	}
	return entries
}
