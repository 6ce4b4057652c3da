package store

import (
	"context"
	"time"

	"detent/tuning"
)

// SaveCarNote keeps a note about a car, under the book's clock. Where it names
// no event, it belongs to the one that the car is at.
func (b *Book) SaveCarNote(ctx context.Context, note tuning.CarNote) (tuning.CarNote, error) {
	note.At = b.now
	if note.Person == "" {
		note.Person = b.who.Person
	}
	p := note.Pressures
	err := b.get(ctx, &note.ID, `
		insert into car_notes (car, person, at, event, what, text, heat, fl, fr, rl, rr)
		values ($1, $2, $3, nullif($4, 0), $5, $6, nullif($7, ''),
			nullif($8::double precision, 0), nullif($9::double precision, 0), nullif($10::double precision, 0), nullif($11::double precision, 0))
		returning id`,
		note.Car, note.Person, note.At, note.Event, note.What, note.Text, note.Heat, p[tuning.FL], p[tuning.FR], p[tuning.RL], p[tuning.RR])
	if err != nil || !note.What.Refits() {
		return note, problem(err)
	}
	return note, b.Refit(ctx, note.Car, string(note.What))
}

// CarNotes lists the newest notes about a car, newest first.
func (b *Book) CarNotes(ctx context.Context, car tuning.Car, most int) ([]tuning.CarNote, error) {
	return b.carNotes(ctx, `where car = $1 order by id desc limit $2`, car.ID, most)
}

const selectCarNotes = `
	select id, car, person, at, coalesce(event, 0) as event, what, text, coalesce(heat, '') as heat,
		coalesce(fl, 0) as fl, coalesce(fr, 0) as fr, coalesce(rl, 0) as rl, coalesce(rr, 0) as rr
	from car_notes `

// carNoteRow is a row of car_notes.
type carNoteRow struct {
	ID     int64
	Car    int64
	Person string
	At     time.Time
	Event  int64
	What   tuning.Subject
	Text   string
	Heat   tuning.Heat
	wheelColumns
}

func (r carNoteRow) note() tuning.CarNote {
	return tuning.CarNote{ID: r.ID, Car: r.Car, Person: r.Person, At: r.At, Event: r.Event,
		What: r.What, Text: r.Text, Heat: r.Heat, Pressures: r.pressures()}
}

// carNotes reads the notes that the rest of a query picks.
func (b *Book) carNotes(ctx context.Context, rest string, args ...any) ([]tuning.CarNote, error) {
	var rows []carNoteRow
	err := b.list(ctx, &rows, selectCarNotes+rest, args...)
	notes := make([]tuning.CarNote, len(rows))
	for i, r := range rows {
		notes[i] = r.note()
	}
	return notes, err
}
