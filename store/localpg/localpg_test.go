package localpg_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"detent/store/localpg"
)

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
		"server_encoding": "UTF8", "TimeZone": "UTC",
		"fsync": "on", "synchronous_commit": "on", "full_page_writes": "on",
	} {
		if got := ask(t, first, "SHOW "+setting); got != want {
			t.Errorf("%s is %q, want %q", setting, got, want)
		}
	}
	if got := ask(t, first, "SELECT datctype FROM pg_database WHERE datname = current_database()"); got != "C.UTF-8" {
		t.Errorf("the kind of a letter is judged by %q", got)
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
