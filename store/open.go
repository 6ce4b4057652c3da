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
	// The roles that the program works as, which migrations make: serving can
	// become nothing else; rehearsal may do the same and take another time for
	// now.
	serving   role = "detent_app"
	rehearsal role = "detent_rehearsal"

	connections = 16
)

// role is a role of the database.
type role string

// DB is the record of all clubs. It is safe for use by several goroutines.
type DB struct {
	pool       *sqlx.DB
	retries    *retrier
	settling   time.Duration
	unconfined bool
}

// Open opens the record at an address in either form that Postgres documents,
// with one host or several, bringing its schema up to date first when it is
// behind. It returns a *BadAddress when the address cannot be used as it is
// written, and a Refusal when the database cannot be reached or only be read,
// or its schema is newer than the program.
func Open(ctx context.Context, url string) (*DB, error) { return openAs(ctx, url, serving) }

// Rehearse is Open for asks that take another time for now. The database lets
// nobody date a change so who logs in as the role that serves.
func Rehearse(ctx context.Context, url string) (*DB, error) {
	db, err := openAs(ctx, url, rehearsal)
	if pq.As(err, pqerror.InvalidParameterValue, pqerror.InsufficientPrivilege) != nil {
		return nil, because(tuning.CannotRehearse, err)
	}
	return db, err
}

func openAs(ctx context.Context, url string, role role) (*DB, error) {
	config, err := configure(url)
	if err != nil {
		return nil, err
	}
	db, err := open(ctx, config, role)
	if !errors.Is(err, errBehind) {
		return readingOlder(ctx, db, err)
	}
	if err := Migrate(ctx, url); err != nil {
		return nil, err
	}
	db, err = open(ctx, config, role)
	if errors.Is(err, errBehind) {
		err = problem(err)
	}
	return readingOlder(ctx, db, err)
}

// readingOlder reads, once a record is open, what it holds from before there
// were tries.
func readingOlder(ctx context.Context, db *DB, err error) (*DB, error) {
	if err != nil {
		return db, err
	}
	if _, err := db.ReadOlder(ctx, time.Now()); err != nil {
		db.Close()
		return nil, err
	}
	return db, nil
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
	_, err = check(ctx, pool)
	if bad := refusedParameter(err, config); bad != nil {
		return bad
	}
	if !errors.Is(err, errBehind) {
		return err
	}
	err = migrations.Up(ctx, pool.DB)
	if pq.As(err, pqerror.InsufficientPrivilege) != nil {
		return because(tuning.CannotMigrate, err)
	}
	return problem(err)
}

// Unconfined tells whether the login that the record was opened with may do
// more than the program needs: a superuser, say, or the owner of the tables.
func (db *DB) Unconfined() bool { return db.unconfined }

// Close closes the connections.
func (db *DB) Close() error { return db.pool.Close() }

// Ping returns a Refusal when the database does not answer.
func (db *DB) Ping(ctx context.Context) error { return problem(db.pool.PingContext(ctx)) }

// Skew is how far the program's clock may be from the database's, either way.
const Skew = 5 * time.Minute

// Ready returns a Refusal when the database does not answer, or its clock is
// further from the program's than a change may be dated.
func (db *DB) Ready(ctx context.Context, now time.Time) error {
	var there time.Time
	if err := db.pool.GetContext(ctx, &there, `select clock_timestamp()`); err != nil {
		return problem(err)
	}
	if apart := now.Sub(there).Abs(); apart > Skew {
		return tuning.ClockSkew{Apart: apart}
	}
	return nil
}

// errBehind is what check returns for a schema that lacks migrations.
var errBehind = errors.New("the schema is behind the program")

// open opens the pool on a database that is up to date, in one round trip
// beside the connection itself.
func open(ctx context.Context, config pq.Config, role role) (*DB, error) {
	config = config.Clone()
	config.Runtime["role"] = string(role)
	pool, err := connect(config, &dialer{silence: silence})
	if err != nil {
		return nil, err
	}
	unconfined, err := check(ctx, pool)
	if err != nil {
		pool.Close()
		if bad := refusedParameter(err, config); bad != nil {
			return nil, bad
		}
		return nil, err
	}
	return &DB{pool: pool, retries: newRetrier(), settling: settling, unconfined: unconfined}, nil
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

// check returns a Refusal when the database cannot serve this program, and
// errBehind when it can once it is migrated. Of one that can it tells whether
// the login may do more than work as the role it was given.
func check(ctx context.Context, pool *sqlx.DB) (unconfined bool, err error) {
	var at struct {
		Version    int64
		Had        string
		ReadOnly   bool `json:"read_only"`
		Unconfined bool
	}
	err = pool.GetContext(ctx, &at, `
		select (select coalesce(max(version_id), 0) from `+migrations.Table+`) as version, (`+migrations.HadQuery+`) as had,
			pg_is_in_recovery() or current_setting('transaction_read_only')::boolean as read_only,
			exists (
				select from pg_roles r
				where r.rolname = session_user and (r.rolsuper or r.rolcreaterole or r.rolbypassrls)
					or r.rolname not in (session_user, current_user, $1) and pg_has_role(session_user, r.oid, 'member'))
			or exists (select from pg_tables where schemaname = 'public' and tableowner = session_user) as unconfined`, string(serving))
	switch {
	case pq.As(err, pqerror.UndefinedTable, pqerror.InvalidParameterValue, pqerror.InsufficientPrivilege) != nil:
		return false, fmt.Errorf("%w: %w", errBehind, err) // no schema yet, or no role, or one of them is being made
	case err != nil:
		return false, problem(err)
	case at.ReadOnly:
		return false, tuning.ReadOnly
	case at.Version > migrations.Newest:
		return false, tuning.NewerSchema{Has: at.Version, Knows: migrations.Newest}
	case at.Had != migrations.Proof:
		return false, errBehind // or made by other migrations, as migrating will tell
	}
	return at.Unconfined, nil
}
