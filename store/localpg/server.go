package localpg

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// run sees to it that the server takes connections. The caller holds the door
// and a lease.
func (c cluster) run(ctx context.Context, door *os.File) error {
	var child *process
	var last state
	since := time.Now() // when it came into that state
	err := poll(ctx, func() (bool, error) {
		now := c.state()
		if now == ready {
			return true, nil
		}
		if now != last {
			last, since = now, time.Now()
		}
		if child != nil {
			return false, child.failure()
		}
		alive, err := openLock(c.path("alive"))
		if err != nil {
			return false, err
		}
		defer alive.Close()
		// When the lock is taken, a server is starting, recovering or winding
		// down: it will answer, or be gone, or it is stuck.
		free, err := tryLock(alive, exclusive)
		if free {
			child, err = c.launch(ctx, door, alive)
		} else if err == nil && c.stuck(now, time.Since(since)) {
			alive.Close()
			err = c.end(immediate)
		}
		return false, err
	})
	if err != nil && child != nil {
		err = errors.Join(err, c.end(immediate)) // it is not ready, and has nothing to lose
	}
	return err
}

// stuck judges whether a server has been in a state for longer than one that
// is well. The door is held, so nobody waits for one that is stopping, and a
// killed one that says nothing has children that do not notice. A recovery may
// take its time.
func (c cluster) stuck(now state, lasted time.Duration) bool {
	return now == stopping && lasted > c.waits.stuck || now == silent && lasted > c.waits.silent
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
	log, said, err := c.openLog()
	if err != nil {
		return nil, err
	}
	defer log.Close()
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
