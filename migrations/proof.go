package migrations

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"github.com/pressly/goose/v3/database"
)

// Differs is returned for a database whose schema is not what this program's
// migrations of the same numbers make.
type Differs struct {
	Number      int64    // of the last migration it has had
	Differences []string // what is not as it should be, an item each; at least one
}

func (d *Differs) Error() string {
	return fmt.Sprintf("the schema is not the one that the migrations up to %d make: %s", d.Number, strings.Join(d.Differences, "; "))
}

// hashOf is the hash of a migration's file, in hexadecimal.
func hashOf(name string) string {
	text, _ := files.ReadFile(name) // it is embedded
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// byNumber are the files' names by their numbers.
var byNumber = func() map[int64]string {
	all := map[int64]string{}
	for _, name := range names {
		all[numberOf(name)] = name
	}
	return all
}()

// Proof is what HadQuery selects of a database that has had exactly this
// program's migrations.
var Proof = func() string {
	var all []string
	for _, name := range names {
		all = append(all, fmt.Sprintf("%d %s", numberOf(name), hashOf(name)))
	}
	return strings.Join(all, ",")
}()

// HadQuery selects, as one text, which migrations a database has had, with
// their hashes where it has them. It fails when there is no table of them.
const HadQuery = `
	select coalesce(string_agg(version_id || ' ' || coalesce(to_jsonb(m)->>'hash', ''), ',' order by version_id), '')
	from ` + Table + ` m
	where version_id > 0 and is_applied`

// had is a migration that a database has had.
type had struct {
	number int64
	hash   string // "" where it was not kept
}

// readHad lists the migrations that a database has had, in that order.
func readHad(ctx context.Context, db Querier) (all []had, err error) {
	var there bool
	if err := scanOne(ctx, db, &there, `select to_regclass('`+Table+`') is not null`); err != nil || !there {
		return nil, err
	}
	rows, err := db.QueryContext(ctx, `
		select version_id, coalesce(to_jsonb(m)->>'hash', '') from `+Table+` m where version_id > 0 and is_applied order by id`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var one had
		if err := rows.Scan(&one.number, &one.hash); err != nil {
			return nil, err
		}
		all = append(all, one)
	}
	return all, rows.Err()
}

func scanOne(ctx context.Context, db Querier, into any, query string) error {
	rows, err := db.QueryContext(ctx, query)
	if err != nil {
		return err
	}
	defer rows.Close()
	if !rows.Next() {
		return rows.Err()
	}
	return rows.Scan(into)
}

// prove returns a *Differs unless the database is what this program's
// migrations make. One that has the hashes of all of them is; another's
// catalogue is compared with a fresh one.
func prove(ctx context.Context, conn *sql.Conn) error {
	all, err := readHad(ctx, conn)
	if err != nil {
		return err
	}
	differs := &Differs{}
	hashed := true
	for _, one := range all {
		differs.Number = max(differs.Number, one.number)
		name, known := byNumber[one.number]
		if !known {
			differs.Differences = append(differs.Differences, fmt.Sprintf("migration %04d is not known to this program", one.number))
			continue
		}
		hashed = hashed && one.hash == hashOf(name)
	}
	if hashed && len(differs.Differences) == 0 {
		return nil
	}
	if len(differs.Differences) == 0 {
		if differs.Differences, err = compare(ctx, conn, all); err != nil {
			return err
		}
	}
	if len(differs.Differences) == 0 {
		return nil
	}
	return differs
}

// compare tells how the schema differs from what the migrations make that the
// database has had, in the same order. They are run in place of the real
// schema within a transaction that is taken back: that takes no right but that
// of the database's owner, and nobody else sees it.
func compare(ctx context.Context, conn *sql.Conn, all []had) (differences []string, err error) {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return nil, err
	}
	defer tx.Rollback()
	if _, err := tx.ExecContext(ctx, `set local search_path = public`); err != nil {
		return nil, err
	}
	have, err := ReadCatalogue(ctx, tx)
	if err != nil {
		return nil, err
	}
	if _, err := tx.ExecContext(ctx, `alter schema public rename to detent_real; create schema public`); err != nil {
		return nil, err
	}
	table, err := database.NewStore(database.DialectPostgres, Table)
	if err != nil {
		return nil, err
	}
	if err := table.CreateVersionTable(ctx, tx); err != nil {
		return nil, err
	}
	for _, one := range all {
		text, _ := files.ReadFile(byNumber[one.number]) // it is embedded
		// Goose's marks are comments to Postgres, which takes the whole file.
		if _, err := tx.ExecContext(ctx, string(text)); err != nil {
			return nil, fmt.Errorf("migration %04d, for comparison: %w", one.number, err)
		}
	}
	want, err := ReadCatalogue(ctx, tx)
	if err != nil {
		return nil, err
	}
	return have.Differences(want), nil
}

// stamp writes the hash of each migration that the database has had.
func stamp(ctx context.Context, conn *sql.Conn) error {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	for _, name := range slices.Sorted(slices.Values(names)) {
		_, err := tx.ExecContext(ctx, `update `+Table+` set hash = $2 where version_id = $1 and hash is distinct from $2`, numberOf(name), hashOf(name))
		if err != nil {
			return err
		}
	}
	return tx.Commit()
}
