package store

import (
	"context"
	"database/sql/driver"

	"github.com/jmoiron/sqlx"
)

// transaction is one that is open on a connection of its own. It begins and
// ends by constant texts, since what database/sql offers for that can neither
// be given up after a while nor tell a failed commit from a lost one.
type transaction struct {
	*sqlx.Conn
	bind  func(query string, arg any) (string, []any, error)
	ended bool
}

// mode is what a transaction may do.
type mode string

// Both see one moment: that of their first query.
const (
	readOnly  mode = "begin isolation level repeatable read read only"
	readWrite mode = "begin isolation level repeatable read read write"
)

// begin begins a transaction. Idle connections may have died with a server
// that was restarted: those are passed over.
func (db *DB) begin(ctx context.Context, mode mode) (*transaction, error) {
	for died := 0; ; died++ {
		conn, err := db.pool.Connx(ctx)
		if err != nil {
			return nil, err
		}
		tx := &transaction{Conn: conn, bind: db.pool.BindNamed}
		if _, err = tx.ExecContext(ctx, string(mode)); err == nil {
			return tx, nil
		}
		tx.leave()
		if !lost(err) || died == connections {
			return nil, err
		}
	}
}

// commit commits. nil: committed. An error that the server sent: rolled back.
// Any other error: unknown. The select makes it fail after a statement that
// failed, where a commit alone would pass for done.
func (tx *transaction) commit(ctx context.Context) error {
	_, err := tx.ExecContext(ctx, "select; commit")
	tx.ended = err == nil
	return err
}

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
