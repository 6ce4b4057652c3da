package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

func TestErasingRemovesTheExports(t *testing.T) {
	p := newPaddock(t)
	robin, sam := p.as("--as", "Robin").blueHatch(), p.as("--as", "Sam").blueHatch()
	mine := robin.does(`/me export`).Files[0].File
	window := robin.does(`/window`).Picture.File
	theirs := sam.does(`/me export`).Files[0].File
	robin.does(`/me erase`) // it asks once more
	for _, path := range []string{mine, window} {
		if _, err := os.Stat(path); err != nil {
			t.Error(err)
		}
	}
	robin.does(`/me erase sure:yes`)
	for _, path := range []string{mine, window} {
		if _, err := os.Stat(path); err == nil {
			t.Errorf("%s outlives its owner's erasure", path)
		}
	}
	if _, err := os.Stat(theirs); err != nil {
		t.Error(err)
	}
}

func TestOldFilesAreSwept(t *testing.T) {
	p := newPaddock(t)
	export := p.blueHatch().does(`/me export`).Files[0].File
	old := time.Now().Add(-31 * 24 * time.Hour)
	if err := os.Chtimes(export, old, old); err != nil {
		t.Fatal(err)
	}
	p.does(`/help`)
	if _, err := os.Stat(export); err == nil {
		t.Error("a file of a month ago is still there")
	}
}

func TestAFullDiskIsNamed(t *testing.T) {
	disk := t.TempDir()
	for dir := disk; dir != os.TempDir(); dir = filepath.Dir(dir) {
		if err := os.Chmod(dir, 0o755); err != nil { // the server walks to its data
			t.Fatal(err)
		}
	}
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=128m"); err != nil {
		t.Skipf("a small disk cannot be mounted here: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(disk, 0); err != nil {
			t.Error(err)
		}
	})
	t.Setenv("DETENT_DATABASE_URL", "")
	t.Setenv("DETENT_DATA", filepath.Join(disk, "detent"))
	add := `/car add name:"Blue hatch" drive:front engine:front`
	if out, errs, code := execute(t, "ask", add); code != exitAnswered {
		t.Fatal(out, errs)
	}
	filler, err := os.Create(filepath.Join(disk, "filler"))
	if err != nil {
		t.Fatal(err)
	}
	defer filler.Close()
	for zeros := make([]byte, 1<<16); err == nil; {
		_, err = filler.Write(zeros)
	}
	out, errs, code := execute(t, "ask", add)
	if said := out + errs; code != exitProblem || !strings.Contains(said, "disk at "+disk+" is full") {
		t.Errorf("it left with %d and said %q", code, said)
	}
	if err := filler.Truncate(0); err != nil {
		t.Fatal(err)
	}
	if out, errs, code := execute(t, "ask", "/car list"); code != exitAnswered || !strings.Contains(out, "Blue hatch") {
		t.Errorf("with room again it left with %d and said %q", code, out+errs)
	}
}
