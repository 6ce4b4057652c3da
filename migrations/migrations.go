// Package migrations carries the database schema as numbered SQL files and
// brings a database up to the newest. A file that has landed is never edited:
// what changes later is a file of its own.
package migrations

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"embed"
	"errors"
	"io/fs"
	"strconv"
	"strings"

	"github.com/pressly/goose/v3"
	"github.com/pressly/goose/v3/lock"
)

// Table is where a database keeps which migrations it has had: one row each,
// with its number in version_id.
const Table = "migrations"

//go:embed [0-9]*.sql
var files embed.FS

// names are the files, sorted.
var names = func() []string {
	names, _ := fs.Glob(files, "[0-9]*.sql") // the pattern is well formed
	return names
}()

// Newest is the number of the last migration this program carries, and Count
// how many it carries: numbers may be left out.
var (
	Newest = numberOf(names[len(names)-1])
	Count  = len(names)
)

func numberOf(name string) int64 {
	number, _, _ := strings.Cut(name, "_")
	n, err := strconv.ParseInt(number, 10, 64)
	if err != nil {
		panic("migrations: a file's name must begin with its number: " + name)
	}
	return n
}

// Sum tells this schema from any other, as 8 bytes of a hash of the files
// and their names, which number them.
func Sum() []byte {
	hash := sha256.New()
	for _, name := range names {
		text, _ := files.ReadFile(name) // it is embedded
		hash.Write([]byte(name))
		hash.Write(text)
	}
	return hash.Sum(nil)[:8]
}

// Up brings a database to Newest and does nothing to one that is there. One
// that lacks an earlier migration, as happens when two are made side by side,
// gets that too. Of several processes that call it at once, one works and the
// others wait. A database that was made with other migrations of the same
// numbers is left as it is: the error is a *Differs.
func Up(ctx context.Context, db *sql.DB) (err error) {
	turns, err := lock.NewPostgresSessionLocker(lock.WithLockTimeout(1, 300)) // seconds between tries, tries
	if err != nil {
		return err
	}
	conn, err := db.Conn(ctx) // the lock is the connection's
	if err != nil {
		return err
	}
	defer conn.Close()
	if err := turns.SessionLock(ctx, conn); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, turns.SessionUnlock(context.WithoutCancel(ctx), conn)) }()
	if err := prove(ctx, conn); err != nil {
		return err
	}
	provider, err := goose.NewProvider(goose.DialectPostgres, db, files,
		goose.WithTableName(Table), goose.WithAllowOutofOrder(true))
	if err != nil {
		return err
	}
	if _, err := provider.Up(ctx); err != nil {
		return err
	}
	return stamp(ctx, conn)
}
