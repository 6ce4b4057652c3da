package migrations

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"

	"github.com/pressly/goose/v3/database"
)

// misfit is a migration that does not follow those before it.
type misfit int64

func (m misfit) Error() string {
	return fmt.Sprintf("migration %04d does not follow the ones before it", int64(m))
}

// rehearse returns the catalogue that the database has, and the one that its
// migrations make when they are run in the same order. They run in place of
// the real schema in a transaction that is rolled back: the database's owner may
// do that, and nobody else sees it.
func rehearse(ctx context.Context, conn *sql.Conn, all []had) (have, want Catalogue, err error) {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return nil, nil, err
	}
	defer tx.Rollback()
	if _, err := tx.ExecContext(ctx, `set local search_path = public`); err != nil {
		return nil, nil, err
	}
	if have, err = ReadCatalogue(ctx, tx); err != nil {
		return nil, nil, err
	}
	if _, err := tx.ExecContext(ctx, `alter schema public rename to detent_real; create schema public`); err != nil {
		return nil, nil, err
	}
	table, err := database.NewStore(database.DialectPostgres, Table)
	if err != nil {
		return nil, nil, err
	}
	if err := table.CreateVersionTable(ctx, tx); err != nil {
		return nil, nil, err
	}
	for _, one := range all {
		text, _ := files.ReadFile(byNumber[one.number]) // it is embedded
		// Goose's marks are comments to Postgres, which takes the whole file.
		_, err := tx.ExecContext(ctx, string(text))
		if refusedForNames(err) {
			return nil, nil, misfit(one.number)
		}
		if err != nil {
			return nil, nil, fmt.Errorf("migration %04d, for comparison: %w", one.number, err)
		}
	}
	want, err = ReadCatalogue(ctx, tx)
	return have, want, err
}

// refusedForNames tells whether the server refused a statement for what it names, as
// opposed to who runs it or how the server is. Databases were made once whose
// migrations had other numbers.
func refusedForNames(err error) bool {
	refused, ok := errors.AsType[interface {
		error
		SQLState() string
	}](err)
	const rule, right = "42", "42501" // the class of wrong names and syntax; in it, the want of a right
	return ok && strings.HasPrefix(refused.SQLState(), rule) && refused.SQLState() != right
}
