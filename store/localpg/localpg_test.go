package localpg_test

import (
	"bufio"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	_ "github.com/lib/pq"

	"detent/store/localpg"
)

// The test binary doubles as the other processes that share a server: run with
// this variable naming a data folder, it joins, says its URL, waits for its
// standard input to close and leaves.
const playUser = "LOCALPG_TEST_USER_OF"

func TestMain(m *testing.M) {
	if dir := os.Getenv(playUser); dir != "" {
		if err := use(dir); err != nil {
			fmt.Println("error:", err)
			os.Exit(1)
		}
		return
	}
	code := m.Run()
	os.RemoveAll(standing)
	os.Exit(code)
}

// standing is a data folder that the tests which leave its cluster whole use
// one after the other; to make a cluster takes longer than all else here.
var standing string

func folder(t *testing.T) string {
	t.Helper()
	if standing == "" {
		var err error
		standing, err = os.MkdirTemp("", "localpg-test-")
		must(t, err)
		must(t, os.Chmod(standing, 0o755)) // here the server can walk to its data
	}
	return standing
}

func use(dir string) error {
	server, err := localpg.Start(context.Background(), dir, localpg.Throwaway())
	if err != nil {
		return err
	}
	fmt.Println(server.URL(localpg.Database))
	if _, err := io.Copy(io.Discard, os.Stdin); err != nil {
		return err
	}
	return server.Close()
}

// another is another process that uses the server on a folder.
type another struct {
	t     *testing.T
	cmd   *exec.Cmd
	stdin io.Closer
	out   *bufio.Reader
}

func spawn(t *testing.T, dir string) *another {
	t.Helper()
	return command(t, os.Args[0], dir).begin()
}

func command(t *testing.T, program, dir string) *another {
	t.Helper()
	cmd := exec.Command(program)
	// The race detector would sleep a second at every exit.
	cmd.Env = append(os.Environ(), playUser+"="+dir, "GORACE=atexit_sleep_ms=0")
	cmd.Stderr = os.Stderr
	stdin, err := cmd.StdinPipe()
	must(t, err)
	stdout, err := cmd.StdoutPipe()
	must(t, err)
	return &another{t: t, cmd: cmd, stdin: stdin, out: bufio.NewReader(stdout)}
}

func (a *another) begin() *another {
	a.t.Helper()
	must(a.t, a.cmd.Start())
	a.t.Cleanup(func() { a.cmd.Process.Kill() }) // when it has not left
	return a
}

// ready waits until the process has joined, and checks what it was told.
func (a *another) ready() *another {
	a.t.Helper()
	line, err := a.out.ReadString('\n')
	if err != nil || !strings.HasPrefix(line, "postgres://") {
		a.t.Fatalf("the other process said %q, %v", line, err)
	}
	return a
}

func (a *another) leave() {
	a.t.Helper()
	a.stdin.Close()
	must(a.t, a.cmd.Wait())
}

func (a *another) kill() {
	a.t.Helper()
	must(a.t, a.cmd.Process.Kill())
	a.cmd.Wait() // reports the kill
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func start(t *testing.T, dir string) *localpg.Server {
	t.Helper()
	server, err := localpg.Start(t.Context(), dir)
	must(t, err)
	t.Cleanup(func() {
		if err := server.Close(); err != nil {
			t.Error(err)
		}
	})
	return server
}

// ask runs a query of one value and returns it.
func ask(t *testing.T, server *localpg.Server, query string) string {
	t.Helper()
	db, err := sql.Open("postgres", server.URL(localpg.Database))
	must(t, err)
	defer db.Close()
	var answer string
	must(t, db.QueryRow(query).Scan(&answer))
	return answer
}

func tell(t *testing.T, server *localpg.Server, statement string) {
	t.Helper()
	db, err := sql.Open("postgres", server.URL(localpg.Database))
	must(t, err)
	defer db.Close()
	_, err = db.Exec(statement)
	must(t, err)
}

// postmaster is the server's process number, 0 when the server is stopped.
func postmaster(t *testing.T, dir string) int {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "postgres", "postmaster.pid"))
	if errors.Is(err, os.ErrNotExist) {
		return 0
	}
	must(t, err)
	line, _, _ := strings.Cut(string(text), "\n")
	pid, err := strconv.Atoi(line)
	must(t, err)
	return pid
}

// stopped checks that the server shut down in order and that no process of it
// is left.
func stopped(t *testing.T, dir string) {
	t.Helper()
	if pid := postmaster(t, dir); pid != 0 {
		t.Errorf("the server (process %d) was left running", pid)
	}
	alive, err := os.Open(filepath.Join(dir, "alive"))
	must(t, err)
	defer alive.Close()
	if err := syscall.Flock(int(alive.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		t.Errorf("a process of the server is left: %v", err)
	}
}

// killServer kills the postmaster and waits until it is dead.
func killServer(t *testing.T, dir string) (pid int) {
	t.Helper()
	pid = postmaster(t, dir)
	must(t, syscall.Kill(pid, syscall.SIGKILL))
	for !errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) {
		runtime.Gosched() // this process started it, and buries it
	}
	return pid
}

// The folder lies where only the caller may enter, so that a server that
// stepped down from root cannot walk there, and its path is one that neither a
// socket nor a list of hosts could take.
func TestStartMakesADatabaseThatLasts(t *testing.T) {
	t.Parallel()
	closed := t.TempDir()
	must(t, os.Chmod(closed, 0o700))
	dir := filepath.Join(closed, `a, "b" 'c' [é %2f`, strings.Repeat("long/", 30))
	first := start(t, dir)
	tell(t, first, `CREATE TABLE kept AS SELECT 'ärgerlich'::text AS word`)
	for setting, want := range map[string]string{
		"server_encoding": "UTF8", "lc_ctype": "C.UTF-8", "TimeZone": "UTC",
		"fsync": "on", "synchronous_commit": "on", "full_page_writes": "on",
	} {
		if got := ask(t, first, "SHOW "+setting); got != want {
			t.Errorf("%s is %q, want %q", setting, got, want)
		}
	}
	other := spawn(t, dir).ready()
	must(t, first.Close())
	must(t, first.Close()) // once more is no harm
	other.leave()
	stopped(t, dir)

	again := start(t, dir)
	if got := ask(t, again, "SELECT upper(word) FROM kept"); got != "ÄRGERLICH" {
		t.Errorf("kept %q", got)
	}
	info, err := os.Stat(closed)
	must(t, err)
	if info.Mode().Perm() != 0o700 {
		t.Errorf("the caller's folder was opened to mode %v", info.Mode())
	}
}

// Root's tests play the ordinary user too; an ordinary user's play no other.
func TestAnOrdinaryUser(t *testing.T) {
	t.Parallel()
	if os.Geteuid() != 0 {
		must(t, start(t, t.TempDir()).Close())
		return
	}
	nobody, err := user.Lookup("nobody")
	must(t, err)
	uid, err := strconv.Atoi(nobody.Uid)
	must(t, err)
	gid, err := strconv.Atoi(nobody.Gid)
	must(t, err)
	dir := t.TempDir()
	must(t, os.Chmod(filepath.Dir(dir), 0o755))
	must(t, os.Chown(dir, uid, gid))
	program, err := os.ReadFile(os.Args[0])
	must(t, err)
	copied := filepath.Join(dir, "program")
	must(t, os.WriteFile(copied, program, 0o755))

	ordinary := command(t, copied, dir)
	ordinary.cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}
	ordinary.begin().ready()
	owner, err := os.Stat(filepath.Join(dir, "postgres"))
	must(t, err)
	if got := owner.Sys().(*syscall.Stat_t).Uid; int(got) != uid {
		t.Errorf("the cluster belongs to %d, not to %d", got, uid)
	}
	root := start(t, dir) // root may join
	ordinary.leave()
	must(t, root.Close())
	stopped(t, dir)
	must(t, start(t, dir).Close()) // and start it for them
}

func TestStartIsQuick(t *testing.T) {
	dir := folder(t)
	must(t, start(t, dir).Close())
	began := time.Now()
	cold := start(t, dir)
	took := time.Since(began)
	began = time.Now()
	warm := start(t, dir)
	joined := time.Since(began)
	must(t, warm.Close())
	began = time.Now()
	must(t, cold.Close())
	t.Logf("cold start %v, join %v, stop %v", took, joined, time.Since(began))
	// The bounds are wide: other packages' tests run beside this one.
	if took > 5*time.Second || joined > 500*time.Millisecond {
		t.Errorf("a cold start took %v, joining %v", took, joined)
	}
}

func TestTheServerIsPrivate(t *testing.T) {
	dir := folder(t)
	server := start(t, dir)
	if answer := ask(t, server, "SELECT current_user"); answer != "postgres" {
		t.Errorf("the user is %s", answer)
	}
	if answer := ask(t, server, "SHOW listen_addresses"); answer != "" {
		t.Errorf("the server listens on %s", answer)
	}
	info, err := os.Stat(filepath.Join(dir, "postgres"))
	must(t, err)
	if info.Mode().Perm() != 0o700 {
		t.Errorf("the folder of the data and the socket has mode %v", info.Mode())
	}
	pid := postmaster(t, dir)
	owner, err := os.Stat(fmt.Sprintf("/proc/%d", pid))
	must(t, err)
	if owner.Sys().(*syscall.Stat_t).Uid == 0 {
		t.Error("the server runs as root")
	}
	// A Ctrl-C goes to the process group in the terminal's foreground.
	group, err := syscall.Getpgid(pid)
	must(t, err)
	if group != pid {
		t.Errorf("the server is in process group %d, not in its own", group)
	}
}

func TestTheLastToLeaveStopsTheServer(t *testing.T) {
	dir := folder(t)
	first := spawn(t, dir).ready()
	pid := postmaster(t, dir)
	second := spawn(t, dir).ready()
	third := start(t, dir)
	first.leave()
	third.Close()
	if now := postmaster(t, dir); now != pid {
		t.Errorf("the server was %d and is %d while one still uses it", pid, now)
	}
	second.leave()
	stopped(t, dir)
}

func TestManyAtOnceOnAFreshFolder(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "fresh")
	var others []*another
	for range 4 {
		others = append(others, spawn(t, dir))
	}
	for _, other := range others {
		other.ready()
	}
	var leaving sync.WaitGroup
	for _, other := range others {
		leaving.Go(func() { other.stdin.Close(); other.cmd.Wait() })
	}
	leaving.Wait()
	stopped(t, dir)
}

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

func TestRefusals(t *testing.T) {
	t.Parallel()
	tests := map[string]struct {
		files map[string]string
		want  []string
	}{
		"another major version": {
			files: map[string]string{"postgres/PG_VERSION": "11\n"},
			want:  []string{"made by PostgreSQL 11", "apt-get install postgresql-11", "DETENT_DATA"},
		},
		"a version of long ago": {
			files: map[string]string{"postgres/PG_VERSION": "9.6\n"},
			want:  []string{"9.6", "move it away"},
		},
		"something else": {
			files: map[string]string{"postgres/holiday.txt": "sun"},
			want:  []string{"not a PostgreSQL database", "move it away"},
		},
		"a file in the way": {
			files: map[string]string{"postgres": ""},
			want:  []string{"not a PostgreSQL database"},
		},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			for name, text := range test.files {
				path := filepath.Join(dir, name)
				must(t, os.MkdirAll(filepath.Dir(path), 0o700))
				must(t, os.WriteFile(path, []byte(text), 0o600))
			}
			server, err := localpg.Start(t.Context(), dir, localpg.Throwaway())
			if err == nil {
				server.Close()
				t.Fatal("it started")
			}
			for _, want := range test.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("%q does not say %q", err, want)
				}
			}
			if strings.Contains(err.Error(), "\n") {
				t.Errorf("%q is more than a sentence", err)
			}
			for name, text := range test.files {
				kept, err := os.ReadFile(filepath.Join(dir, name))
				if err != nil || string(kept) != text {
					t.Errorf("%s was not left alone: %q, %v", name, kept, err)
				}
			}
		})
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

func TestACancelledStartLeavesNothing(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := localpg.Start(ctx, dir); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	left, err := filepath.Glob(filepath.Join(dir, "postgres*"))
	must(t, err)
	if len(left) > 0 {
		t.Errorf("it left %v", left)
	}
}
