package clubroom

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"detent/tuning"
)

func TestArchiveHoldsEveryRow(t *testing.T) {
	tables := map[string][]map[string]any{
		"cars":  {{"name": "Blue, hatch", "mass": 1080.0}, {"name": "Grey \"coupe\"", "mass": nil}},
		"feels": {{"notes": "two\nlines"}},
	}
	data, err := packTables(tables, time.Date(2026, 5, 16, 10, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	read := func(name string) []byte {
		f, err := z.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(f)
		if err != nil {
			t.Fatal(err)
		}
		return content
	}
	var everything map[string][]map[string]any
	if err := json.Unmarshal(read("everything.json"), &everything); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(tables, everything); diff != "" {
		t.Errorf("the JSON differs: %s", diff)
	}
	rows, err := csv.NewReader(bytes.NewReader(read("cars.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([][]string{{"mass", "name"}, {"1080", "Blue, hatch"}, {"", "Grey \"coupe\""}}, rows); diff != "" {
		t.Errorf("the CSV differs: %s", diff)
	}
	if len(z.File) != 3 {
		t.Errorf("%d files in the archive, want 3", len(z.File))
	}
}

func TestSetMe(t *testing.T) {
	book, _, robin := newMinutes(t)
	robin.Refused(tuning.Invalid, "Say what to change", `/me set`)
	if r := robin.Does(`/me set reminders:off`); book.Asker.Reminders || book.Asker.Units != "" || r.Text != "Units: metric (the club's). Reminders: off. Messages: on. Answers: private." {
		t.Errorf("%+v, %q", book.Asker, r.Text)
	}
	if r := robin.Does(`/me set units:imperial`); book.Asker.Units != tuning.Imperial || r.Text != "Units: imperial. Reminders: off. Messages: on. Answers: private." {
		t.Errorf("%+v, %q", book.Asker, r.Text)
	}
	if r := robin.Does(`/me set messages:off`); !book.Asker.Muted || !strings.Contains(r.Text, "Messages: off.") {
		t.Errorf("%+v, %q", book.Asker, r.Text)
	}
	if r := robin.Does(`/me set messages:on reminders:on`); book.Asker.Muted || !strings.Contains(r.Text, "Reminders: on. Messages: on.") {
		t.Errorf("%+v, %q", book.Asker, r.Text)
	}
}

func TestEraseAsksFirst(t *testing.T) {
	book, _, robin := newMinutes(t)
	asked := robin.Does(`/me erase`)
	if book.erased != "" || asked.Actions[1].Line() != "/me erase sure:yes" {
		t.Fatalf("erased %q, offers %+v", book.erased, asked.Actions)
	}
	robin.Does(asked.Actions[1].Line())
	if book.erased != "robin" {
		t.Errorf("erased is %q", book.erased)
	}
}

func TestExportCounts(t *testing.T) {
	book, _, robin := newMinutes(t)
	book.tables = map[string][]map[string]any{"cars": {{"name": "a"}, {"name": "b"}}, "feels": {{"grip": 7}}}
	if r := robin.Does(`/me export`); r.Text != "3 rows in 2 tables, as JSON and as CSV." || len(r.Files) != 1 {
		t.Errorf("%q, %d files", r.Text, len(r.Files))
	}
}
