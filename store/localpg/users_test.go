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
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"

	_ "github.com/lib/pq"

	"detent/store/localpg"
	"detent/tuning/tuningtest"
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

// must ends the test at an error.
var must = tuningtest.Must

func start(t *testing.T, dir string, options ...localpg.Option) *localpg.Server {
	t.Helper()
	server, err := localpg.Start(t.Context(), dir, options...)
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
		said, _ := os.ReadFile(filepath.Join(dir, "postgres.log"))
		t.Errorf("the server (process %d) was left running; its log ends:\n%s", pid, said[max(0, len(said)-2000):])
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
