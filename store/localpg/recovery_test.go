package localpg_test

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/store/localpg"
)

// rounds is how often a fault that depends on the moment is provoked. The
// environment asks for more than a test run needs.
func rounds(t *testing.T) int {
	t.Helper()
	n, err := strconv.Atoi(os.Getenv("LOCALPG_ROUNDS"))
	if err != nil {
		return 2
	}
	return n
}

// A session that dies makes Postgres recover. Its last user may leave in the
// middle of that, and Postgres 15 never ends a fast shutdown that is asked for
// then.
func TestTheLastLeavesDuringRecovery(t *testing.T) {
	dir := folder(t)
	slowest, hung := time.Duration(0), 0
	for range rounds(t) {
		last := start(t, dir)
		killSession(t, last)
		began := time.Now()
		left, came := last.Close(), startAndAsk(t, dir)
		took := time.Since(began)
		slowest = max(slowest, took)
		if left != nil || came != nil || took > 25*time.Second {
			t.Errorf("after %v: leaving: %v; the next: %v", took, left, came)
			hung++
		}
		stopped(t, dir)
	}
	t.Logf("%d of %d rounds went wrong, the slowest took %v", hung, rounds(t), slowest)
}

// startAndAsk joins, asks at once and leaves.
func startAndAsk(t *testing.T, dir string) error {
	server, err := localpg.Start(t.Context(), dir)
	if err != nil {
		return err
	}
	db, err := sql.Open("postgres", server.URL(localpg.Database))
	must(t, err)
	err = db.PingContext(t.Context())
	return errors.Join(err, db.Close(), server.Close())
}

// Older versions of this program left servers behind that had been stopping
// for ever. Here it is the checkpointer that never ends.
func TestAServerStuckInStoppingIsClearedByTheNext(t *testing.T) {
	dir := folder(t)
	user := spawn(t, dir).ready()
	pid := postmaster(t, dir)
	freeze(t, child(t, pid, "checkpointer"))
	user.kill()
	must(t, syscall.Kill(pid, syscall.SIGINT))
	for phase(t, dir) != "stopping" {
		time.Sleep(time.Millisecond)
	}
	next := start(t, dir, localpg.Hasty())
	ask(t, next, "SELECT 1")
	if now := postmaster(t, dir); now == pid {
		t.Error("the server that was stopping is taken for a new one")
	}
}

func TestAServerThatSaysNothingIsClearedByTheNext(t *testing.T) {
	dir := folder(t)
	user := spawn(t, dir).ready()
	pid := postmaster(t, dir)
	user.kill()
	freeze(t, pid)
	next := start(t, dir, localpg.Hasty())
	ask(t, next, "SELECT 1")
	if now := postmaster(t, dir); now == pid {
		t.Error("the frozen server is taken for a new one")
	}
}

// Neither a fast nor an immediate shutdown reaches a frozen postmaster.
func TestTheLastLeavesAFrozenServer(t *testing.T) {
	dir := folder(t)
	last := start(t, dir, localpg.Hasty())
	ask(t, last, "SELECT 1")
	freeze(t, postmaster(t, dir))
	must(t, last.Close())
	if last := processes(t, dir); last != "" {
		t.Errorf("processes %s are left", last)
	}
	must(t, startAndAsk(t, dir))
}

// Many come and go while sessions die under them.
func TestManyLeaveDuringRecovery(t *testing.T) {
	dir := folder(t)
	for range rounds(t) {
		var others []*another
		for range 12 {
			others = append(others, spawn(t, dir))
		}
		killSession(t, start(t, dir))
		began := time.Now()
		var leaving sync.WaitGroup
		for _, other := range others {
			leaving.Go(func() {
				other.stdin.Close()
				if err := other.cmd.Wait(); err != nil {
					t.Error(err)
				}
			})
			leaving.Go(func() {
				if err := startAndAsk(t, dir); err != nil {
					t.Error(err)
				}
			})
		}
		leaving.Wait()
		if took := time.Since(began); took > time.Minute {
			t.Errorf("it took %v", took)
		}
	}
}

// freeze stops a process where it is; it goes on, if it still can, when the
// test ends.
func freeze(t *testing.T, pid int) {
	t.Helper()
	must(t, syscall.Kill(pid, syscall.SIGSTOP))
	t.Cleanup(func() { syscall.Kill(pid, syscall.SIGCONT) })
}

// child finds the process of a postmaster that has a name.
func child(t *testing.T, postmaster int, name string) int {
	t.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/task/%[1]d/children", postmaster))
	must(t, err)
	for _, pid := range strings.Fields(string(text)) {
		title, _ := os.ReadFile("/proc/" + pid + "/cmdline")
		if strings.Contains(string(title), name) {
			n, err := strconv.Atoi(pid)
			must(t, err)
			return n
		}
	}
	t.Fatalf("the server has no %s", name)
	return 0
}

// phase is what the server writes of itself.
func phase(t *testing.T, dir string) string {
	t.Helper()
	text, _ := os.ReadFile(filepath.Join(dir, "postgres", "postmaster.pid"))
	lines := strings.Split(string(text), "\n")
	if len(lines) < 8 {
		return ""
	}
	return strings.TrimSpace(lines[7])
}

// processes lists those that work in the cluster.
func processes(t *testing.T, dir string) (pids string) {
	t.Helper()
	all, err := filepath.Glob("/proc/[0-9]*/cwd")
	must(t, err)
	for _, cwd := range all {
		if where, _ := os.Readlink(cwd); where == filepath.Join(dir, "postgres") {
			pids += filepath.Base(filepath.Dir(cwd)) + " "
		}
	}
	return pids
}

// killSession kills a session that has written enough for the recovery to
// take a while, and waits until the server recovers.
func killSession(t *testing.T, server *localpg.Server) {
	t.Helper()
	db, err := sql.Open("postgres", server.URL(localpg.Database))
	must(t, err)
	defer db.Close()
	conn, err := db.Conn(t.Context())
	must(t, err)
	defer conn.Close()
	for _, statement := range []string{"CHECKPOINT", "DROP TABLE IF EXISTS bulk",
		"CREATE TABLE bulk (n int, text text)", "CREATE INDEX ON bulk (text)",
		"INSERT INTO bulk SELECT n, md5(n::text) || repeat('x', 200) FROM generate_series(1, 40000) n"} {
		_, err = conn.ExecContext(t.Context(), statement)
		must(t, err)
	}
	var pid int
	must(t, conn.QueryRowContext(t.Context(), "SELECT pg_backend_pid()").Scan(&pid))
	must(t, syscall.Kill(pid, syscall.SIGKILL))
	for began := time.Now(); time.Since(began) < time.Second; { // the recovery may be over before it is seen
		if pq.As(db.PingContext(t.Context()), pqerror.CannotConnectNow) != nil {
			return
		}
	}
}
