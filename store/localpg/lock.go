package localpg

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
	"time"
)

const (
	shared    = syscall.LOCK_SH
	exclusive = syscall.LOCK_EX
)

// lock takes the lock on the file at path, making the file when it is missing,
// and waits for it as long as ctx lets it. Closing the file gives the lock up.
func lock(ctx context.Context, path string, how int) (*os.File, error) {
	file, err := openLock(path)
	if err != nil {
		return nil, err
	}
	err = poll(ctx, func() (bool, error) { return tryLock(file, how) })
	if err != nil {
		file.Close()
		return nil, err
	}
	return file, nil
}

func openLock(path string) (*os.File, error) {
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if errors.Is(err, fs.ErrPermission) {
		return nil, fmt.Errorf("the data folder belongs to another user: %w", err)
	}
	return file, err
}

// tryLock takes the lock on file, or replaces the one that is held, without
// waiting. It reports whether it got it.
func tryLock(file *os.File, how int) (bool, error) {
	for {
		err := syscall.Flock(int(file.Fd()), how|syscall.LOCK_NB)
		switch {
		case err == nil:
			return true, nil
		case errors.Is(err, syscall.EWOULDBLOCK):
			return false, nil
		case !errors.Is(err, syscall.EINTR):
			return false, fmt.Errorf("cannot lock %s: %w", file.Name(), err)
		}
	}
}

// poll asks until the answer is yes, an error comes up or ctx ends: often at
// first, and less often the longer it takes.
func poll(ctx context.Context, ask func() (bool, error)) error {
	const often, seldom = 2 * time.Millisecond, 50 * time.Millisecond
	began := time.Now()
	pause := time.NewTimer(0)
	defer pause.Stop()
	for {
		if yes, err := ask(); yes || err != nil {
			return err
		}
		pause.Reset(min(max(often, time.Since(began)/8), seldom))
		select {
		case <-ctx.Done():
			return context.Cause(ctx)
		case <-pause.C:
		}
	}
}
