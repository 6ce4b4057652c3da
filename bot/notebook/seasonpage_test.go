package notebook

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot/phone"
	"detent/bot/sheet"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/learn"
	"detent/tuning/tuningtest"
)

var keepPages = flag.Bool("keep-pages", false, "leave the pages and pictures in the temporary folder to be looked at")

// pageNames are names of six scripts, long ones, mixed directions, and one that
// no font here has.
var pageNames = []string{
	"Blue hatch", strings.Repeat("W", tuning.MaxName), "蓝色闪电号赛车队长距离耐力版本二零二六", "רכב כחול 12 (חדש) עם שם ארוך מאוד", "سيارة زرقاء سريعة ١٢ ذات اسم طويل",
	"नीली गाड़ी क्षत्रिय बहुत लंबे नाम वाली", "รถสีน้ำเงินที่เร็วมากและมีชื่อยาว", "푸른번개 아주 긴 이름의 자동차", "Blue רכב 12 車 hatch", "㐀",
}

// yearOf is a year of a car with dampers of some ways, events and changes at
// each, with a run after each change and every fifth with a note.
func yearOf(name string, ways tuning.Ways, events, changes int) carYear {
	d := tuning.Damper{Ways: ways, Count: tuning.FromHard}
	if ways == 1 {
		d.Moves = tuning.MovesBoth
	}
	for _, a := range d.Adjusters() {
		d.Range[a] = 30
	}
	y := carYear{year: 2026, zone: time.UTC, made: time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC),
		car: tuning.Car{ID: 1, Name: name, Drive: tuning.RearDrive, Engine: tuning.MidEngine, Dampers: [tuning.Axles]tuning.Damper{d, d}}}
	y.season.From, y.season.To = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)
	adjusters := d.Adjusters()
	at := map[[2]int]int{}
	for axle := range tuning.Axles {
		for _, a := range adjusters {
			at[[2]int{axle, int(a)}] = 14
			for _, c := range tuning.Axle(axle).Corners() {
				y.season.Before = append(y.season.Before, tuning.Move{Corner: c, Adjuster: a, From: -1, To: 14})
			}
		}
	}
	for e := range events {
		starts := time.Date(2026, 3, 1+9*e, 9, 0, 0, 0, time.UTC)
		event := tuning.Event{ID: int64(e + 1), Name: pageNames[e%len(pageNames)], Place: pageNames[(e+1)%4], Starts: starts, Ends: starts.Add(8 * time.Hour), Weather: []tuning.Weather{tuning.Dry, tuning.Wet, ""}[e%3]}
		y.season.Events = append(y.season.Events, event)
		for c := range changes {
			n := e*changes + c
			axle, a := tuning.Axle(n%2), adjusters[n/2%len(adjusters)]
			knob := [2]int{int(axle), int(a)}
			from := at[knob]
			at[knob] = min(28, max(2, from+[]int{3, -2, 3, 1, -4}[n%5]))
			change := tuning.Change{At: starts.Add(time.Duration(2*c) * time.Minute), Reason: tuning.ByRemedy, Event: event.ID}
			for _, corner := range axle.Corners() {
				change.Moves = append(change.Moves, tuning.Move{Corner: corner, Adjuster: a, From: from, To: at[knob]})
			}
			feel := tuning.Feel{At: change.At.Add(time.Minute), Event: event.ID, Grip: 1 + n%10, Lap: time.Duration(100_000+n) * time.Millisecond}
			if n%5 == 0 {
				feel.Notes = strings.TrimSpace(strings.Repeat(pageNames[n/5%len(pageNames)]+" ", 20))
			}
			y.season.Changes, y.season.Feels = append(y.season.Changes, change), append(y.season.Feels, feel)
		}
	}
	for i := range 14 {
		key := learn.Key{Row: tuning.RowKey{What: tuning.Understeer, Where: tuning.Entry}, Part: tuning.RearPart, Job: tuning.AnyRebound, Turn: tuning.Stiffer}
		y.effects = append(y.effects, learn.Effect{Key: key, Complaint: tuning.Complaint{What: tuning.Understeer, Where: tuning.Entry},
			Told: learn.Told{Tries: 5, Helped: []int{4, 0, 3, 1}[i%4], Mean: []float64{1, -0.5, 0.5, 0}[i%4], Half: 0.5, Hardly: i%4 == 3,
				Turns: []learn.Turned{{Axle: tuning.Rear, Adjuster: adjusters[0], Clicks: 3, Turn: tuning.Stiffer}}}})
	}
	return y
}

// years are years of every sort: one change, 200, many events. Their events have
// all the names.
func years() []carYear {
	return []carYear{yearOf(pageNames[4], 1, 1, 1), yearOf(pageNames[1], 2, 20, 10), yearOf(pageNames[2], 3, 10, 20),
		yearOf(pageNames[3], 4, 10, 20), yearOf(pageNames[9], 4, 6, 33)}
}

// drawn makes a year's picture and page.
func (y carYear) drawn(t testing.TB) (png, pdf []byte) {
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

var onePage = []byte("/Type /Pages\n/Kids [3 0 R ]\n/Count 1")

// smallestLetters is the part of its size at which the smallest print of a page,
// of 7.5 points, is 6 points high. That it can be read is from memory.
const smallestLetters = 0.8

func TestAYearIsOnePage(t *testing.T) {
	for i, y := range years() {
		png, pdf := y.drawn(t)
		if !bytes.Contains(pdf, onePage) {
			t.Errorf("the page of %q is not one", y.car.Name)
		}
		if scale := y.page(png).Scale(); scale < smallestLetters {
			t.Errorf("the page of %q has letters of %.2f of their size: let it say less", y.car.Name, scale)
		}
		if *keepPages {
			for end, data := range map[string][]byte{"png": png, "pdf": pdf} {
				path := filepath.Join(os.TempDir(), fmt.Sprintf("year-%d.%s", i, end))
				if err := os.WriteFile(path, data, 0o600); err != nil {
					t.Fatal(err)
				}
				t.Log(path)
			}
		}
	}
}

// textOf is all that a page says.
func textOf(p sheet.Page) string {
	lines := []string{p.Title, p.Under, p.Foot}
	for _, row := range p.Rows {
		for _, s := range row {
			lines = append(append(append(lines, s.Head), s.Points...), strings.Join(s.Table.Head, " | "))
			for _, cells := range s.Table.Rows {
				lines = append(lines, strings.Join(cells, " | "))
			}
		}
	}
	return typeset.Plain(strings.Join(lines, "¶"))
}

func TestAYearInWords(t *testing.T) {
	y := yearOf("Blue hatch", 2, 3, 4)
	text := textOf(y.page(nil))
	for _, want := range []string{
		"Blue hatch in 2026¶12 changes, 12 runs noted, 3 events.¶",
		"No. | Event | Day | Place | Weather | Changes | Runs | Best grip | Best lap¶1 | Blue hatch | 1 Mar | WWW",
		"| dry | 4 | 4 | 4 | 1:40.000¶",
		"What helped¶Understeer on entry: rear bump 3 stiffer helped 4 of 5 times, about one mark better, give or take half.",
		"And 2 more: /learned has them.",
		"What did not¶", "about half a mark worse", "hardly anything",
		"19 Mar: grip 1, “蓝色闪电号", "Grip 1 at first, 2 at last, 10 at best (19 Mar).",
		"Made on Tue 1 Dec 2026, 09:00.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q:\n%s", want, strings.ReplaceAll(text, "¶", "\n"))
		}
	}
	y.effects, y.season.Events = nil, nil
	if text := textOf(y.page(nil)); !strings.Contains(text, "Nothing was judged") || strings.Contains(text, "What did not") || strings.Contains(text, "¶Events") {
		t.Errorf("a year without events and answers says %s", text)
	}
}

// Names that cannot be printed stay off the page as a whole.
func TestAYearOfUnprintableNames(t *testing.T) {
	y := yearOf("Blue 㐀 hatch", 2, 10, 1)
	text := textOf(y.page(nil))
	for _, want := range []string{"The car in 2026", "The name of the car has letters that no font here can print", "| an event |"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if strings.Contains(text, "Blue 㐀") || strings.Contains(y.picture().Title, "Blue") {
		t.Error("a part of the name is printed")
	}
}

// An axle whose dampers were replaced says so, and is drawn from the new ones on.
func TestAYearWithOtherDampers(t *testing.T) {
	y := yearOf("Blue hatch", 2, 2, 4)
	y.season.Fitted[tuning.Rear] = y.season.To.AddDate(0, 0, 3)
	if text := textOf(y.page(nil)); !strings.Contains(text, "The rear had other dampers before 4 Jan 2027: /log has their clicks.") {
		t.Errorf("it is not said: %s", text)
	}
	if lanes := y.picture().Lanes; len(lanes) != 2 || !strings.HasPrefix(lanes[0].Name, "Front") || !strings.HasPrefix(lanes[1].Name, "Front") {
		t.Errorf("the lanes are %+v", lanes)
	}
}

// The year of a car whose dampers are its first begins with what was done on them.
func TestAYearBeginsAfterTheFitting(t *testing.T) {
	y := yearOf("Blue hatch", 2, 1, 2)
	fitted := tuning.Change{At: y.season.From, Reason: tuning.ByFitting, Moves: y.season.Before}
	y.season.Before, y.season.Changes = nil, slices.Insert(y.season.Changes, 0, fitted)
	p := y.picture()
	if len(p.Days) != 1 || p.Days[0].Event != 1 || len(p.Lanes) != 2 || p.Lanes[0].Steps[0].At != 0 || p.Lanes[0].Steps[1].At != 1 {
		t.Errorf("the days are %+v, the lanes %+v", p.Days, p.Lanes)
	}
}

func TestAYearInOrder(t *testing.T) {
	y := yearOf("Blue hatch", 2, 2, 2)
	late := y.season.Feels[1]
	late.At = late.At.AddDate(0, 0, 2)                                                         // answered two days after the event
	alone := tuning.Feel{At: y.season.Feels[1].At.Add(5 * time.Hour), Grip: 3, Hop: new(bool)} // at no event, the same day
	y.season.Feels = slices.Insert(y.season.Feels, 2, alone, late)
	y.season.Events = append(y.season.Events, tuning.Event{ID: 9, Starts: time.Date(2026, 10, 1, 9, 0, 0, 0, time.UTC)})
	p := y.picture()
	var days []string
	for _, d := range p.Days {
		days = append(days, fmt.Sprintf("%s %d: %d-%d", d.Date, d.Event, d.From, d.To))
	}
	want := []string{"1 Mar 1: 0-5", " 0: 5-7", "3 Mar 1: 7-9", "10 Mar 2: 9-14", "1 Oct 3: 14-15"}
	if !slices.Equal(days, want) {
		t.Errorf("the days are %q, want %q", days, want)
	}
	if got := p.Lanes[0].Steps; len(got) != 2 || got[0].At != 0 || got[1].At != 1 || p.Grips[0].At != 2 || p.Grips[3].At != 8 {
		t.Errorf("the steps are %+v, the grips %+v", got, p.Grips)
	}
}

// BenchmarkCarSeason makes the picture and the page of a car with 200 changes and
// as many runs, with names in every script. It fails at 300 ms of one core.
func BenchmarkCarSeason(b *testing.B) {
	y := yearOf("Blue רכב 12 車 hatch", 4, 10, 20)
	y.drawn(b) // fonts are read once
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		y.drawn(b)
	}
	tuningtest.AtMost(b, before, 300*time.Millisecond)
}

// The message has room whatever the names, and loses nothing of what it leaves
// out.
func TestAYearsMessageKeepsItsBounds(t *testing.T) {
	for _, y := range years() {
		y.season.Earlier, y.season.Later = y.season.From.AddDate(0, 0, -1), y.season.To
		r := y.message()
		lines, runes := r.Message().Measure()
		mostLines, mostRunes := phone.List.Room()
		if lines > mostLines || runes > mostRunes || strings.Contains(r.Message().Words(), "\n…") {
			t.Errorf("%q: %d lines and %d characters:\n%s", y.car.Name, lines, runes, r.Message().Words())
		}
		if all := strings.Count(r.Text, "\n") + len(r.Notes); all != len(y.bestLaps())+len(y.effects)+len(y.notes()) {
			t.Errorf("%q: %d lines of %d laps, %d remedies and %d notes", y.car.Name, all, len(y.bestLaps()), len(y.effects), len(y.notes()))
		}
	}
}
