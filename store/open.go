package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/jmoiron/sqlx"
	"github.com/jmoiron/sqlx/reflectx"
	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/migrations"
	"detent/tuning"
)

const (
	// role is what the program works as; the first migration makes it.
	role = "detent_app"

	connections = 16
)

// DB is the record of all clubs. It is safe for use by several goroutines.
type DB struct {
	pool     *sqlx.DB
	retries  *retrier
	settling time.Duration
}

// Open opens the record at an address in either form that Postgres documents,
// with one host or several, bringing its schema up to date first when it is
// behind. It returns a *BadAddress when the address cannot be used as it is
// written, and a Problem when the database cannot be reached or only be read,
// or its schema is newer than the program.
func Open(ctx context.Context, url string) (*DB, error) {
	db, err := open(ctx, url)
	if !errors.Is(err, errBehind) {
		return db, err
	}
	if err := Migrate(ctx, url); err != nil {
		return nil, err
	}
	db, err = open(ctx, url)
	if errors.Is(err, errBehind) {
		err = problem(err)
	}
	return db, err
}

// Migrate brings the schema at an address up to date, as the address's own
// user. It returns the errors that Open does. The cause of one may be a
// *migrations.Differs: that schema was made by other migrations, and is left
// as it is.
func Migrate(ctx context.Context, url string) error {
	config, err := configure(url)
	if err != nil {
		return err
	}
	pool, err := connect(config, nil)
	if err != nil {
		return err
	}
	defer pool.Close()
	err = check(ctx, pool)
	if bad := refusedParameter(err, config); bad != nil {
		return bad
	}
	if !errors.Is(err, errBehind) {
		return err
	}
	return problem(migrations.Up(ctx, pool.DB))
}

// Close closes the connections.
func (db *DB) Close() error { return db.pool.Close() }

// Ping returns a Problem when the database does not answer.
func (db *DB) Ping(ctx context.Context) error { return problem(db.pool.PingContext(ctx)) }

// errBehind is what check returns for a schema that lacks migrations.
var errBehind = errors.New("the schema is behind the program")

// open opens the pool on a database that is up to date, in one round trip
// beside the connection itself.
func open(ctx context.Context, url string) (*DB, error) {
	config, err := configure(url)
	if err != nil {
		return nil, err
	}
	config.Runtime["role"] = role
	pool, err := connect(config, &dialer{silence: silence})
	if err != nil {
		return nil, err
	}
	if err := check(ctx, pool); err != nil {
		pool.Close()
		if bad := refusedParameter(err, config); bad != nil {
			return nil, bad
		}
		return nil, err
	}
	return &DB{pool: pool, retries: newRetrier(), settling: settling}, nil
}

// configure reads the address for connections of this package's own manner.
func configure(address string) (pq.Config, error) {
	config, err := readAddress(address)
	if err != nil {
		return config, err
	}
	config.BinaryParameters = true // one round trip a statement in place of two
	config.Runtime["timezone"] = "UTC"
	config.Runtime["plan_cache_mode"] = "force_generic_plan" // all look rows up by keys, whatever the values
	return config, nil
}

// connect makes a pool of connections that give up a server that falls silent,
// or for migrations, which may take their time, one of connections that wait.
func connect(config pq.Config, dialer pq.Dialer) (*sqlx.DB, error) {
	how, err := pq.NewConnectorConfig(config)
	if err != nil {
		return nil, problem(err)
	}
	if dialer != nil {
		how.Dialer(dialer)
	}
	pool := sqlx.NewDb(sql.OpenDB(preparing{connector{how}}), "postgres")
	pool.Mapper = reflectx.NewMapperFunc("json", strings.ToLower) // rows come as columns and as JSON, under the same names
	pool.SetMaxOpenConns(connections)
	pool.SetMaxIdleConns(connections)
	return pool, nil
}

// check returns a Problem when the database cannot serve this program, and
// errBehind when it can once it is migrated.
func check(ctx context.Context, pool *sqlx.DB) error {
	var at struct {
		Version  int64
		Had      string
		ReadOnly bool `json:"read_only"`
	}
	err := pool.GetContext(ctx, &at, `
		select (select coalesce(max(version_id), 0) from `+migrations.Table+`) as version, (`+migrations.HadQuery+`) as had,
			pg_is_in_recovery() or current_setting('transaction_read_only')::boolean as read_only`)
	switch {
	case pq.As(err, pqerror.UndefinedTable, pqerror.InvalidParameterValue, pqerror.InsufficientPrivilege) != nil:
		return fmt.Errorf("%w: %w", errBehind, err) // no schema yet, or no role, or one of them is being made
	case err != nil:
		return problem(err)
	case at.ReadOnly:
		return onlyRead(nil)
	case at.Version > migrations.Newest:
		return tuning.Problemf(tuning.Internal,
			"The database is at schema %d and this program knows only up to %d: run the newer program.", at.Version, migrations.Newest)
	case at.Had != migrations.Proof:
		return errBehind // or made by other migrations, as migrating will tell
	}
	return nil
}
