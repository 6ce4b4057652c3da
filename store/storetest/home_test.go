package storetest

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

func TestHome(t *testing.T) {
	there := t.TempDir()
	var room syscall.Statfs_t
	if err := syscall.Statfs(there, &room); err != nil {
		t.Fatal(err)
	}
	want := there
	if uint64(room.Bavail)*uint64(room.Bsize) < roomInMemory {
		want = os.TempDir()
	}
	if got := home(there, ""); got != want {
		t.Errorf("the server stands in %s, want %s", got, want)
	}
	if got := home(there, "/somewhere"); got != os.TempDir() {
		t.Errorf("where somebody has chosen a folder it stands in %s", got)
	}
	if got := home(filepath.Join(there, "none"), ""); got != os.TempDir() {
		t.Errorf("without a folder in memory it stands in %s", got)
	}
}
