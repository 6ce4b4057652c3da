package store

import (
	"context"
	"time"

	"detent/tuning"
)

// selectClubSeason reads as JSON a clubSeasonRow from $1 to $2; $3 is now.
const selectClubSeason = `
	with held as materialized (` + selectEvents + `where starts >= $1 and starts < $2 and not cancelled)
	select json_build_object(
		'events', (select json_agg(e order by e.starts, e.id) from held e),
		'turnouts', (
			select json_agg(t) from (
				select e.id as event, (select count(*) from entries n where n.event = e.id and n.left_at is null) as entered, f.*
				from held e cross join lateral (
					select count(*) as times, count(distinct f.car) as cars, count(distinct c.owner) as people
					from feels f join cars c on c.id = f.car where f.event = e.id and f.at >= e.starts) f) t),
		'entered', (
			select to_json(s) from (
				select count(*) as times, count(distinct n.car) as cars, count(distinct c.owner) as people
				from held e join entries n on n.event = e.id and n.left_at is null join cars c on c.id = n.car where e.starts <= $3) s),
		'asked', (
			select to_json(s) from (
				select count(*) as times, count(distinct a.car) as cars, count(distinct c.owner) as people
				from advice a join cars c on c.id = a.car
				where a.at >= $1 and a.at < $2 and a.complaint->>'what' <> '' and a.coach is null) s),
		'applied', (
			select to_json(s) from (
				select count(*) as times, count(distinct d.car) as cars, count(distinct c.owner) as people
				from changes d join cars c on c.id = d.car where d.at >= $1 and d.at < $2 and d.reason = 'remedy') s),
		'felt', (
			select to_json(s) from (
				select count(*) as times, count(distinct f.car) as cars, count(distinct c.owner) as people
				from feels f join cars c on c.id = f.car where f.at >= $1 and f.at < $2) s),
		'earlier', (select max(starts) from events where starts < $1 and starts <= $3 and not cancelled),
		'later', (select min(starts) from events where starts >= $2 and starts <= $3 and not cancelled))`

// clubSeasonRow is a year of a club.
type clubSeasonRow struct {
	Events   []eventRow
	Turnouts []struct {
		Event   int64
		Entered int
		tuning.Sample
	}
	Entered, Asked, Applied, Felt tuning.Sample
	Earlier, Later                *time.Time
}

// ClubSeason reads what the record holds of the club from a moment to another.
// It names nobody.
func (b *Book) ClubSeason(ctx context.Context, from, to time.Time) (tuning.ClubSeason, error) {
	var row clubSeasonRow
	if err := b.whole(ctx, &row, selectClubSeason, from, to, b.now); err != nil {
		return tuning.ClubSeason{}, err
	}
	s := tuning.ClubSeason{Entered: row.Entered, Asked: row.Asked, Applied: row.Applied, Felt: row.Felt,
		Earlier: orZero(row.Earlier), Later: orZero(row.Later)}
	at := map[int64]tuning.Turnout{}
	for _, t := range row.Turnouts {
		at[t.Event] = tuning.Turnout{Cars: t.Entered, Felt: t.Sample}
	}
	for _, r := range row.Events {
		e := r.event()
		if e.Starts.After(b.now) {
			s.Coming = append(s.Coming, e)
			continue
		}
		t := at[e.ID]
		t.Event, t.Cars = e, t.Cars+e.GoneCars
		s.Entered.Times += e.GoneCars
		s.Events = append(s.Events, t)
	}
	return s, nil
}
