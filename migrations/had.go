package migrations

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"fmt"
	"strings"
)

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

// stamp writes the hash of each migration that the database has had.
func stamp(ctx context.Context, conn *sql.Conn) error {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	for _, name := range names {
		_, err := tx.ExecContext(ctx, `update `+Table+` set hash = $2 where version_id = $1 and hash is distinct from $2`, numberOf(name), hashOf(name))
		if err != nil {
			return err
		}
	}
	return tx.Commit()
}
