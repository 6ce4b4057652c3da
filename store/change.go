package store

import (
	"cmp"
	"context"
	"encoding/json"
	"slices"
	"time"

	"detent/tuning"
)

// Record appends a change and moves the clicks. It keeps the book's clock as
// its time and, when none is named, whoever asks as its maker. The advice that
// a change came from is noted as applied; one that was applied or declined
// already is a Conflict. So is a move that does not start where the clicks
// stand, and a car that someone else has changed since the request first read
// it, or of a change by hand one of its adjusters: it is
// Overtaken, with what changed meanwhile.
func (b *Book) Record(ctx context.Context, car tuning.Car, change tuning.Change) (tuning.Change, error) {
	if len(change.Moves) == 0 {
		return change, tuning.TurnsNothing
	}
	if by, overtaken := b.overtakenBy(car.ID, change); overtaken {
		return change, b.overtaken(ctx, car, by)
	}
	return b.log(ctx, car, change)
}

// log is Record for moves that hold however the car was changed.
func (b *Book) log(ctx context.Context, car tuning.Car, change tuning.Change) (tuning.Change, error) {
	change.At = b.now
	change.By = cmp.Or(change.By, b.who.Person)
	complaint, err := asJSON(complaintToJSON(change.Complaint))
	if err != nil {
		return change, err
	}
	lines := len(change.Moves)
	corners, adjusters := make([]string, lines), make([]string, lines)
	from, to := make([]int, lines), make([]int, lines)
	for i, m := range change.Moves {
		corners[i], adjusters[i], from[i], to[i] = m.Corner.String(), m.Adjuster.String(), m.From, m.To
	}
	b.taken[car.ID]++
	var done struct {
		Recorded    *int64
		OvertakenBy *int64 `json:"overtaken_by"`
		Spent       bool
	}
	err = b.get(ctx, &done, `select * from record_change($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
		car.ID, change.At, change.By, change.Reason, complaint, change.Advice, change.Remedy, change.Undoes, change.Turned,
		corners, adjusters, from, to)
	switch {
	case err != nil:
		return change, problem(err)
	case done.OvertakenBy != nil:
		return change, b.overtaken(ctx, car, *done.OvertakenBy)
	case done.Spent:
		return change, tuning.AdviceSpent
	}
	change.ID = *done.Recorded
	return change, nil
}

// overtaken is the refusal of a request that comes after another change of the
// same car, 0 for its newest.
func (b *Book) overtaken(ctx context.Context, car tuning.Car, change int64) error {
	entries, err := b.changes(ctx, car.ID, `and ($2 = 0 or c.id = $2) order by c.id desc limit 1`, change)
	if err != nil {
		return err
	}
	cars, err := b.cars(ctx, `where id = $1`, car.ID)
	if err != nil {
		return err
	}
	if len(entries) == 0 || len(cars) == 0 {
		return tuning.NoDampers{Car: car.Name}
	}
	entry := entries[0]
	return tuning.Overtaken{Car: cars[0], Logged: entry, Own: entry.Change.By == b.who.Person, Ago: b.now.Sub(entry.Change.At)}
}

// take shuts a car to others until the transaction ends, and takes its next
// version.
func (b *Book) take(ctx context.Context, car tuning.Car) error {
	b.taken[car.ID]++
	return b.exec(ctx, `update cars set version = version + 1 where id = $1`, car.ID)
}

// asJSON is v for a column of type jsonb, null for a nil pointer.
func asJSON[T any](v *T) (text *string, err error) {
	if v == nil {
		return nil, nil
	}
	encoded, err := json.Marshal(v)
	if err != nil {
		return nil, problem(err)
	}
	s := string(encoded)
	return &s, nil
}

// changeRow is a row of changes, with what later rows say of it.
type changeRow struct {
	ID        int64
	At        time.Time
	Person    string
	Reason    tuning.Reason
	Complaint *complaintJSON
	Advice    int64
	Remedy    int
	Undoes    int64
	Event     int64
	Felt      tuning.Better
	Undone    bool
	Turned    bool
	ByName    string `json:"by_name"`
	EventName string `json:"event_name"`
}

// changeColumns are the columns of a changeRow that the judgement needs.
const changeColumns = `
	c.id, c.at, coalesce(c.person, '') as person, c.reason, c.complaint, coalesce(c.advice, 0) as advice,
		coalesce(c.remedy, 0) as remedy, coalesce(c.undoes, 0) as undoes, coalesce(c.event, 0) as event, c.turned,
		coalesce((select f.better from feels f
			where f.car = c.car and f.change = c.id and f.better is not null order by f.id desc limit 1), '') as felt,
		exists (select from changes u where u.car = c.car and u.undoes = c.id) as undone `

// selectChanges reads changeRows whole.
const selectChanges = `
	select ` + changeColumns + `,
		coalesce((select m.name from members m where m.person = c.person), '') as by_name,
		coalesce((select e.name from events e where e.id = c.event), '') as event_name
	from changes c `

// lineRow is a row of clicks.
type lineRow struct {
	Change   int64
	Corner   cornerWord
	Adjuster adjusterWord
	From     int `json:"from_click"`
	To       int `json:"to_click"`
}

// selectLines reads lineRows.
const selectLines = `
	select change, corner, adjuster, coalesce(from_click, -1) as from_click, to_click
	from clicks `

// compose puts changes and their lines together: FL FR RL RR, adjusters in the
// order shown.
func compose(rows []changeRow, lines []lineRow) []tuning.Logged {
	list := make([]tuning.Logged, len(rows))
	at := make(map[int64]*tuning.Change, len(rows))
	for i, r := range rows {
		list[i] = tuning.Logged{ByName: r.ByName, Event: r.EventName, Change: tuning.Change{
			ID: r.ID, At: r.At, By: r.Person, Reason: r.Reason, Advice: r.Advice, Remedy: r.Remedy,
			Undoes: r.Undoes, Event: r.Event, Felt: r.Felt, Undone: r.Undone, Turned: r.Turned}}
		at[r.ID] = &list[i].Change
		if r.Complaint != nil {
			complaint := r.Complaint.complaint()
			at[r.ID].Complaint = &complaint
		}
	}
	slices.SortFunc(lines, func(a, b lineRow) int {
		return cmp.Or(cmp.Compare(a.Corner, b.Corner), cmp.Compare(a.Adjuster, b.Adjuster))
	})
	for _, l := range lines {
		at[l.Change].Moves = append(at[l.Change].Moves,
			tuning.Move{Corner: tuning.Corner(l.Corner), Adjuster: tuning.Adjuster(l.Adjuster), From: l.From, To: l.To})
	}
	return list
}

// changes reads the changes of a car that the rest of a query picks, with
// their lines, and the names of who made them and of the event they belong to.
func (b *Book) changes(ctx context.Context, car int64, rest string, args ...any) ([]tuning.Logged, error) {
	var rows []changeRow
	if err := b.list(ctx, &rows, selectChanges+`where c.car = $1 `+rest, append([]any{car}, args...)...); err != nil {
		return nil, err
	}
	ids := make([]int64, len(rows))
	for i, r := range rows {
		ids[i] = r.ID
	}
	var lines []lineRow
	if err := b.list(ctx, &lines, selectLines+`where car = $1 and change = any ($2)`, car, ids); err != nil {
		return nil, err
	}
	return compose(rows, lines), nil
}
