//go:build drill

package main

import (
	"context"
	"database/sql"
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"
)

// drillServer is a Postgres server of the drill's own, made with Debian's
// programs and reached over loopback.
type drillServer struct {
	testing.TB
	programs string // the folder of initdb and the others
	dir      string
	name     string
	port     string
	account  *syscall.Credential // whom it runs as; nil for whoever runs the drill
	dead     chan struct{}       // closed when the postmaster has ended
	pid      int
}

// serverPrograms finds the newest installed server programs.
func serverPrograms(t testing.TB) string {
	t.Helper()
	found, err := filepath.Glob("/usr/lib/postgresql/*/bin")
	if err != nil || len(found) == 0 {
		t.Fatalf("the drill needs Debian's Postgres programs under /usr/lib/postgresql (apt-get install postgresql): %v", err)
	}
	return found[len(found)-1]
}

// newDrillServer names a server; it has no data yet.
func newDrillServer(t testing.TB, name string) *drillServer {
	t.Helper()
	dir, err := os.MkdirTemp("/tmp", "detent-drill-")
	drillMust(t, err)
	_, port, err := net.SplitHostPort(drillAddress(t))
	drillMust(t, err)
	s := &drillServer{TB: t, programs: serverPrograms(t), dir: dir, name: name, port: port}
	if os.Geteuid() == 0 { // Postgres refuses to run as root
		owner, err := user.Lookup("postgres")
		drillMust(t, err)
		uid, _ := strconv.Atoi(owner.Uid) // decimal on every Unix
		gid, _ := strconv.Atoi(owner.Gid)
		s.account = &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}
		drillMust(t, os.Chown(dir, uid, gid))
	}
	t.Cleanup(func() {
		s.kill()
		if t.Failed() {
			text, _ := os.ReadFile(s.path("log"))
			t.Logf("the %s says, at last:\n%s", name, text[max(0, len(text)-2000):])
		}
		os.RemoveAll(dir)
	})
	return s
}

func (s *drillServer) path(name string) string { return filepath.Join(s.dir, name) }
func (s *drillServer) address() string         { return "127.0.0.1:" + s.port }

// command prepares one of the server programs.
func (s *drillServer) command(program string, args ...string) *exec.Cmd {
	cmd := exec.Command(filepath.Join(s.programs, program), args...)
	cmd.Dir = s.dir
	cmd.Env = []string{"PATH=/usr/bin:/bin", "LC_ALL=C"}
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Credential: s.account}
	return cmd
}

// do runs one of the server programs to its end.
func (s *drillServer) do(program string, args ...string) {
	s.Helper()
	if said, err := s.command(program, args...).CombinedOutput(); err != nil {
		s.Fatalf("%s: %v\n%s", program, err, said)
	}
}

// create makes an empty cluster.
func (s *drillServer) create() *drillServer {
	s.Helper()
	s.do("initdb", "-D", s.path("data"), "-U", "postgres", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8")
	return s
}

// copyOf makes a standby of another server.
func (s *drillServer) copyOf(primary *drillServer) *drillServer {
	s.Helper()
	s.do("pg_basebackup", "-D", s.path("data"), "-d", "host=127.0.0.1 user=postgres port="+primary.port, "-R", "-X", "stream", "-c", "fast")
	return s
}

// start runs the server and waits until it answers. What a killed server left
// is gone by then, or starting is tried again.
func (s *drillServer) start() *drillServer {
	s.Helper()
	for end := time.Now().Add(time.Minute); ; time.Sleep(50 * time.Millisecond) {
		s.launch()
		for s.alive() {
			if s.ping() == nil {
				return s
			}
			if time.Now().After(end) {
				s.Fatalf("the %s does not answer", s.name)
			}
			time.Sleep(20 * time.Millisecond)
		}
		if time.Now().After(end) {
			s.Fatalf("the %s does not start", s.name)
		}
	}
}

func (s *drillServer) launch() {
	s.Helper()
	log, err := os.OpenFile(s.path("log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	drillMust(s, err)
	defer log.Close()
	cmd := s.command("postgres", "-D", s.path("data"), "-c", "listen_addresses=127.0.0.1", "-c", "port="+s.port,
		"-c", "unix_socket_directories="+s.dir, "-c", "cluster_name="+s.name, "-c", "max_connections=100", "-c", "shared_buffers=32MB")
	cmd.Stdout, cmd.Stderr = log, log
	drillMust(s, cmd.Start())
	s.pid, s.dead = cmd.Process.Pid, make(chan struct{})
	go func(dead chan struct{}) { cmd.Wait(); close(dead) }(s.dead)
}

func (s *drillServer) alive() bool {
	if s.dead == nil {
		return false
	}
	select {
	case <-s.dead:
		return false
	default:
		return true
	}
}

func (s *drillServer) ping() error {
	db, err := sql.Open("postgres", s.url("postgres"))
	if err != nil {
		return err
	}
	defer db.Close()
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	return db.PingContext(ctx)
}

func (s *drillServer) url(database string) string {
	return fmt.Sprintf("postgres://postgres@%s/%s?sslmode=disable", s.address(), database)
}

// admin is a pool on the server, as its superuser.
func (s *drillServer) admin(database string) *sqlx.DB {
	s.Helper()
	db, err := sqlx.Open("postgres", s.url(database))
	drillMust(s, err)
	s.Cleanup(func() { db.Close() })
	return db
}

// processes are the server's: the postmaster, then its children.
func (s *drillServer) processes() []int { return append([]int{s.pid}, childrenOf(s.pid)...) }

// childrenOf are a process's children, as the kernel lists them for each of its
// threads.
func childrenOf(pid int) (children []int) {
	lists, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/children", pid)) // the pattern is well formed
	for _, list := range lists {
		text, _ := os.ReadFile(list) // none of a process that has ended
		for word := range strings.FieldsSeq(string(text)) {
			if child, err := strconv.Atoi(word); err == nil {
				children = append(children, child)
			}
		}
	}
	return children
}

// freeze stops all processes of the server where they are: the kernel still takes
// connections for it, and nothing answers them.
func (s *drillServer) freeze() {
	for _, pid := range s.processes() {
		syscall.Kill(pid, syscall.SIGSTOP) // one that has just ended needs none
	}
}

// kill ends every process of the server without a word, as a loss of power
// does.
func (s *drillServer) kill() {
	if !s.alive() {
		return
	}
	for _, pid := range s.processes() {
		syscall.Kill(pid, syscall.SIGKILL) // one that is gone already need not be killed
	}
	<-s.dead
}

// pair makes a primary and its synchronous standby, with an empty database for
// the program.
func pair(t testing.TB) (primary, standby *drillServer) {
	t.Helper()
	primary = newDrillServer(t, "primary").create().start()
	admin := primary.admin("postgres")
	admin.MustExec(`create database detent`)
	standby = newDrillServer(t, "standby").copyOf(primary).start()
	admin.MustExec(`alter system set synchronous_standby_names = 'standby'`)
	admin.MustExec(`select pg_reload_conf()`)
	drillAwait(t, "the standby to be synchronous", 20*time.Second, func() bool {
		var synchronous bool
		drillMust(t, admin.Get(&synchronous, `select exists (select from pg_stat_replication where sync_state = 'sync')`))
		return synchronous
	})
	return primary, standby
}

func drillMust(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// drillAwait waits until something holds.
func drillAwait(t testing.TB, what string, patience time.Duration, holds func() bool) {
	t.Helper()
	for end := time.Now().Add(patience); !holds(); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("waited %v in vain for %s", patience, what)
		}
	}
}

// drillAddress is an address on this machine that nobody listens at.
func drillAddress(t testing.TB) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	drillMust(t, err)
	defer l.Close()
	return l.Addr().String()
}
