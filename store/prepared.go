package store

import (
	"context"
	"database/sql/driver"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"
)

// preparing is a connector whose connections prepare what they are asked a
// second time, so that Postgres parses and plans it once a connection. The
// first time costs no more than without: one round trip.
type preparing struct{ driver.Connector }

// Connect opens a connection that prepares.
func (p preparing) Connect(ctx context.Context) (driver.Conn, error) {
	opened, err := p.Connector.Connect(ctx)
	if err != nil {
		return nil, err
	}
	return &preparingConn{pqConn: opened.(pqConn), statements: map[string]statement{}}, nil
}

// pqConn is all that database/sql uses of a connection of lib/pq.
type pqConn interface {
	driver.Conn
	driver.ConnBeginTx
	driver.ConnPrepareContext
	driver.ExecerContext
	driver.NamedValueChecker
	driver.Pinger
	driver.QueryerContext
	driver.SessionResetter
	driver.Validator
}

// statement is a prepared statement of lib/pq.
type statement interface {
	driver.StmtExecContext
	driver.StmtQueryContext
}

// preparingConn is a connection with its prepared statements; nil is one that
// was asked once. Texts are constants of the program, so there are only so
// many. The server forgets the statements with the connection.
type preparingConn struct {
	pqConn
	statements map[string]statement
}

// ExecContext runs a statement.
func (c *preparingConn) ExecContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Result, error) {
	prepared, err := c.prepared(ctx, query, args)
	if err != nil {
		return nil, err
	}
	if prepared == nil {
		return c.pqConn.ExecContext(ctx, query, args)
	}
	result, err := prepared.ExecContext(ctx, args)
	return result, c.judge(err)
}

// QueryContext runs a query.
func (c *preparingConn) QueryContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Rows, error) {
	prepared, err := c.prepared(ctx, query, args)
	if err != nil {
		return nil, err
	}
	if prepared == nil {
		return c.pqConn.QueryContext(ctx, query, args)
	}
	rows, err := prepared.QueryContext(ctx, args)
	return rows, c.judge(err)
}

// prepared returns the statement of a text that has been asked before, nil for
// one that has not. What takes no arguments is not prepared: it may be several
// statements, and begins and ends transactions.
func (c *preparingConn) prepared(ctx context.Context, query string, args []driver.NamedValue) (statement, error) {
	if len(args) == 0 {
		return nil, nil
	}
	known, again := c.statements[query]
	if known != nil {
		return known, nil
	}
	c.statements[query] = nil
	if !again {
		return nil, nil
	}
	stmt, err := c.PrepareContext(ctx, query)
	if err != nil {
		return nil, err
	}
	c.statements[query] = stmt.(statement)
	return c.statements[query], nil
}

// judge returns an error as it is. A statement that no longer fits, because the
// schema was changed under it, counts as a lost connection: the next one
// prepares it anew.
func (c *preparingConn) judge(err error) error {
	e := pq.As(err, pqerror.FeatureNotSupported, pqerror.InvalidSQLStatementName)
	if e != nil && (e.Code == pqerror.InvalidSQLStatementName || e.Routine == "RevalidateCachedQuery") {
		return driver.ErrBadConn
	}
	return err
}
