package localpg

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"syscall"
	"time"
)

// waits are how long a server is given before the next thing is done to it. On
// a disk that others keep busy, writing everything down has taken 15 seconds.
type waits struct {
	fast      time.Duration // to end its sessions and write everything down
	immediate time.Duration // to end its children; it kills them itself after 5 s
	killed    time.Duration // to be buried
	stuck     time.Duration // stopping, with nobody left who waits for it
	silent    time.Duration // without an answer
	answer    time.Duration // to answer once
}

var usualWaits = waits{fast: 30 * time.Second, immediate: 15 * time.Second, killed: 10 * time.Second,
	stuck: 10 * time.Second, silent: 30 * time.Second, answer: 5 * time.Second}

// stop ends the server and waits until no process of it is left. The caller
// holds the door, and nobody has a lease.
func (c cluster) stop() error {
	if c.gone() {
		return nil
	}
	if c.state() == ready {
		return c.end(fast)
	}
	// A server that is asked for a fast shutdown while it recovers may never
	// end: Postgres 15 then waits for a checkpointer that it has not told. It
	// has nothing to write down and recovers at the next start.
	return c.end(immediate)
}

// The steps of ending a server, and what its postmaster is sent.
const (
	fast      = syscall.SIGINT
	immediate = syscall.SIGQUIT
	kill      = syscall.SIGKILL
)

// end ends the server, from the step given on to the harder ones. None of them
// loses what was committed. A smart shutdown is not among them: it would wait
// for sessions, and those who may have some have left.
func (c cluster) end(from syscall.Signal) error {
	steps := []struct {
		how  syscall.Signal
		wait time.Duration
	}{{fast, c.waits.fast}, {immediate, c.waits.immediate}, {kill, c.waits.killed}}
	for _, step := range steps[slices.Index([]syscall.Signal{fast, immediate, kill}, from):] {
		if err := c.signal(step.how); err != nil {
			return err
		}
		if ended, err := c.ends(step.wait); ended || err != nil {
			return err
		}
	}
	return fmt.Errorf("PostgreSQL does not stop, even when killed: its processes are %v; what it says stands in %s", c.processes(), c.log())
}

// ends reports whether the last process of the server is gone within the time.
func (c cluster) ends(within time.Duration) (bool, error) {
	ctx, cancel := context.WithTimeout(context.Background(), within)
	defer cancel()
	err := poll(ctx, func() (bool, error) { return c.gone(), nil })
	if errors.Is(err, context.DeadlineExceeded) {
		return false, nil
	}
	return err == nil, err
}

// signal sends a signal to the postmaster, and a kill to its children too:
// they outlive it while they are busy.
func (c cluster) signal(how syscall.Signal) error {
	meant := c.processes()
	if how != kill {
		pid, _ := c.postmaster()
		meant = slices.DeleteFunc(meant, func(p int) bool { return p != pid })
	}
	for _, pid := range meant {
		if err := syscall.Kill(pid, how); err != nil && !errors.Is(err, syscall.ESRCH) {
			return fmt.Errorf("cannot stop PostgreSQL (process %d): %w", pid, err)
		}
	}
	return nil
}

// processes lists the processes of the server that this package started: those
// that work in the cluster and hold the lock alive. Where the kernel does not
// tell, it is the postmaster alone, while the lock is held.
func (c cluster) processes() (pids []int) {
	if runtime.GOOS != "linux" {
		if pid, _ := c.postmaster(); pid > 0 && !c.gone() {
			pids = append(pids, pid)
		}
		return pids
	}
	inside, _ := os.ReadDir("/proc")
	for _, entry := range inside {
		pid, err := strconv.Atoi(entry.Name())
		if err != nil {
			continue
		}
		of := filepath.Join("/proc", entry.Name())
		cwd, _ := os.Readlink(filepath.Join(of, "cwd"))
		lock, _ := os.Readlink(filepath.Join(of, "fd", keptLock))
		if cwd == c.data() && lock == c.path("alive") {
			pids = append(pids, pid)
		}
	}
	return pids
}
