package store

import (
	"context"
	"database/sql"
	"strconv"
	"time"

	"github.com/jmoiron/sqlx/types"
	"github.com/lib/pq"

	"detent/tuning"
)

// Coachings lists the ties of a person, on either side, that have not ended,
// oldest first.
func (b *Book) Coachings(ctx context.Context, person string) ([]tuning.Coaching, error) {
	var rows []struct {
		ID             int64
		Coach, Student string
		Asked          time.Time
		Accepted       sql.NullTime
	}
	err := b.list(ctx, &rows, `
		select id, coach, student, asked, accepted from coachings
		where ended is null and (coach = $1 or student = $1) order by id`, person)
	ties := make([]tuning.Coaching, len(rows))
	for i, r := range rows {
		ties[i] = tuning.Coaching{ID: r.ID, Coach: r.Coach, Student: r.Student, Asked: r.Asked, Accepted: r.Accepted.Time}
	}
	return ties, err
}

// SaveCoaching adds a tie, or notes that one was accepted or ended. Whoever
// accepts is told how to stop the messages that come of it.
func (b *Book) SaveCoaching(ctx context.Context, c tuning.Coaching) (tuning.Coaching, error) {
	if c.ID == 0 {
		err := b.get(ctx, &c.ID, `insert into coachings (coach, student, asked) values ($1, $2, $3) returning id`, c.Coach, c.Student, b.now)
		return c, problem(err)
	}
	return c, b.exec(ctx, `
		update coachings set accepted = $2, ended = $3, told_at = case when accepted is null then $2::timestamptz else told_at end
		where id = $1`, c.ID, orNull(c.Accepted), orNull(c.Ended))
}

// SaveNote keeps what a coach wrote to a student and returns it with its ID.
func (b *Book) SaveNote(ctx context.Context, n tuning.CoachNote) (tuning.CoachNote, error) {
	n.At = b.now
	return n, b.get(ctx, &n.ID, `
		insert into coach_notes (coach, student, at, text) values ($1, $2, $3, $4) returning id`, n.Coach, n.Student, n.At, n.Text)
}

// Notes lists the newest notes written to a student, newest first.
func (b *Book) Notes(ctx context.Context, student string, most int) (notes []tuning.CoachNote, err error) {
	err = b.list(ctx, &notes, `
		select n.id, n.coach, m.name as coachname, n.student, n.at, n.text
		from coach_notes n join members m on m.person = n.coach
		where n.student = $1 order by n.id desc limit $2`, student, most)
	return notes, err
}

// Looked notes that a coach looked at a student's things. The reply to the
// request is theirs to see only while the coaching holds.
func (b *Book) Looked(ctx context.Context, coach, student, what string) error {
	b.shown = append(b.shown, student)
	return b.exec(ctx, `insert into looks (coach, student, at, what) values ($1, $2, $3, $4)`, coach, student, b.now, what)
}

// Looked notes, outside of any ask, that a coach looked at the things of
// students. It skips a student who has left for good.
func (db *DB) Looked(ctx context.Context, now time.Time, club, coach string, students []string, what string) error {
	return db.write(ctx, club, now, func(b *Book) error {
		return b.exec(ctx, `
			insert into looks (coach, student, at, what)
			select $1, person, $3, $4 from members where person = any ($2)`, coach, pq.Array(students), now, what)
	})
}

// Looks lists the newest times that a coach looked at a student's things,
// newest first. One who has left for good has no key and no name.
func (b *Book) Looks(ctx context.Context, student string, most int) (looks []tuning.Look, err error) {
	err = b.list(ctx, &looks, `
		select coalesce(l.coach, '') as coach, coalesce(m.name, '') as coachname, l.at, l.what
		from looks l left join members m on m.person = l.coach
		where l.student = $1 order by l.id desc limit $2`, student, most)
	return looks, err
}

// Suggest puts an advice to the owner of its car as a coach's suggestion.
func (b *Book) Suggest(ctx context.Context, coach string, advice tuning.Advice, at tuning.Setting) (tuning.Advice, error) {
	return b.saveAdvice(ctx, advice, at, coach)
}

// Suggestions lists what coaches suggested to a student that is neither
// applied nor declined, newest first.
func (b *Book) Suggestions(ctx context.Context, student string) ([]tuning.Suggestion, error) {
	var rows []struct {
		ID        int64
		Car       int64
		Coach     string
		CoachName string
		At        time.Time
		Given     types.JSONText
	}
	err := b.list(ctx, &rows, `
		select a.id, a.car, a.coach, m.name as coachname, a.at, a.given
		from advice a join cars c on c.id = a.car join members m on m.person = a.coach
		where c.owner = $1 and a.applied is null and a.declined is null
		order by a.id desc limit 10`, student)
	if err != nil || len(rows) == 0 {
		return nil, err
	}
	cars, err := b.Cars(ctx, student)
	if err != nil {
		return nil, err
	}
	carOf := byID(cars)
	suggestions := make([]tuning.Suggestion, len(rows))
	for i, r := range rows {
		var said given
		if err := r.Given.Unmarshal(&said); err != nil {
			return nil, problem(err)
		}
		suggestions[i] = tuning.Suggestion{Coach: r.Coach, CoachName: r.CoachName, Car: carOf[r.Car], At: r.At,
			Advice: tuning.Advice{ID: r.ID, Car: r.Car, Remedies: remediesOf(said.Remedies)}}
	}
	return suggestions, nil
}

// Decline notes that the student declined a suggestion. One that was applied
// or declined before is Missing.
func (b *Book) Decline(ctx context.Context, owner string, advice int64) error {
	var id int64
	err := b.get(ctx, &id, `
		update advice set declined = $3
		where id = $2 and coach is not null and applied is null and declined is null
			and car in (select id from cars where owner = $1)
		returning id`, owner, advice, b.now)
	return none(err, tuning.Missing{What: tuning.SuggestionThing, Name: strconv.FormatInt(advice, 10)})
}

// Feels lists the newest feels of a car, newest first.
func (b *Book) Feels(ctx context.Context, car tuning.Car, most int) ([]tuning.Feel, error) {
	return b.feels(ctx, `where car = $1 order by id desc limit $2`, car.ID, most)
}
