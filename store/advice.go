package store

import (
	"context"
	"encoding/json"

	"github.com/jmoiron/sqlx/types"

	"detent/tuning"
)

// given is what the column of that name holds of an advice.
type given struct {
	Remedies []tuning.Remedy  `json:"remedies,omitempty"`
	First    []string         `json:"first,omitempty"`
	Notes    []string         `json:"notes,omitempty"`
	Cautions []tuning.Caution `json:"cautions,omitempty"`
}

// SaveAdvice keeps an advice given at a setting and returns it with its ID.
func (b *Book) SaveAdvice(ctx context.Context, advice tuning.Advice, at tuning.Setting) (tuning.Advice, error) {
	return b.saveAdvice(ctx, advice, at, "")
}

// saveAdvice keeps an advice; coach is who suggested it, "" for the bot's own.
func (b *Book) saveAdvice(ctx context.Context, advice tuning.Advice, at tuning.Setting, coach string) (tuning.Advice, error) {
	complaint, err := asJSON(&advice.Complaint)
	if err != nil {
		return advice, err
	}
	said, err := asJSON(&given{advice.Remedies, advice.First, advice.Notes, advice.Cautions})
	if err != nil {
		return advice, err
	}
	setting, err := asJSON(&at)
	if err != nil {
		return advice, err
	}
	err = b.get(ctx, &advice.ID, `
		insert into advice (car, at, complaint, given, setting, coach) values ($1, $2, $3, $4, $5, nullif($6, '')) returning id`,
		advice.Car, b.now, complaint, said, setting, coach)
	return advice, problem(err)
}

// Given finds an advice given on one of the owner's cars.
func (b *Book) Given(ctx context.Context, owner string, id int64) (tuning.Given, error) {
	var row struct {
		Car       int64
		Complaint types.JSONText
		Given     types.JSONText
		Setting   types.JSONText
		Name      string
		Coach     string
		Applied   int
		Declined  bool
		Change    int64
	}
	err := b.get(ctx, &row, `
		select a.car, a.complaint, a.given, a.setting, c.name,
			coalesce(a.coach, '') as coach, coalesce(a.applied, 0) as applied, coalesce(a.change, 0) as change,
			a.declined is not null as declined
		from advice a join cars c on c.id = a.car
		where a.id = $2 and c.owner = $1`, owner, id)
	if err != nil {
		return tuning.Given{}, none(err, "There is no advice %d for your cars: ask again with /symptom.", id)
	}
	var said given
	g := tuning.Given{Car: row.Name, Coach: row.Coach, Applied: row.Applied, Declined: row.Declined, Change: row.Change}
	for _, part := range []struct {
		text types.JSONText
		into any
	}{{row.Complaint, &g.Advice.Complaint}, {row.Given, &said}, {row.Setting, &g.Setting}} {
		if err := json.Unmarshal(part.text, part.into); err != nil {
			return g, problem(err)
		}
	}
	g.Advice.ID, g.Advice.Car = id, row.Car
	g.Advice.Remedies, g.Advice.First, g.Advice.Notes, g.Advice.Cautions = said.Remedies, said.First, said.Notes, said.Cautions
	return g, nil
}

// Applied notes which remedy of an advice was applied as which change. One
// that was applied already is a Conflict.
func (b *Book) Applied(ctx context.Context, advice int64, remedy int, change int64) error {
	var id int64
	err := b.get(ctx, &id, `
		update advice set applied = $2, change = $3 where id = $1 and applied is null and declined is null returning id`, advice, remedy, change)
	if p, ok := none(err, "").(*tuning.Problem); ok && p.Kind == tuning.NotFound {
		return tuning.Problemf(tuning.Conflict, "That advice was applied already: ask again with /symptom.")
	}
	return problem(err)
}
