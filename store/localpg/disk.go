package localpg

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// roomToStart is what Postgres must be able to write when it starts, in bytes:
// a segment of its log of changes.
const roomToStart = 16 << 20

// programError is the failure of a server program. What it said of the reason
// may be lost: on a full disk there is no room for its log either.
type programError struct{ error }

func (e programError) Unwrap() error { return e.error }

// explain turns an error that a full disk caused into one that names the disk.
// Others it returns as they are.
func explain(err error, folder string) error {
	if err == nil || !causedByFullDisk(err, folder) {
		return err
	}
	return fmt.Errorf("the disk at %s is full, so the private database in %s cannot work: make room on that disk, or choose another data folder (DETENT_DATA), and try again (%w)",
		disk(folder), folder, err)
}

func causedByFullDisk(err error, folder string) bool {
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) {
		return true
	}
	if _, program := errors.AsType[programError](err); !program {
		return false
	}
	for _, cause := range []error{syscall.ENOSPC, syscall.EDQUOT} {
		if strings.Contains(strings.ToLower(err.Error()), cause.Error()) {
			return true
		}
	}
	_, full := FullDisk(folder)
	return full
}

// FullDisk returns where the disk of a folder is mounted, and whether it has too
// little room left for a server to work.
func FullDisk(folder string) (mounted string, full bool) {
	var room syscall.Statfs_t
	err := syscall.Statfs(folder, &room)
	return disk(folder), err == nil && uint64(room.Bavail)*uint64(room.Bsize) < roomToStart
}

// disk is the folder that the disk of a folder is mounted on. A folder that is
// not there is on the disk of the one above it.
func disk(folder string) string {
	for folder != "/" {
		above := filepath.Dir(folder)
		if here, err := deviceOf(folder); err == nil {
			if there, err := deviceOf(above); err == nil && here != there {
				break
			}
		}
		folder = above
	}
	return folder
}

func deviceOf(path string) (uint64, error) {
	info, err := os.Stat(path)
	if err != nil {
		return 0, err
	}
	return uint64(info.Sys().(*syscall.Stat_t).Dev), nil
}
