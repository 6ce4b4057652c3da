package localpg_test

import (
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/store/localpg"
)

// The stand-ins for the server programs fail as the real ones do on a full
// disk, so that the test needs no right to mount one.
func TestAFullDiskIsNamedWhenTheClusterIsMade(t *testing.T) {
	programs, dir := t.TempDir(), filepath.Join(t.TempDir(), "data")
	for name, script := range map[string]string{
		"postgres": "echo 'postgres (PostgreSQL) 98.1'",
		"initdb":   "echo 'initdb: error: could not write file \"PG_VERSION\": No space left on device' >&2; exit 1",
	} {
		must(t, os.WriteFile(filepath.Join(programs, name), []byte("#!/bin/sh\n"+script+"\n"), 0o755))
	}
	openUp(t, programs)
	t.Setenv("PATH", programs)
	_, err := localpg.Start(t.Context(), dir)
	saysFull(t, err, dir)
}

func TestAFullDisk(t *testing.T) {
	dir := smallDisk(t, "72m")
	filler := filepath.Join(dir, "filler")
	fill(t, filler)
	_, err := localpg.Start(t.Context(), dir)
	saysFull(t, err, dir) // when it is made
	must(t, os.Remove(filler))

	server := start(t, dir)
	tell(t, server, "CREATE TABLE kept AS SELECT 7 AS n")
	fill(t, filler)
	db, err := sql.Open("postgres", server.URL(localpg.Database))
	must(t, err)
	defer db.Close()
	_, err = db.Exec("CREATE TABLE more AS SELECT repeat('x', 1000) FROM generate_series(1, 100000)")
	if pq.As(err, pqerror.DiskFull) == nil {
		t.Errorf("it wrote to a full disk: %v", err)
	}
	must(t, server.Close())

	fill(t, filler)
	if disk, full := localpg.FullDisk(dir); disk != dir || !full {
		t.Errorf("the disk is %s, full %v", disk, full)
	}
	_, err = localpg.Start(t.Context(), dir)
	saysFull(t, err, dir) // when it is started
	must(t, os.Remove(filler))
	if n := ask(t, start(t, dir), "SELECT n FROM kept"); n != "7" {
		t.Errorf("kept %s", n)
	}
}

func saysFull(t *testing.T, err error, dir string) {
	t.Helper()
	if err == nil {
		t.Fatal("it started")
	}
	for _, want := range []string{"disk at /", "is full", dir, "make room"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q does not say %q", err, want)
		}
	}
	if strings.Contains(err.Error(), "\n") {
		t.Errorf("%q is more than a sentence", err)
	}
}

// smallDisk mounts a disk in memory, of a size that initdb fits on.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	dir := t.TempDir()
	openUp(t, dir)
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk cannot be mounted here (%v); the stand-ins above are tried all the same", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, 0); err != nil {
			t.Error(err)
		}
	})
	return dir
}

// fill leaves no room on the disk that a file is on.
func fill(t *testing.T, name string) {
	t.Helper()
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o600)
	must(t, err)
	defer file.Close()
	for zeros := make([]byte, 1<<16); err == nil; {
		_, err = file.Write(zeros)
	}
}

// openUp lets the account that the server runs as into a temporary folder.
func openUp(t *testing.T, dir string) {
	t.Helper()
	for ; dir != os.TempDir() && dir != "/"; dir = filepath.Dir(dir) {
		must(t, os.Chmod(dir, 0o755))
	}
}
