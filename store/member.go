package store

import (
	"context"
	"database/sql"
	"errors"

	"detent/tuning"
)

// memberRow is a row of members.
type memberRow struct {
	Person    string
	Name      string
	Units     *tuning.Units // nil for the club's
	Reminders bool
	Messages  bool
	NoDirect  bool            `json:"no_direct"`
	Answers   *tuning.Answers // nil for private
	Cautioned *string         // a day, nil for never
}

const (
	memberColumns = `person, name, units, reminders, messages, no_direct, answers, cautioned::text as cautioned`
	selectMembers = `select ` + memberColumns + ` from members `
)

func (r memberRow) member() tuning.Member {
	m := tuning.Member{Person: r.Person, Name: r.Name, Reminders: r.Reminders, Muted: !r.Messages, NoDirect: r.NoDirect}
	if r.Units != nil {
		m.Units = *r.Units
	}
	if r.Answers != nil {
		m.Answers = *r.Answers
	}
	if r.Cautioned != nil {
		m.Cautioned = *r.Cautioned
	}
	return m
}

// Member returns a person's settings, the usual ones while the person is not on
// record.
func (b *Book) Member(ctx context.Context, person string) (tuning.Member, error) {
	row := memberRow{Person: person, Reminders: true, Messages: true}
	if person == b.who.Person {
		if b.member != nil {
			row = *b.member
		}
		return row.member(), nil
	}
	err := b.get(ctx, &row, selectMembers+`where person = $1`, person)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	return row.member(), err
}

// SaveMember keeps a person's name and settings.
func (b *Book) SaveMember(ctx context.Context, m tuning.Member) error {
	var row memberRow
	err := b.get(ctx, &row, `
		insert into members (person, name, units, reminders, no_direct, answers, messages)
		values ($1, $2, nullif($3, ''), $4, $5, nullif($6, ''), $7)
		on conflict (club, person) do update set
			(name, units, reminders, no_direct, answers, messages) =
			(excluded.name, excluded.units, excluded.reminders, excluded.no_direct, excluded.answers, excluded.messages)
		returning `+memberColumns,
		m.Person, m.Name, m.Units, m.Reminders, m.NoDirect, m.Answers, !m.Muted)
	if err == nil && m.Person == b.who.Person {
		b.member = &row
	}
	return err
}

// NoteCautions notes the day, 2026-05-16, on which a person last saw all
// cautions.
func (b *Book) NoteCautions(ctx context.Context, person, day string) error {
	return b.exec(ctx, `update members set cautioned = $2 where person = $1`, person, day)
}

// FindMember finds a member of the club by key, or by name whatever its case.
// It returns a Refusal when there is none, or more than one of that name.
func (b *Book) FindMember(ctx context.Context, word string) (tuning.Member, error) {
	var found []string
	err := b.list(ctx, &found, `
		select person from members where person = $1 or lower(name) = lower($1)
		order by person <> $1, person limit 2`, word)
	switch {
	case err != nil:
		return tuning.Member{}, err
	case len(found) == 0:
		return tuning.Member{}, tuning.Missing{What: tuning.MemberThing, Name: word}
	case len(found) > 1 && found[0] != word:
		return tuning.Member{}, tuning.Ambiguous{What: tuning.MemberThing, Name: word, Among: found}
	}
	return b.Member(ctx, found[0])
}

// Members lists members whose name begins with some letters, by name.
func (b *Book) Members(ctx context.Context, begin string, most int) ([]tuning.Member, error) {
	var rows []memberRow
	err := b.list(ctx, &rows, selectMembers+`where starts_with(lower(name), lower($1)) order by name, person limit $2`, begin, most)
	members := make([]tuning.Member, len(rows))
	for i, r := range rows {
		members[i] = r.member()
	}
	return members, err
}
