package store

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/jmoiron/sqlx/types"

	"detent/tuning"
	"detent/tuning/learn"
)

// caseColumns reads as JSON the cars that a name of an owner's may mean, and of
// the first the rest of a caseRow. The changes are the newest since the dampers
// were fitted. OFFSET 0 is an optimisation fence: one index look-up per change,
// however long the log is.
const caseColumns = `
	with named as materialized (
		select * from cars
		where owner = $1 and case when $2 = '' then not retired else lower(name) = lower($2) end
		order by main desc, lower(name) limit 2
	), this as materialized (
		select id, drive from named limit 1
	), newest as materialized (
		select ` + changeColumns + `
		from changes c
		where c.car = (select id from this)
			and c.id > coalesce((select max(id) from changes where car = (select id from this) and reason = 'fitted'), 0)
		order by c.id desc limit 50
	)
	select json_build_object(
		'cars', (select json_agg(n order by n.main desc, lower(n.name)) from named n),
		'dampers', (select json_agg(d) from (` + selectDampers + `where d.car = (select id from this)) d),
		'stands', (select json_agg(s) from (` + selectStanding + `where p.car = (select id from this)) s),
		'changes', (select json_agg(n order by n.id desc) from newest n),
		'lines', (
			select string_agg(concat_ws(' ', n.id, l.corner, l.adjuster, l.from_click, l.to_click), E'\n') from newest n
			cross join lateral (` + selectLines + `where car = (select id from this) and change = n.id offset 0) l),
		'feel', (select to_json(f) from (` + selectFeels + `where car = (select id from this) order by id desc limit 1) f),
		'answer', (
			select to_json(a) from (
				select at, coalesce(event, 0) as event from advice
				where car = (select id from this) and complaint->>'what' <> '' order by id desc limit 1) a),
		'advice', (
			select to_json(a) from (
				(select at, coalesce(event, 0) as event from advice where car = (select id from this) and coach is null order by id desc limit 1)
				union all
				(select started, coalesce(event, 0) from searches where car = (select id from this) order by id desc limit 1)
				order by at desc limit 1) a),
		'event', (select to_json(e) from (` + selectEvents + `where id = event_of((select id from this), $3, interval '12 hours')) e)`

const (
	selectCase = caseColumns + `)`

	// selectLearnedCase adds what is known of complaint $6 in the part $7 of the
	// corner.
	selectLearnedCase = caseColumns + `,
		'learned', (select json_agg(l) from (` + selectSums + `
			s.what = $6 and s.place in ('', $7) and s.drive in ('', (select drive from this))` + sumsOfThose + `) l))`
)

// caseRow is a car with what is remembered of it.
type caseRow struct {
	Cars    []carRow
	Dampers []damperRow
	Stands  []standing
	Changes []changeRow
	Lines   lineTexts
	Feel    *feelRow
	Answer  tuning.Occasion
	Advice  tuning.Occasion
	Event   eventRow
	Learned []sumRow
}

// lineTexts are lineRows as lines of text, "7 FL rebound 10 12". A case has
// many of them, and as JSON they would cost more than all the rest.
type lineTexts []lineRow

// UnmarshalText reads the lines.
func (l *lineTexts) UnmarshalText(text []byte) error {
	for line := range strings.Lines(string(text)) {
		var row lineRow
		words := strings.Fields(line)
		if len(words) != 5 {
			return fmt.Errorf("%q is no line of a change", line)
		}
		var errs [5]error
		row.Change, errs[0] = strconv.ParseInt(words[0], 10, 64)
		errs[1], errs[2] = row.Corner.Scan(words[1]), row.Adjuster.Scan(words[2])
		row.From, errs[3] = strconv.Atoi(words[3])
		row.To, errs[4] = strconv.Atoi(words[4])
		if err := errors.Join(errs[:]...); err != nil {
			return err
		}
		*l = append(*l, row)
	}
	return nil
}

// Case reads a car with its setting and history; the name as for Car.
func (b *Book) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	row, err := b.readCase(ctx, selectCase, owner, name, b.now)
	if err != nil {
		return tuning.Case{}, err
	}
	return b.caseOf(row, name)
}

// LearnedCase is Case with what the club knows of the remedies for a complaint,
// the car's own tries apart from those of the others.
func (b *Book) LearnedCase(ctx context.Context, owner, name string, complaint tuning.Complaint) (tuning.Case, learn.Evidence, error) {
	row, err := b.readCase(ctx, selectLearnedCase, owner, name, b.now, learn.HalfLife.Seconds(), learn.CarVariance, complaint.What, complaint.Where.Phase())
	if err != nil {
		return tuning.Case{}, learn.Evidence{}, err
	}
	c, err := b.caseOf(row, name)
	return c, evidenceOf(row.Learned), err
}

func (b *Book) readCase(ctx context.Context, query string, args ...any) (row caseRow, err error) {
	var text types.JSONText
	if err := b.get(ctx, &text, query, args...); err != nil {
		return row, problem(err)
	}
	return row, text.Unmarshal(&row)
}

// caseOf is the case of the car that a name means.
func (b *Book) caseOf(row caseRow, name string) (tuning.Case, error) {
	car, err := meant(b.sawCars(row.Cars), name)
	if err != nil {
		return tuning.Case{}, err
	}
	for _, d := range row.Dampers {
		if err := d.fit(&car); err != nil {
			return tuning.Case{}, err
		}
	}
	b.sawStanding(car.ID, row.Stands)
	c := tuning.Case{Car: car, Event: row.Event.event()}
	c.Setting, c.History.Unrecorded = stand(row.Stands)
	for _, l := range compose(row.Changes, row.Lines) {
		c.History.Changes = append(c.History.Changes, l.Change)
	}
	if row.Feel != nil {
		feel := row.Feel.feel()
		c.History.LastFeel = &feel
	}
	c.History.LastAnswer, c.History.LastAdvice = row.Answer, row.Advice
	return c, nil
}

// standing is where an adjuster stands, and whether only its fitting says so.
type standing struct {
	Corner   cornerWord
	Adjuster adjusterWord
	Clicks   int
	Change   int64 // that put it there
	Fitted   bool
}

const selectStanding = `
	select p.corner, p.adjuster, p.clicks, p.change,
		(select c.reason = 'fitted' from changes c where c.car = p.car and c.id = p.change) as fitted
	from positions p `

// stand is where a car's clicks stand, and whether nobody has said so since
// its dampers were fitted.
func stand(rows []standing) (s tuning.Setting, unrecorded bool) {
	unrecorded = true
	for _, r := range rows {
		s[r.Corner][r.Adjuster] = r.Clicks
		unrecorded = unrecorded && r.Fitted
	}
	return s, unrecorded
}
