package localpg_test

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"detent/store/localpg"
)

func TestAUserIsKilled(t *testing.T) {
	dir := folder(t)
	victim := spawn(t, dir).ready()
	pid := postmaster(t, dir)
	victim.kill()
	next := start(t, dir)
	if now := postmaster(t, dir); now != pid {
		t.Errorf("the server was %d and is %d, though it was running", pid, now)
	}
	ask(t, next, "SELECT 1")
	must(t, next.Close())
	stopped(t, dir)
}

func TestTheServerIsKilled(t *testing.T) {
	dir := folder(t)
	member := start(t, dir)
	tell(t, member, "DROP TABLE IF EXISTS kept; CREATE TABLE kept AS SELECT 7 AS n")

	// A session that is busy when the postmaster dies outlives it a while.
	db, err := sql.Open("postgres", member.URL(localpg.Database))
	must(t, err)
	defer db.Close()
	busy := make(chan error, 1)
	go func() { _, err := db.Exec("SELECT pg_sleep(0.5)"); busy <- err }()
	for ask(t, member, "SELECT count(*) FROM pg_stat_activity WHERE query LIKE 'SELECT pg_sleep%'") != "1" {
	}
	pid := killServer(t, dir)

	again := start(t, dir)
	<-busy
	if now := postmaster(t, dir); now == pid {
		t.Error("the dead server was taken for a live one")
	}
	if got := ask(t, again, "SELECT n FROM kept"); got != "7" {
		t.Errorf("kept %s", got)
	}
}

func TestAServerThatDiesIsStartedAgainUnderItsUsers(t *testing.T) {
	dir := folder(t)
	member := start(t, dir)
	tell(t, member, "DROP TABLE IF EXISTS survived; CREATE TABLE survived AS SELECT 7 AS n")
	killServer(t, dir)
	db, err := sql.Open("postgres", member.URL(localpg.Database))
	must(t, err)
	defer db.Close()
	for db.PingContext(t.Context()) != nil {
		time.Sleep(10 * time.Millisecond)
	}
	if got := ask(t, member, "SELECT n FROM survived"); got != "7" {
		t.Errorf("kept %s", got)
	}
	must(t, member.Close())
	stopped(t, dir)
}

// After a loss of power the number in postmaster.pid may belong to any process
// of the same user, and where nobody buries the dead (in a container, say) to
// the dead server itself.
func TestAStaleProcessNumber(t *testing.T) {
	numbered := func(t *testing.T, file string, process *exec.Cmd) string {
		t.Helper()
		text, err := os.ReadFile(file)
		must(t, err)
		if os.Geteuid() == 0 {
			info, err := os.Stat(file)
			must(t, err)
			owner := info.Sys().(*syscall.Stat_t)
			process.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: owner.Uid, Gid: owner.Gid}}
		}
		must(t, process.Start())
		t.Cleanup(func() { process.Process.Kill(); process.Wait() })
		_, rest, _ := strings.Cut(string(text), "\n")
		return fmt.Sprintf("%d\n%s", process.Process.Pid, rest)
	}
	for name, stale := range map[string]func(t *testing.T, file string) string{
		"of another process": func(t *testing.T, file string) string {
			return numbered(t, file, exec.Command("sleep", "60"))
		},
		"of a dead process": func(t *testing.T, file string) string {
			process := exec.Command("true")
			text := numbered(t, file, process)
			for { // dead when it has let go of its program, and not buried yet
				if _, err := os.Readlink(fmt.Sprintf("/proc/%d/exe", process.Process.Pid)); err != nil {
					return text
				}
			}
		},
		"cut off": func(*testing.T, string) string { return "\x00" },
	} {
		t.Run(name, func(t *testing.T) {
			dir := folder(t)
			member := start(t, dir)
			file := filepath.Join(dir, "postgres", "postmaster.pid")
			text := stale(t, file)
			killServer(t, dir)
			must(t, member.Close())
			must(t, os.WriteFile(file, []byte(text), 0o600))
			if got := ask(t, start(t, dir), "SELECT 1"); got != "1" {
				t.Errorf("got %s", got)
			}
		})
	}
}

func TestAKilledInitdbIsDoneAgain(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	half := filepath.Join(dir, "postgres.new-1")
	must(t, os.MkdirAll(filepath.Join(half, "base"), 0o700))
	must(t, os.WriteFile(filepath.Join(half, "PG_VERSION"), []byte("15\n"), 0o600))

	victim := spawn(t, dir)
	for {
		growing, err := filepath.Glob(filepath.Join(dir, "postgres.new-*", "global"))
		must(t, err)
		if len(growing) > 0 {
			break
		}
	}
	victim.kill()
	if _, err := os.Stat(filepath.Join(dir, "postgres")); !errors.Is(err, os.ErrNotExist) {
		t.Fatalf("the cluster was whole before the kill: %v", err)
	}
	if got := ask(t, start(t, dir), "SELECT 1"); got != "1" {
		t.Errorf("got %s", got)
	}
	left, err := filepath.Glob(filepath.Join(dir, "postgres.new-*"))
	must(t, err)
	if len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// A server that was started by hand holds no lock of this package. One whose
// lock and socket are taken away looks the same.
func TestAServerStartedByHandIsLeftAlone(t *testing.T) {
	dir := folder(t)
	byHand := start(t, dir)
	tell(t, byHand, "SELECT 1")
	pid := postmaster(t, dir)
	lock := filepath.Join(dir, "alive")
	socket := filepath.Join(dir, "postgres", ".s.PGSQL.5432")
	must(t, os.Rename(lock, lock+".hidden"))
	must(t, os.Rename(socket, socket+".hidden"))

	server, err := localpg.Start(t.Context(), dir)
	if err == nil {
		server.Close()
		t.Fatal("a second server started on the same data")
	}
	if !strings.Contains(err.Error(), "started by hand") || !strings.Contains(err.Error(), "stop it first") {
		t.Errorf("got %q", err)
	}
	if now := postmaster(t, dir); now != pid {
		t.Errorf("its process number was %d and is %d", pid, now)
	}
	must(t, os.Rename(lock+".hidden", lock))
	must(t, os.Rename(socket+".hidden", socket))
	ask(t, byHand, "SELECT 1")
}

func TestADamagedCluster(t *testing.T) {
	dir := folder(t)
	must(t, start(t, dir).Close())
	control := filepath.Join(dir, "postgres", "global", "pg_control")
	whole, err := os.ReadFile(control)
	must(t, err)
	must(t, os.WriteFile(control, nil, 0o600))
	defer os.WriteFile(control, whole, 0o600)

	server, err := localpg.Start(t.Context(), dir)
	if err == nil {
		server.Close()
		t.Fatal("it started")
	}
	for _, want := range []string{"did not start", "pg_control", filepath.Join(dir, "postgres.log")} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q does not say %q", err, want)
		}
	}
}
