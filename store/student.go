package store

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"github.com/lib/pq"

	"detent/tuning"
)

// ofComplaint picks the advice a that was given for a complaint, coaches'
// suggestions aside.
const ofComplaint = `a.coach is null and a.complaint->>'what' <> ''`

// selectStudents reads as JSON a studentRow for each student of a coach: of all
// students at once, for a club's coach may have dozens. Of the cars of each, the
// one that was changed, felt or complained of last is looked at.
const selectStudents = `
	with tie as materialized (
		select t.id, t.student, t.asked, t.accepted, m.name
		from coachings t join members m on m.person = t.student
		where t.coach = $1 and t.ended is null
	)
	select json_build_object(
		'tie', to_json(tie), 'others', this.running > 1,
		'car', (select to_json(c) from cars c where c.id = this.id),
		'dampers', (select json_agg(d) from (` + selectDampers + `where d.car = this.id) d),
		'feels', (select json_agg(f order by f.id desc) from (` + selectFeels + `where car = this.id order by id desc limit $3) f),
		'last', (select to_json(l) from (
			select ` + changeColumns + ` from changes c where c.car = this.id
				and c.id > coalesce((select max(id) from changes where car = this.id and reason = 'fitted'), 0)
			order by c.id desc limit 1) l),
		'lines', (select json_agg(l) from (` + selectLines + `where car = this.id and change = (
			select id from changes where car = this.id and reason <> 'fitted' order by id desc limit 1)) l),
		'said', (
			select json_build_object('complaint', a.complaint, 'at', a.at, 'helped', exists (
				select from feels f where f.car = a.car and f.better = 'yes' and f.at > a.at))
			from advice a where a.car = this.id and ` + ofComplaint + ` order by a.id desc limit 1),
		'next', (select to_json(e) from (` + selectEvents + `where id = (
			select e.id from cars c join entries n on n.car = c.id join events e on e.id = n.event
			where c.owner = tie.student and tie.accepted is not null and n.left_at is null and not e.cancelled and e.ends > $2
			order by e.starts limit 1)) e))
	from tie left join lateral (
		select c.id, count(*) over () as running
		from cars c
		where tie.accepted is not null and c.owner = tie.student and not c.retired
		order by greatest(
				(select at from changes where car = c.id and reason <> 'fitted' order by id desc limit 1),
				(select at from feels where car = c.id order by id desc limit 1),
				(select a.at from advice a where a.car = c.id and ` + ofComplaint + ` order by a.id desc limit 1)) desc nulls last,
			c.main desc, lower(c.name)
		limit 1) this on true
	order by lower(tie.name), tie.id`

// studentRow is what a coach sees of one student.
type studentRow struct {
	Tie struct {
		ID       int64
		Student  string
		Name     string
		Asked    time.Time
		Accepted *time.Time
	}
	Others  bool
	Car     *carRow
	Dampers []damperRow
	Feels   []feelRow
	Last    *changeRow
	Lines   []lineRow
	Said    struct {
		Complaint complaintJSON
		At        time.Time
		Helped    bool
	}
	Next eventRow
}

// Scan reads the row from JSON.
func (r *studentRow) Scan(from any) error {
	text, ok := from.([]byte)
	if !ok {
		return fmt.Errorf("a student comes as %T", from)
	}
	return json.Unmarshal(text, r)
}

// student is the row as a Student of a coach.
func (r studentRow) student(coach string) (tuning.Student, error) {
	s := tuning.Student{Name: r.Tie.Name, Others: r.Others, Next: r.Next.event(),
		Coaching: tuning.Coaching{ID: r.Tie.ID, Coach: coach, Student: r.Tie.Student, Asked: r.Tie.Asked},
		Said:     r.Said.Complaint.complaint(), SaidAt: r.Said.At, Helped: r.Said.Helped}
	if r.Tie.Accepted != nil {
		s.Accepted = *r.Tie.Accepted
	}
	if r.Car == nil {
		return s, nil
	}
	s.Car = r.Car.car()
	for _, d := range r.Dampers {
		if err := d.fit(&s.Car); err != nil {
			return s, err
		}
	}
	for _, f := range r.Feels {
		s.Feels = append(s.Feels, f.feel())
	}
	if r.Last != nil {
		s.Last = compose([]changeRow{*r.Last}, r.Lines)[0].Change
	}
	return s, nil
}

// Students lists a coach's students by name, with what a coach sees of each;
// those who have not accepted yet by their names alone.
func (b *Book) Students(ctx context.Context, coach string) ([]tuning.Student, error) {
	var rows []studentRow
	if err := b.list(ctx, &rows, selectStudents, coach, b.now, tuning.TrendOver); err != nil {
		return nil, err
	}
	students := make([]tuning.Student, len(rows))
	for i, r := range rows {
		var err error
		if students[i], err = r.student(coach); err != nil {
			return nil, err
		}
	}
	return students, nil
}

// FeltBetween lists the feels of some people in a span of time, oldest first.
func (b *Book) FeltBetween(ctx context.Context, people []string, from, to time.Time) ([]tuning.Feel, error) {
	return b.feels(ctx, `where person = any ($1) and at > $2 and at <= $3 order by at, id`, pq.Array(people), from, to)
}

// oneLook is how long a coach who turns the pages of a list looks at it once.
const oneLook = 10 * time.Minute

// LookedThrough notes that a coach looked at the things of several students at
// once, each of them once however many pages were turned. The reply to the
// request is the coach's to see only while all those coachings hold.
func (b *Book) LookedThrough(ctx context.Context, coach string, students []string, what string) error {
	b.shown = append(b.shown, students...)
	return b.exec(ctx, `
		insert into looks (coach, student, at, what)
		select $1, person, $3, $4 from members
		where person = any ($2) and not exists (
			select from looks l where l.coach = $1 and l.student = person and l.what = $4 and l.at > $5)`,
		coach, pq.Array(students), b.now, what, b.now.Add(-oneLook))
}
