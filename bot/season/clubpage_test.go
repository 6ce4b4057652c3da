package season

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot/chart"
	"detent/bot/phone"
	"detent/tuning"
	"detent/tuning/learn"
	"detent/tuning/tuningtest"
)

// clubYearOf is a year of so many events with the names of the sheets, every third
// of which too few told of, and remedies of two sorts.
func clubYearOf(events int) clubSeason {
	y := clubSeason{year: 2026, zone: time.UTC, made: time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)}
	n := tuning.Sample{Times: 400, Cars: 60, People: 55}
	y.season = tuning.ClubSeason{Entered: n, Asked: n, Applied: n, Felt: n}
	names := sheets()
	for e := range events {
		starts := time.Date(2026, 2, 1+5*e, 9, 0, 0, 0, time.UTC)
		felt := tuning.Sample{Times: 20 - e%3*9, Cars: 10 - e%3*4, People: 9 - e%3*4}
		y.season.Events = append(y.season.Events, tuning.Turnout{Cars: 12 + e%7, Felt: felt,
			Event: tuning.Event{ID: int64(e + 1), Name: names[e%len(names)].event.Name, Place: names[(e+3)%len(names)].event.Name, Weather: tuning.Dry, Starts: starts}})
	}
	for i := range 16 {
		mean, helped := 0.6, 15
		if i%2 == 1 {
			mean, helped = -0.4, 4
		}
		y.known = append(y.known, learn.Together{Key: learn.Key{Part: tuning.RearPart, Job: tuning.AnyRebound, Turn: tuning.Stiffer},
			Complaint: tuning.Complaint{What: tuning.Understeer, Where: tuning.Entry}, Tries: 20, Helped: helped,
			Club: learn.ClubTries{Cars: 5, Tries: 20, Helped: helped}, Estimate: learn.Estimate{Mean: mean, Variance: 0.04}})
	}
	return y
}

func (y clubSeason) drawn(t testing.TB) (png, pdf []byte) {
	t.Helper()
	var picture, page bytes.Buffer
	if err := y.picture().Draw(&picture); err != nil {
		t.Fatal(err)
	}
	if err := y.page(picture.Bytes()).Write(&page); err != nil {
		t.Fatal(err)
	}
	return picture.Bytes(), page.Bytes()
}

func TestAClubsYearIsOnePage(t *testing.T) {
	for name, y := range map[string]clubSeason{"one": clubYearOf(1), "dozen": clubYearOf(12), "many": clubYearOf(60)} {
		png, pdf := y.drawn(t)
		if scale := y.page(png).Scale(); !bytes.Contains(pdf, onePage) || scale < smallestLetters {
			t.Errorf("%s: it is not one page, or its letters are of %.2f of their size: let it say less", name, scale)
		}
		if *keepSheets {
			for end, data := range map[string][]byte{".png": png, ".pdf": pdf} {
				path := filepath.Join(os.TempDir(), "club-"+name+end)
				if err := os.WriteFile(path, data, 0o600); err != nil {
					t.Fatal(err)
				}
				t.Log(path)
			}
		}
	}
}

func TestAClubsYearInWords(t *testing.T) {
	text := textOf(clubYearOf(4).page(nil))
	for _, want := range []string{
		"The club in 2026\n4 events.\n", "Answered\nBlue hatch | 1 Feb | רכב", "| dry | 12 | 10\n", "| dry | 13 | 6\n", "| dry | 14 | -\n",
		"Entered: 400 times, 60 cars of 55 people.", "What helped\nRear rebound stiffer for understeer on entry: helped 15 of 20 times, about half a mark better, give or take half.",
		"And 2 more.", "What did not\n", "about half a mark worse", "and never whose it is",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q:\n%s", want, text)
		}
	}
	few := clubYearOf(1)
	few.known = nil
	if text := textOf(few.page(nil)); !strings.Contains(text, "Nothing yet that three cars of three people have tried and judged.") || strings.Contains(text, "What did not") {
		t.Errorf("where nothing may be told it says:\n%s", text)
	}
}

// A year of many events is drawn by months, which tell of the answers what their
// events may.
func TestManyEventsAreMonths(t *testing.T) {
	rows := clubYearOf(14).picture().Rows
	want := []chart.Attendance{
		{Name: "February, 6 events", Cars: 12 + 13 + 14 + 15 + 16 + 17, Felt: 10 + 6 + 10 + 6},
		{Name: "March, 6 events", Cars: 18 + 12 + 13 + 14 + 15 + 16, Felt: 10 + 6 + 10 + 6},
		{Name: "April, 2 events", Cars: 17 + 18, Felt: 10 + 6},
	}
	if !slices.Equal(rows, want) {
		t.Errorf("the months are %+v, want %+v", rows, want)
	}
	if rows := clubYearOf(12).picture().Rows; len(rows) != 12 || rows[2].Felt != -1 || rows[0].Name != "Blue hatch" || rows[0].Day != "1 Feb" {
		t.Errorf("the events are %+v", rows)
	}
}

// BenchmarkClubSeason makes the picture and the page of a year of 60 events, with
// names in every script. It fails at 300 ms of one core.
func BenchmarkClubSeason(b *testing.B) {
	y := clubYearOf(60)
	y.drawn(b) // fonts are read once
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		y.drawn(b)
	}
	tuningtest.AtMost(b, before, 300*time.Millisecond)
}

// The message has room however much the club has learned.
func TestAClubsMessageKeepsItsBounds(t *testing.T) {
	for _, events := range []int{1, 12, 60} {
		y := clubYearOf(events)
		y.season.Earlier, y.season.Later = y.made.AddDate(-1, 0, 0), y.made.AddDate(1, 0, 0)
		y.season.Coming = []tuning.Event{{Name: "Summer day"}}
		r := y.message()
		lines, runes := r.Message().Measure()
		mostLines, mostRunes := phone.List.Room()
		if lines > mostLines || runes > mostRunes || strings.Contains(r.Message().Words(), "\n…") {
			t.Errorf("%d events: %d lines and %d characters:\n%s", events, lines, runes, r.Message().Words())
		}
	}
}
