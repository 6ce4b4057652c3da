// Package storetest gives each test a database of its own on a throwaway
// server. The server is private to this machine's user, is shared by test
// programs that run at the same time, and stops when the last of them leaves.
//
// A test program that uses the package leaves the server in its TestMain:
//
//	func TestMain(m *testing.M) {
//		defer storetest.Leave()
//		m.Run()
//	}
package storetest

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"

	"github.com/jmoiron/sqlx"
	_ "github.com/lib/pq" // the driver

	"detent/migrations"
	"detent/store"
	"detent/store/localpg"
)

// New opens the record in a new database, which goes when the test ends, at
// whatever time the test takes for now.
func New(t testing.TB) *store.DB {
	t.Helper()
	db, err := store.Rehearse(t.Context(), URL(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// URL makes a new database with the newest schema, which goes when the test
// ends, and returns its address as the server's superuser.
func URL(t testing.TB) string {
	t.Helper()
	return create(t, template(t))
}

// Empty is URL for a database without a schema.
func Empty(t testing.TB) string {
	t.Helper()
	return create(t, "template0")
}

// Leave gives the server back. It is for TestMain.
func Leave() {
	if joined.admin != nil {
		joined.admin.Close()
		joined.server.Close()
	}
}

var joined struct {
	once   sync.Once
	server *localpg.Server
	admin  *sqlx.DB
	err    error
}

// memory is where Linux keeps files in memory.
const memory = "/dev/shm"

// roomInMemory is what the server needs at most: 512 MB of log, and 10 MB for
// each of the databases that are in use at the same time.
const roomInMemory = 2 << 30

// home is the folder that the server's folder stands in. A database is some three
// hundred files, and a new one is made ten times as fast in memory as on a disk.
// A TMPDIR that somebody has set is theirs to choose, and a container's 64 MB of
// memory are too few.
func home(memory, chosen string) string {
	var room syscall.Statfs_t
	const mine = 7 // to read, to write and to enter
	if chosen != "" || syscall.Access(memory, mine) != nil || syscall.Statfs(memory, &room) != nil || uint64(room.Bavail)*uint64(room.Bsize) < roomInMemory {
		return os.TempDir()
	}
	return memory
}

// join starts the server, or finds it, once a test program.
func join(t testing.TB) {
	t.Helper()
	joined.once.Do(func() {
		dir := filepath.Join(home(memory, os.Getenv("TMPDIR")), fmt.Sprintf("detent-test-%d", os.Getuid()))
		if joined.server, joined.err = localpg.Start(context.Background(), dir, localpg.Throwaway()); joined.err != nil {
			return
		}
		joined.admin, joined.err = sqlx.Open("postgres", joined.server.URL(localpg.Database))
	})
	if joined.err != nil {
		t.Fatalf("the tests need a Postgres server: %v", joined.err)
	}
}

var made atomic.Int64

// create makes a database after another and returns its address.
func create(t testing.TB, after string) string {
	t.Helper()
	join(t)
	name := fmt.Sprintf("test_%d_%d", os.Getpid(), made.Add(1))
	drop := fmt.Sprintf("drop database if exists %s with (force)", name)
	for _, statement := range []string{drop, fmt.Sprintf("create database %s template %s", name, after)} {
		if _, err := joined.admin.Exec(statement); err != nil {
			t.Fatal(err)
		}
	}
	// A copy lacks what its template grants and revokes as a whole.
	if _, err := joined.admin.Exec("revoke temporary on database " + name + " from public"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if _, err := joined.admin.Exec(drop); err != nil {
			t.Error(err)
		}
	})
	return joined.server.URL(name)
}

// template makes the database with the newest schema that the others are
// copied from, unless this or another test program has made it, and returns
// its name.
func template(t testing.TB) string {
	t.Helper()
	join(t)
	name := fmt.Sprintf("template_%x", migrations.Sum())
	err := func() error {
		ctx := t.Context()
		conn, err := joined.admin.Connx(ctx) // the lock is the connection's
		if err != nil {
			return err
		}
		defer conn.Close()
		if _, err := conn.ExecContext(ctx, `select pg_advisory_lock(hashtext($1))`, name); err != nil {
			return err
		}
		defer conn.ExecContext(context.WithoutCancel(ctx), `select pg_advisory_unlock(hashtext($1))`, name)
		var whole bool
		err = conn.GetContext(ctx, &whole, `select datistemplate from pg_database where datname = $1`, name)
		if whole || err != nil && err != sql.ErrNoRows {
			return err
		}
		for _, statement := range []string{"drop database if exists " + name, "create database " + name} {
			if _, err := conn.ExecContext(ctx, statement); err != nil {
				return err
			}
		}
		if err := store.Migrate(ctx, joined.server.URL(name)); err != nil {
			return err
		}
		_, err = conn.ExecContext(ctx, "alter database "+name+" is_template true")
		return err
	}()
	if err != nil {
		t.Fatal(err)
	}
	return name
}
