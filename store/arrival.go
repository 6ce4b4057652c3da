package store

import (
	"context"

	"github.com/jmoiron/sqlx/types"

	"detent/tuning"
)

// answered is what was answered to a request before.
type answered struct {
	reply    []byte // nil when nothing was
	withheld bool   // it is no longer to be shown
}

// open begins the book: whose it is, whose settings hold, and what was answered
// to the request before, if one is named.
func (b *Book) open(ctx context.Context, request *string) (answered, error) {
	var found struct {
		Club, Member types.NullJSONText
		Reply        []byte
		Withheld     bool
	}
	if err := b.tx.GetContext(ctx, &found, `select * from open_book($1, $2, $3)`, b.who.Club, b.who.Person, request); err != nil {
		return answered{}, err
	}
	if found.Club.Valid {
		b.club = &clubRow{}
		if err := found.Club.Unmarshal(b.club); err != nil {
			return answered{}, err
		}
	}
	if found.Member.Valid {
		b.member = &memberRow{}
		if err := found.Member.Unmarshal(b.member); err != nil {
			return answered{}, err
		}
	}
	return answered{found.Reply, found.Withheld}, nil
}

// welcome writes down a club and a person that are seen for the first time,
// and a name that has changed. Whoever acts may be sent direct messages again.
func (b *Book) welcome(ctx context.Context) error {
	if b.club == nil {
		if err := b.SaveClub(ctx, tuning.DefaultClub(b.who.Club)); err != nil {
			return err
		}
	}
	if m := b.member; m != nil && !m.NoDirect && (m.Name == b.who.Name || b.who.Name == "") {
		return nil
	}
	b.member = &memberRow{}
	return b.get(ctx, b.member, `
		insert into members (person, name) values ($1, $2)
		on conflict (club, person) do update
		set name = coalesce(nullif(excluded.name, ''), members.name), no_direct = false
		returning `+memberColumns, b.who.Person, b.who.Name)
}
