package store

import (
	"cmp"
	"context"
	"slices"
	"time"

	"github.com/jmoiron/sqlx/types"

	"detent/tuning"
	"detent/tuning/learn"
)

// reach is how much of a record is read.
type reach int

const (
	wholeRecord   reach = 0
	sinceLastFeel reach = 2 // from the last feel but one on: what the last feel may judge
)

// runKey names a run of a grip search. The record gives the feel of a run a
// number below zero.
type runKey struct {
	Search int64
	Number int
}

// record reads what was done and felt on a car as it can be learned from. Runs
// are those of grip searches, by the number of their feel.
func (b *Book) record(ctx context.Context, car int64, far reach) (r learn.Record, runs map[int64]runKey, err error) {
	cars, err := b.cars(ctx, `where id = $1`, car)
	if err != nil || len(cars) == 0 {
		return r, nil, err
	}
	club, err := b.Club(ctx)
	if err != nil {
		return r, nil, err
	}
	feels, err := b.felt(ctx, car, far)
	if err != nil {
		return r, nil, err
	}
	from, since := int64(0), time.Time{}
	if far != wholeRecord && len(feels) == int(far) {
		from, since = feels[0].After, feels[0].At
	}
	changes, err := b.done(ctx, car, from)
	if err != nil {
		return r, nil, err
	}
	lines := timeline{changes: changes, before: from}
	asked, err := b.asked(ctx, car, since)
	if err != nil {
		return r, nil, err
	}
	for _, a := range asked {
		lines.at(a.At, inAsked, learn.Asked{Complaint: a.complaint})
	}
	var refits []time.Time
	if err := b.list(ctx, &refits, `select distinct at from refits where car = $1 and at >= $2`, car, since); err != nil {
		return r, nil, err
	}
	for _, at := range refits {
		lines.at(at, inRefitted, learn.Refitted{At: at})
	}
	runs = map[int64]runKey{}
	for i, f := range feels {
		if f.Search != 0 {
			f.ID = -int64(i + 1)
			runs[f.ID] = runKey{f.Search, f.Run}
		}
		lines.after(f.After, f.At, inFelt, learn.Felt{Feel: f.feel(), Weather: weatherOf(f, asked)})
	}
	return learn.Record{Car: cars[0], Sizes: club.Sizes, Entries: lines.entries()}, runs, nil
}

// timeline puts what was done and felt in order. Changes follow each other by
// their numbers, and all else stands behind the last change before it.
type timeline struct {
	changes []learn.Changed // oldest first
	before  int64           // the change before the first
	rest    []moment
}

// moment is an entry and where it stands.
type moment struct {
	after int64 // the last change before it
	at    time.Time
	kind  int // orders what was kept at one moment
	entry learn.Entry
}

// The order of what was kept at one moment, behind a change.
const (
	inChanged = iota
	inAsked
	inRefitted
	inFelt
)

// at puts an entry behind the last change made before a moment.
func (l *timeline) at(moment time.Time, kind int, e learn.Entry) {
	after := l.before
	for _, c := range slices.Backward(l.changes) {
		if c.At.Before(moment) {
			after = c.ID
			break
		}
	}
	l.after(after, moment, kind, e)
}

func (l *timeline) after(change int64, at time.Time, kind int, e learn.Entry) {
	l.rest = append(l.rest, moment{change, at, kind, e})
}

// entries are all of the timeline, oldest first.
func (l *timeline) entries() []learn.Entry {
	all := l.rest
	for _, c := range l.changes {
		all = append(all, moment{c.ID, time.Time{}, inChanged, c})
	}
	slices.SortStableFunc(all, func(a, b moment) int {
		return cmp.Or(cmp.Compare(a.after, b.after), a.at.Compare(b.at), cmp.Compare(a.kind, b.kind))
	})
	entries := make([]learn.Entry, len(all))
	for i, m := range all {
		entries[i] = m.entry
	}
	return entries
}

// feltRow is a feel, or a run of a grip search.
type feltRow struct {
	feelRow
	Search  int64
	Run     int
	After   int64          // the last change before it, 0 for none
	Weather tuning.Weather // of its event or search, "" for not said
}

// selectFelt reads the newest $2 feels and as many runs of a car, which is $1.
// A feel that names no change stands behind the fitting before it, a run behind
// the change before it: the step that follows is kept at the same moment.
const selectFelt = `
	(select f.id, f.car, f.person, f.at, coalesce(f.event, 0) as event, coalesce(f.change, 0) as change, f.grip, f.entry, f.mid, f.exit, f.hop,
		coalesce(f.better, '') as better, 0 as lap_ms, '' as notes, 0::bigint as search, 0::smallint as run,
		coalesce(f.change, (
			select c.id from changes c where c.car = f.car and c.reason = 'fitted' and c.at <= f.at order by c.id desc limit 1), 0) as after,
		coalesce(nullif(e.weather, 'either'), '') as weather
	from feels f left join events e on e.id = f.event
	where f.car = $1 order by f.id desc limit nullif($2, 0))
	union all
	(select 0, r.car, '', r.at, 0, 0, coalesce(r.grip, 0), null, null, null, r.hop, '', 0, '', r.search, r.number,
		coalesce((select c.id from changes c where c.car = r.car and c.at < r.at order by c.id desc limit 1), 0), s.weather
	from search_runs r join searches s on s.car = r.car and s.id = r.search
	where r.car = $1 order by r.at desc, r.search desc, r.number desc limit nullif($2, 0))`

// felt lists how a car felt, oldest first, the newest few alone where the
// record is not read whole.
func (b *Book) felt(ctx context.Context, car int64, far reach) ([]feltRow, error) {
	var rows []feltRow
	err := b.list(ctx, &rows, selectFelt, car, int(far))
	slices.SortStableFunc(rows, func(x, y feltRow) int {
		return cmp.Or(cmp.Compare(x.After, y.After), x.At.Compare(y.At), cmp.Compare(x.Search, y.Search), cmp.Compare(x.Run, y.Run), cmp.Compare(x.ID, y.ID))
	})
	if far != wholeRecord {
		rows = rows[max(0, len(rows)-int(far)):]
	}
	return rows, err
}

// done lists the changes of a car after one of them, oldest first, all of them
// after 0. It begins at the last fitting of dampers where that came later: with
// other dampers the record begins anew.
func (b *Book) done(ctx context.Context, car, after int64) ([]learn.Changed, error) {
	var rows []struct {
		changeRow
		Kind   tuning.RemedyKind
		Turned bool
	}
	const picked = `
		where c.car = $1 and c.id > $2
			and ($2 = 0 or c.id >= coalesce((select max(id) from changes where car = $1 and reason = 'fitted'), 0))`
	err := b.list(ctx, &rows, `
		select c.id, c.at, c.reason, c.complaint, coalesce(c.advice, 0) as advice, coalesce(c.remedy, 0) as remedy, coalesce(c.undoes, 0) as undoes,
			coalesce(a.given->'remedies'->(c.remedy - 1)->>'kind', '') as kind,
			c.turned
		from changes c left join advice a on a.car = c.car and a.id = c.advice`+picked+`
		order by c.id`, car, after)
	if err != nil {
		return nil, err
	}
	plain := make([]changeRow, len(rows))
	for i, r := range rows {
		plain[i] = r.changeRow
	}
	var lines []lineRow
	err = b.list(ctx, &lines, `
		select l.change, l.corner, l.adjuster, coalesce(l.from_click, -1) as from_click, l.to_click
		from changes c join clicks l on l.car = c.car and l.change = c.id`+picked, car, after)
	if err != nil {
		return nil, err
	}
	logged := compose(plain, lines)
	changes := make([]learn.Changed, len(logged))
	for i, l := range logged {
		// What an advice called for was turned, whatever its reason.
		changes[i] = learn.Changed{Change: l.Change, Kind: rows[i].Kind, Turned: rows[i].Turned || rows[i].Advice != 0}
	}
	return changes, err
}

// askedRow is a complaint that was answered.
type askedRow struct {
	At        time.Time
	Complaint types.JSONText
	complaint tuning.Complaint
}

// asked lists the complaints that were answered on a car since a moment, and
// the last one before it, oldest first.
func (b *Book) asked(ctx context.Context, car int64, since time.Time) ([]askedRow, error) {
	var rows []askedRow
	err := b.list(ctx, &rows, `
		select at, complaint from advice
		where car = $1 and complaint->>'what' <> '' and id >= coalesce((
			select id from advice where car = $1 and complaint->>'what' <> '' and at < $2 order by id desc limit 1), 0)
		order by id`, car, since)
	if err != nil {
		return nil, err
	}
	for i, r := range rows {
		var kept complaintJSON
		if err := r.Complaint.Unmarshal(&kept); err != nil {
			return nil, problem(err)
		}
		rows[i].complaint = kept.complaint()
	}
	return rows, nil
}

// sameDay is how long after a complaint its weather is taken for that of a run.
const sameDay = 12 * time.Hour

// weatherOf is the weather of a run: what the last complaint before it said on
// that day, else that of its event or search. A complaint that says nothing of
// the weather is kept as dry, so a dry one counts as said only at an event
// whose weather is known.
func weatherOf(f feltRow, asked []askedRow) tuning.Weather {
	for _, a := range slices.Backward(asked) {
		if a.At.After(f.At) {
			continue
		}
		told := a.complaint.Weather == tuning.Wet || f.Weather != "" && a.complaint.Weather != ""
		if told && f.Search == 0 && f.At.Sub(a.At) < sameDay {
			return a.complaint.Weather
		}
		break
	}
	return f.Weather
}
