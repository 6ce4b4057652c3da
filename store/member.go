package store

import (
	"context"
	"database/sql"
	"errors"

	"detent/tuning"
)

// Member reads a person's settings: the usual ones when they are not known
// yet.
func (b *Book) Member(ctx context.Context, person string) (tuning.Member, error) {
	m := tuning.Member{Person: person, Reminders: true}
	err := b.get(ctx, &m, `
		select person, name, coalesce(units, '') as units, reminders, no_direct as nodirect
		from members where person = $1`, person)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	return m, err
}

// SaveMember keeps a person's name and settings.
func (b *Book) SaveMember(ctx context.Context, m tuning.Member) error {
	return b.exec(ctx, `
		insert into members (person, name, units, reminders, no_direct) values ($1, $2, nullif($3, ''), $4, $5)
		on conflict (club, person) do update set
			(name, units, reminders, no_direct) =
			(excluded.name, excluded.units, excluded.reminders, excluded.no_direct)`,
		m.Person, m.Name, m.Units, m.Reminders, m.NoDirect)
}
