package store

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"github.com/lib/pq"

	"detent/tuning"
	"detent/tuning/calendar"
)

// Deliver puts a direct message on the timetable for each of some people. What
// somebody has or is to get already they do not get again.
func (b *Book) Deliver(ctx context.Context, d calendar.Due, to ...string) error {
	return b.exec(ctx, `
		insert into due (kind, person, event, about, due_at, until, next_at)
		select $1, person, nullif($3::bigint, 0), $4, $5, $6, $5 from unnest($2::text[]) person
		on conflict do nothing`, d.Kind, pq.Array(to), d.Event, d.About, d.At, d.Until)
}

// CoachMessages counts the messages from coaches that fall due to a person
// from a moment up to another.
func (b *Book) CoachMessages(ctx context.Context, person string, from, to time.Time) (n int, err error) {
	return n, b.get(ctx, &n, `
		select count(*) from due
		where person = $1 and due_at >= $2 and due_at < $3 and about is not null and kind in ('coach-note', 'suggestion')`, person, from, to)
}

// SaveEventMessage keeps what an organiser tells those who are in an event and
// returns it with its ID. Of two that are told at once the later waits, and is
// tried again knowing of the other.
func (b *Book) SaveEventMessage(ctx context.Context, m tuning.EventMessage) (tuning.EventMessage, error) {
	if err := b.exec(ctx, takePlace, m.Event); err != nil {
		return m, err
	}
	m.At = b.now
	return m, b.get(ctx, &m.ID, `
		insert into event_messages (event, sender, at, text, cancels) values ($1, $2, $3, $4, $5) returning id`, m.Event, m.Sender, m.At, m.Text, m.Cancels)
}

// EventMessages lists what those who are in an event were told from a moment
// on, oldest first.
func (b *Book) EventMessages(ctx context.Context, event tuning.Event, from time.Time) (told []tuning.EventMessage, err error) {
	err = b.list(ctx, &told, selectTold+`where t.event = $1 and t.at >= $2 order by t.at, t.id`, event.ID, from)
	return told, err
}

const selectTold = `
	select t.id, t.event, t.sender, m.name as sendername, t.at, t.text, t.cancels
	from event_messages t join members m on m.person = t.sender `

// Unseen is the newest that coaches put to a student and the student has not
// read, of coachings that hold; zero for nothing. A suggestion that was
// answered is nothing to read any more.
func (b *Book) Unseen(ctx context.Context, student string) (newest tuning.Unseen, err error) {
	err = b.get(ctx, &newest, `
		select m.name as coachname, w.at, w.car
		from (
			select coach, at, '' as car from coach_notes where student = $1 and seen_at is null
			union all
			select a.coach, a.at, c.name from advice a join cars c on c.id = a.car
			where c.owner = $1 and a.coach is not null and a.seen_at is null and a.applied is null and a.declined is null
		) w join members m on m.person = w.coach
		where exists (
			select from coachings t
			where t.coach = w.coach and t.student = $1 and t.accepted is not null and t.ended is null)
		order by w.at desc limit 1`, student)
	return newest, unlessAbsent(err)
}

// NoteSeen notes that a student has read all that coaches put to them.
func (b *Book) NoteSeen(ctx context.Context, student string) error {
	if err := b.exec(ctx, `update coach_notes set seen_at = $2 where student = $1 and seen_at is null`, student, b.now); err != nil {
		return err
	}
	return b.exec(ctx, `
		update advice set seen_at = $2
		where coach is not null and seen_at is null and applied is null and declined is null
			and car in (select id from cars where owner = $1)`, student, b.now)
}

// written reads what somebody wrote that a thing brings to a person. What is
// gone is left zero.
func (b *Book) written(ctx context.Context, d calendar.Due, o *calendar.Occasion) (err error) {
	switch d.Kind {
	case calendar.EventMessage:
		return unlessAbsent(b.get(ctx, &o.Message, selectTold+`where t.id = $1`, d.About))
	case calendar.CoachNote:
		return unlessAbsent(b.get(ctx, &o.Word, `
			select n.coach, m.name as coachname, n.at, n.text as note, n.seen_at is not null as seen,
				c.id is not null as holds, c.told_at is not null as told
			from coach_notes n join members m on m.person = n.coach left join coachings c on `+holds+`c.coach = n.coach and c.student = n.student
			where n.id = $1 and n.student = $2`, d.About, d.Person))
	case calendar.Suggestion:
		err := b.get(ctx, &o.Word, `
			select a.coach, m.name as coachname, a.at, a.seen_at is not null as seen,
				c.id is not null as holds, c.told_at is not null as told
			from advice a join cars k on k.id = a.car join members m on m.person = a.coach
				left join coachings c on `+holds+`c.coach = a.coach and c.student = k.owner
			where a.id = $1 and k.owner = $2`, d.About, d.Person)
		if err != nil {
			return unlessAbsent(err)
		}
		given, err := b.Given(ctx, d.Person, d.About)
		o.Word.Suggested = &given
		return err
	}
	return nil
}

// holds picks the coachings c that hold.
const holds = `c.accepted is not null and c.ended is null and `

// toldHow notes that a message from a coach has told the student how to stop
// such messages.
func toldHow(d calendar.Due) func(context.Context, *Book) error {
	coach := `select coach from coach_notes where id = $3`
	if d.Kind == calendar.Suggestion {
		coach = `select coach from advice where id = $3`
	}
	return func(ctx context.Context, b *Book) error {
		return b.exec(ctx, `
			update coachings set told_at = $1
			where student = $2 and coach = (`+coach+`) and accepted is not null and ended is null and told_at is null`, b.now, d.Person, d.About)
	}
}

// unlessAbsent returns err, or nil where it says that a row is not there.
func unlessAbsent(err error) error {
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	}
	return err
}
