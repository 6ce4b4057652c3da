package localpg

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// logLimit is the size in bytes past which the log begins anew at a start.
const logLimit = 1 << 20

// run sees to it that the server takes connections. The caller holds the door
// and a lease.
func (c cluster) run(ctx context.Context, door *os.File) error {
	var child *process
	err := poll(ctx, func() (bool, error) {
		if c.answers() {
			return true, nil
		}
		if child != nil {
			return false, child.failure()
		}
		alive, err := openLock(c.path("alive"))
		if err != nil {
			return false, err
		}
		defer alive.Close()
		// When the lock is taken, a server that nobody uses is starting,
		// recovering or winding down: it will answer, or be gone.
		free, err := tryLock(alive, exclusive)
		if free {
			child, err = c.launch(ctx, door, alive)
		}
		return false, err
	})
	if err != nil && child != nil {
		child.abandon()
	}
	return err
}

// launch starts the server, making the cluster first when there is none. The
// server takes the lock alive over.
func (c cluster) launch(ctx context.Context, door, alive *os.File) (*process, error) {
	made, err := c.version()
	if err != nil {
		return nil, err
	}
	a, err := serverAccount(c.data())
	if err != nil {
		return nil, err
	}
	sets := installed()
	var p programs
	if made == 0 {
		if p, err = newest(sets); err == nil {
			err = c.create(ctx, p, a, door)
		}
	} else if p, err = matching(sets, made, c.data()); err == nil {
		err = c.clear()
	}
	if err != nil {
		return nil, err
	}
	return c.start(p, a, alive)
}

// clear removes what a server that died left in the cluster, where Postgres
// would stumble over it. The caller holds the lock alive, so no server that
// this package started is left.
//
// After a reboot the number in postmaster.pid may belong to any process, and a
// dead server that nobody has buried still bears it; Postgres would take either
// for its server and refuse to start. The number of its own parent it takes for
// stale, and then it judges by the shared memory that the file names further
// down.
func (c cluster) clear() error {
	text, err := os.ReadFile(c.pidFile())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	number, rest, _ := strings.Cut(string(text), "\n")
	if _, err := strconv.Atoi(number); err != nil {
		os.Remove(c.pidFile()) // cut off by a loss of power, or not there
	} else if worksIn, _ := os.Readlink("/proc/" + number + "/cwd"); worksIn == c.data() {
		return fmt.Errorf("a PostgreSQL server that was started by hand (process %s) works on %s: stop it first", number, c.data())
	} else if err := os.WriteFile(c.pidFile(), fmt.Appendf(nil, "%d\n%s", os.Getpid(), rest), 0o600); err != nil {
		return err
	}
	for _, name := range []string{".s.PGSQL." + port, ".s.PGSQL." + port + ".lock"} {
		if err := os.Remove(filepath.Join(c.data(), name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

func (c cluster) start(p programs, a account, alive *os.File) (*process, error) {
	data, err := os.Open(c.data())
	if err != nil {
		return nil, err
	}
	defer data.Close()
	log, err := os.OpenFile(c.log(), os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		return nil, err
	}
	defer log.Close()
	info, err := log.Stat()
	if err != nil {
		return nil, err
	}
	said := info.Size()
	if said > logLimit {
		said = 0
		if err := log.Truncate(0); err != nil {
			return nil, err
		}
	}
	// The server outlives the start, so the start's context does not end it.
	cmd, err := a.command(context.Background(), data, alive, p.postgres(), c.settings()...)
	if err != nil {
		return nil, err
	}
	cmd.Stdout, cmd.Stderr = log, log
	if err := cmd.Start(); err != nil {
		return nil, fmt.Errorf("cannot start PostgreSQL: %w", err)
	}
	child := &process{cmd: cmd, log: c.log(), said: said, exited: make(chan struct{})}
	go func() {
		cmd.Wait() // what went wrong stands in the log
		close(child.exited)
	}()
	return child, nil
}

// process is the server as the one who started it sees it.
type process struct {
	cmd    *exec.Cmd
	log    string
	said   int64 // the length of the log before the start
	exited chan struct{}
}

// failure is nil while the process lives, and then says why it died.
func (p *process) failure() error {
	select {
	case <-p.exited:
	default:
		return nil
	}
	text, err := os.ReadFile(p.log)
	if err != nil {
		return err
	}
	why := complaint(text[min(p.said, int64(len(text))):])
	if why == "" {
		why = p.cmd.ProcessState.String() // killed, say
	}
	return fmt.Errorf("PostgreSQL did not start: %s (more in %s)", why, p.log)
}

// abandon ends a server that is not ready yet; it has nothing to lose.
func (p *process) abandon() {
	p.cmd.Process.Signal(syscall.SIGQUIT) // fails when it is gone already
	<-p.exited
}

// answers reports whether the server is ready and serves its socket. Only an
// answer proves it: a connection alone is also granted by the last children of
// a server that was killed.
func (c cluster) answers() bool {
	if _, ready := c.postmaster(); !ready {
		return false
	}
	conn, err := net.Dial("unix", filepath.Join(c.sockets, ".s.PGSQL."+port))
	if err != nil {
		return false
	}
	defer conn.Close()
	conn.SetDeadline(time.Now().Add(5 * time.Second))
	// The protocol's SSLRequest: its length, and a code made of 1234 and 5679.
	// One byte answers it, yes or no.
	if _, err := conn.Write([]byte{0, 0, 0, 8, 0x04, 0xd2, 0x16, 0x2f}); err != nil {
		return false
	}
	_, err = conn.Read(make([]byte, 1))
	return err == nil
}

// gone reports whether no process of the server is left.
func (c cluster) gone() bool {
	alive, err := openLock(c.path("alive"))
	if err != nil {
		return false
	}
	defer alive.Close()
	free, err := tryLock(alive, shared)
	return err == nil && free
}

func (c cluster) pidFile() string { return filepath.Join(c.data(), "postmaster.pid") }

// postmaster reads what the server writes of itself: its process number in the
// first line, its state in the eighth.
func (c cluster) postmaster() (pid int, ready bool) {
	text, err := os.ReadFile(c.pidFile())
	if err != nil {
		return 0, false
	}
	lines := strings.Split(string(text), "\n")
	if len(lines) < 8 {
		return 0, false
	}
	pid, err = strconv.Atoi(lines[0])
	return pid, err == nil && strings.TrimSpace(lines[7]) == "ready"
}

// release gives a lease up and stops the server if it was the last. The caller
// holds the door.
func (c cluster) release(lease *os.File) error {
	defer lease.Close()
	last, err := tryLock(lease, exclusive)
	if err == nil && last {
		err = c.stop()
	}
	return errors.Join(err, c.forgetShortName())
}

// stop asks the server to end its sessions and shut down, and waits for it.
func (c cluster) stop() error {
	if !c.answers() {
		return nil
	}
	pid, _ := c.postmaster()
	if err := syscall.Kill(pid, syscall.SIGINT); err != nil && !errors.Is(err, syscall.ESRCH) {
		return fmt.Errorf("cannot stop PostgreSQL: %w", err)
	}
	ctx, cancel := context.WithTimeoutCause(context.Background(), patience,
		fmt.Errorf("PostgreSQL did not stop within %v; what it says stands in %s", patience, c.log()))
	defer cancel()
	alive, err := lock(ctx, c.path("alive"), exclusive)
	if err != nil {
		return err
	}
	return alive.Close()
}
