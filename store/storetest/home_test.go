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
	if uint64(room.Bavail)*uint64(room.Bsize) < roomInMemory {
		t.Skip("less than 2 GB are free")
	}
	if got := home(there, ""); got != there {
		t.Errorf("where there is room in memory the server stands in %s", got)
	}
	if got := home(there, "/somewhere"); got != os.TempDir() {
		t.Errorf("where somebody has chosen a folder it stands in %s", got)
	}
	if got := home(filepath.Join(there, "none"), ""); got != os.TempDir() {
		t.Errorf("without a folder in memory it stands in %s", got)
	}
}
