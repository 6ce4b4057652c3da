package console

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"detent/bot"
	"detent/tuning"
)

func TestOnlyOrdinaryFilesAreRead(t *testing.T) {
	d, e, _ := desk(t)
	pipe := filepath.Join(t.TempDir(), "pipe.csv")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(t.TempDir(), "link.csv")
	if err := os.Symlink(pipe, link); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{pipe, link, "/dev/zero", "/dev/tty", t.TempDir()} {
		r := d.Ask(t.Context(), "1", "/damper curve axle:front file:"+bot.Quote(path))
		if r.Problem == nil || r.Problem.Kind != tuning.Invalid || !strings.Contains(r.Problem.Say, "not a folder, a pipe or a device") {
			t.Errorf("%s: %+v", path, r)
		}
	}
	if len(e.asks) != 0 {
		t.Errorf("asked %+v", e.asks)
	}
}

func TestReadingAFileIsGivenUp(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	for { // a file that is read before anybody looks at ctx is read
		if _, err := ReadFile(ctx, os.Args[0], 100); err != nil {
			if !strings.Contains(err.Error(), "given up") {
				t.Error(err)
			}
			return
		}
	}
}
