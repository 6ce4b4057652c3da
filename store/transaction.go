package store

import (
	"context"
	"database/sql/driver"
	"encoding/hex"
	"fmt"
	"strings"
	"time"

	"github.com/jmoiron/sqlx"
	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"
)

// transaction is one that begins together with its first statement and commits
// together with its last: in so short a transaction the round trips are much of
// what it costs, and database/sql takes one for each of the four.
type transaction struct {
	*sqlx.Conn
	bind  func(query string, arg any) (string, []any, error)
	ended bool
}

// mode is what a transaction may do.
type mode string

const (
	readOnly  mode = "read only"
	readWrite mode = "read write"
)

// begin begins a transaction that sees one moment and reads the row of its
// first query. Idle connections may have died with a server that was
// restarted: those it passes over.
func (db *DB) begin(ctx context.Context, mode mode, row any, query string, args ...any) (*transaction, error) {
	text := fmt.Sprintf("begin isolation level repeatable read %s; %s", mode, written(query, args...))
	if strings.ContainsRune(text, 0) { // where a message ends, and a thing that no column holds
		return nil, &pq.Error{Code: pqerror.CharacterNotInRepertoire, Message: "zero byte in a text"}
	}
	for died := 0; ; died++ {
		conn, err := db.pool.Connx(ctx)
		if err != nil {
			return nil, err
		}
		tx := &transaction{Conn: conn, bind: db.pool.BindNamed}
		err = tx.GetContext(ctx, row, text)
		if err == nil {
			return tx, nil
		}
		tx.leave()
		if !lost(err) || died == connections {
			return nil, err
		}
	}
}

// open begins a transaction of a club, with nothing else to ask first.
func (db *DB) open(ctx context.Context, mode mode, club string) (*transaction, error) {
	return db.begin(ctx, mode, new(string), `select set_config('detent.club', $1, true)`, club)
}

// commit runs a last statement and commits. Only when it returns no error is
// it certain that the transaction is kept, and only when the server has said
// why not that it is not.
func (tx *transaction) commit(ctx context.Context, query string, args ...any) error {
	_, err := tx.ExecContext(ctx, written(query, args...)+"; commit")
	tx.ended = err == nil
	return err
}

// nothing is a last statement for when there is none. Like any other it fails
// when an earlier one did, where a commit alone would pass for done.
const nothing = "select"

// leave takes back what was not committed, and gives the connection back.
func (tx *transaction) leave() {
	defer tx.Close()
	if tx.ended {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), connectTimeout)
	defer cancel()
	if _, err := tx.ExecContext(ctx, "rollback"); err != nil {
		tx.Raw(func(any) error { return driver.ErrBadConn }) // nobody shall have it again
	}
}

// written is a query with its arguments, nine at most, written into it.
// Postgres takes several statements in one message only so.
func written(query string, args ...any) string {
	var pairs []string
	for i, arg := range args {
		pairs = append(pairs, fmt.Sprint("$", i+1), literal(arg))
	}
	return strings.NewReplacer(pairs...).Replace(query)
}

// literal writes a value in a way that is read as that value whatever the
// server's settings are.
func literal(value any) string {
	switch v := value.(type) {
	case string:
		return pq.QuoteLiteral(v)
	case []byte:
		return `decode('` + hex.EncodeToString(v) + `', 'hex')`
	case int64:
		return fmt.Sprint(v)
	case time.Time:
		return v.UTC().Format(`'2006-01-02 15:04:05.999999Z'::timestamptz`)
	}
	panic(fmt.Sprintf("store: a %T has no literal", value))
}
