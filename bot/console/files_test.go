package console

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/tuning"
)

func TestSweepGoesByAge(t *testing.T) {
	dir, now := filepath.Join(t.TempDir(), "files"), time.Date(2026, 5, 16, 10, 0, 0, 0, time.UTC)
	if err := Sweep(dir, now); err != nil {
		t.Errorf("a folder that is not there: %v", err)
	}
	written := func(folder, name string, at time.Time) string {
		path, err := putFile(filepath.Join(dir, folder), name, at, []byte("data"))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, at, at); err != nil {
			t.Fatal(err)
		}
		return path
	}
	old, older := now.Add(-Kept-time.Second), now.Add(-2*Kept)
	gone := []string{written("", "picture.png", old), written("robin", "export.zip", older), written("sam", "picture.png", old)}
	stay := []string{written("", "picture.png", now), written("sam", "export.zip", now.Add(-Kept))}
	if err := Sweep(dir, now.Add(-Kept)); err != nil {
		t.Fatal(err)
	}
	for _, path := range append(gone, filepath.Join(dir, "robin")) {
		if _, err := os.Stat(path); err == nil {
			t.Errorf("%s is still there", path)
		}
	}
	for _, path := range stay {
		if _, err := os.Stat(path); err != nil {
			t.Error(err)
		}
	}
}

func TestForgetTakesOnePersonsFiles(t *testing.T) {
	d, _, _ := desk(t)
	sam := tuning.Who{Club: d.Who.Club, Person: "Sam"}
	elsewhere := tuning.Who{Club: "Harrow Hill", Person: d.Who.Person}
	export := func(whose tuning.Who) string {
		reply := d.Keep(bot.Reply{Files: []bot.File{{Name: "detent-export.zip", Data: []byte("zip")}}}, whose)
		if len(reply.Notes) > 0 {
			t.Fatal(reply.Notes)
		}
		return reply.Files[0].File
	}
	mine, theirs, other := export(d.Who), export(sam), export(elsewhere)
	earlier := filepath.Join(d.Files, "20260401-100000-123-detent-export.zip") // as earlier versions wrote it
	picture := filepath.Join(d.Files, "20260401-100000-123-picture.png")
	for _, path := range []string{earlier, picture} {
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for range 2 { // the second finds nothing
		if err := Forget(d.Files, d.Who); err != nil {
			t.Fatal(err)
		}
	}
	for path, want := range map[string]bool{mine: false, earlier: false, theirs: true, other: true, picture: true} {
		if _, err := os.Stat(path); (err == nil) != want {
			t.Errorf("%s: %v", path, err)
		}
	}
}

func TestAFullDiskIsNamed(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skipf("this system has no file that is always full: %v", err)
	}
	defer full.Close()
	_, err = full.WriteString("picture")
	if said := notPut("/data/files", err); !strings.Contains(said, "the disk with the folder /data/files is full") {
		t.Errorf("it says %q", said)
	}
}
