package localpg

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"runtime"
	"strconv"
	"syscall"
)

// account is the system user that the server runs as. Postgres refuses to run
// as root, so a program run by root steps down for it.
type account struct {
	uid, gid int
	steps    bool // down from root
}

// serverAccount is the owner of the cluster; for a new one the user who runs
// the program, or, when that is root, a user that is there for such a purpose.
func serverAccount(data string) (account, error) {
	me := account{uid: os.Geteuid(), gid: os.Getegid()}
	owner, err := ownerOf(data)
	switch {
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return account{}, err
	case err == nil && me.uid != 0 && owner.uid != me.uid:
		return account{}, fmt.Errorf("the database in %s belongs to another user (number %d): run the program as that user, or choose another data folder (DETENT_DATA)", data, owner.uid)
	case me.uid != 0:
		return me, nil
	case err == nil && owner.uid != 0:
		return account{uid: owner.uid, gid: owner.gid, steps: true}, nil
	}
	for _, name := range []string{"postgres", "_postgres", "nobody"} {
		if found, err := user.Lookup(name); err == nil {
			uid, _ := strconv.Atoi(found.Uid) // decimal on every Unix
			gid, _ := strconv.Atoi(found.Gid)
			return account{uid: uid, gid: gid, steps: true}, nil
		}
	}
	return account{}, errors.New("PostgreSQL does not run as root, and this machine has neither a user postgres nor a user nobody: add a user postgres, or run the program as another user")
}

func ownerOf(path string) (account, error) {
	info, err := os.Stat(path)
	if err != nil {
		return account{}, err
	}
	stat := info.Sys().(*syscall.Stat_t)
	return account{uid: int(stat.Uid), gid: int(stat.Gid)}, nil
}

// own hands a file or folder to the account.
func (a account) own(path string) error {
	if !a.steps {
		return nil
	}
	return os.Lchown(path, a.uid, a.gid)
}

// reaches reports whether the account may walk down to the folder.
func (a account) reaches(folder string) bool {
	if !a.steps {
		return true // it is the user who walked there to make it
	}
	for {
		info, err := os.Stat(folder)
		if err != nil {
			return false
		}
		stat := info.Sys().(*syscall.Stat_t)
		pass := fs.FileMode(0o001)
		switch {
		case int(stat.Uid) == a.uid:
			pass = 0o100
		case int(stat.Gid) == a.gid:
			pass = 0o010
		}
		if info.Mode()&pass == 0 {
			return false
		}
		parent := filepath.Dir(folder)
		if parent == folder {
			return true
		}
		folder = parent
	}
}

// keptLock is the number that a server program knows its lock by.
const keptLock = "4"

// command prepares a server program to work on data, an open folder. It gets
// the account's rights, a session of its own, so that a Ctrl-C meant for the
// program does not reach it, and nothing of the caller's environment. The
// lock keep stays held while it or a child of it lives.
//
// When root's program works below a folder that only root may enter (/root,
// say), the server cannot walk to its data. It is then handed the folder,
// open, and knows it by the name the kernel gives to an open file.
func (a account) command(ctx context.Context, data, keep *os.File, program string, args ...string) (*exec.Cmd, error) {
	name := data.Name()
	if !a.reaches(name) {
		if runtime.GOOS != "linux" {
			return nil, fmt.Errorf("PostgreSQL does not run as root, and no other user may enter the folders above %s: choose another data folder (DETENT_DATA)", name)
		}
		name = "/proc/self/fd/3" // the first of ExtraFiles
	}
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.ExtraFiles = []*os.File{data, keep} // numbered from 3: see keptLock
	cmd.Dir = "/"
	cmd.Env = []string{"PATH=/usr/local/bin:/usr/bin:/bin", "LC_ALL=C", "PGDATA=" + name}
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true}
	if a.steps {
		cmd.SysProcAttr.Credential = &syscall.Credential{Uid: uint32(a.uid), Gid: uint32(a.gid)}
	}
	cmd.Cancel = func() error { return syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) }
	return cmd, nil
}
