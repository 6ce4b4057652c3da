package season

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

	"detent/bot/sheet"
	"detent/bot/typeset"
	"detent/tuning"
)

var keepSheets = flag.Bool("keep-sheets", false, "leave the sheets in the temporary folder to be looked at")

// sheetFor is the sheet of a rear-driven car for a day at Windy Hill.
func sheetFor(name string, front, rear tuning.Damper) carSheet {
	car := tuning.Car{Name: name, Drive: tuning.RearDrive, Engine: tuning.MidEngine, Tyre: tuning.SemiSlick, Dampers: [tuning.Axles]tuning.Damper{front, rear}}
	start, err := tuning.Baseline(car, tuning.Dry, tuning.DefaultSizes)
	if err != nil {
		panic(err)
	}
	return carSheet{event: aDay(), car: tuning.Case{Car: car, Setting: start}, sizes: tuning.DefaultSizes,
		zone: time.UTC, made: time.Date(2026, 5, 15, 18, 0, 0, 0, time.UTC)}
}

// damper has adjusters of so many clicks; a single one moves both directions.
func damper(ways tuning.Ways, clicks int, count tuning.Count) tuning.Damper {
	d := tuning.Damper{Ways: ways, Count: count}
	if ways == 1 {
		d.Moves = tuning.MovesBoth
	}
	for _, a := range d.Adjusters() {
		d.Range[a] = clicks
	}
	return d
}

// sheets are sheets of every sort: long names in six scripts and mixed
// directions, few adjusters and many, names that cannot be printed.
func sheets() []carSheet {
	var all []carSheet
	for i, name := range []string{
		"Blue hatch", strings.Repeat("W", tuning.MaxName), "蓝色闪电号赛车队长距离耐力版本二零二六", "רכב כחול 12 (חדש) עם שם ארוך מאוד", "سيارة زرقاء سريعة ١٢ ذات اسم طويل",
		"नीली गाड़ी क्षत्रिय बहुत लंबे नाम वाली", "รถสีน้ำเงินที่เร็วมากและมีชื่อยาว", "푸른번개 아주 긴 이름의 자동차", "Blue רכב 12 車 hatch", "㐀",
	} {
		four, one := damper(4, 40, tuning.FromHard), damper(1, 12, tuning.FromSoft)
		s := sheetFor(name, four, four)
		if i%2 == 0 {
			s = sheetFor(name, one, damper(2, 16, tuning.FromHard))
		}
		s.event.Name, s.event.Place = name, name
		all = append(all, s)
	}
	return all
}

var onePage = []byte("/Type /Pages\n/Kids [3 0 R ]\n/Count 1")

// smallestLetters is the part of its size at which the smallest print of a
// sheet, of 7.5 points, is 6 points high. That it can be read is from memory.
const smallestLetters = 0.8

// TestSheetIsOnePage draws each, leaving none that needs smaller letters than
// can be read.
func TestSheetIsOnePage(t *testing.T) {
	for i, s := range sheets() {
		var out bytes.Buffer
		if err := s.page().Write(&out); err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(out.Bytes(), onePage) {
			t.Errorf("the sheet of %q is not one page", s.car.Car.Name)
		}
		if scale := s.page().Scale(); scale < smallestLetters {
			t.Errorf("the sheet of %q has letters of %.2f of their size: say less in carSheet.page, the card takes a line for each complaint", s.car.Car.Name, scale)
		}
		if *keepSheets {
			path := filepath.Join(os.TempDir(), fmt.Sprintf("sheet-%d.pdf", i))
			if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			t.Log(path)
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
	for i, l := range lines {
		lines[i] = strings.ReplaceAll(typeset.Plain(strings.ReplaceAll(l, "\n", " / ")), " / ", "\n")
	}
	return strings.Join(lines, "\n")
}

// TestSheetSays what a person with it in hand needs.
func TestSheetSays(t *testing.T) {
	s := sheetFor("Blue hatch", damper(1, 12, tuning.FromSoft), damper(2, 16, tuning.FromHard))
	text := textOf(s.page())
	for _, want := range []string{
		"Spring day: Sat 16 May 2026, 09:00 to 17:00, Windy Hill.",
		"Rear drive, mid engine; one-way dampers at the front, two-way at the rear; semi-slick tyres.",
		"Counted from soft at the front and from hard at the rear",
		"Front one-way adjuster | 5 (7) | 4 (8) | 5 (7)",
		"Rear rebound | 11 (5) | 13 (3) | 11 (5)",
		"hot tyre pressures", "FL ______",
		"-3 pushes wide (understeer), 0 neutral, +3 comes round (oversteer)",
		"Safety", "Before any click",
		"Where it stands is what the record said on Fri 15 May 2026, 18:00.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q:\n%s", want, text)
		}
	}
	s.car.History.Unrecorded = true
	if text := textOf(s.page()); !strings.Contains(text, "not on record") || !strings.Contains(text, "not said") {
		t.Error("a car that nothing is recorded of stands somewhere")
	}
	s.car.History.Unrecorded = false
	s.car.Setting[tuning.FL][tuning.Rebound] = 9
	if !strings.Contains(textOf(s.page()), "left 9, right 5") {
		t.Error("unequal sides are not told")
	}
}

// TestSheetsHandedOut tell whose they are and nothing of where the clicks stand.
func TestSheetsHandedOut(t *testing.T) {
	s := sheetFor("Blue hatch", damper(2, 16, tuning.FromHard), damper(2, 16, tuning.FromHard))
	s.owner = "Robin"
	s.car.Setting = tuning.Setting{}
	text := textOf(s.page())
	for _, want := range []string{"Robin: Blue hatch", "Front bump | 9 (7) | 11 (5) |  | ", "for the driver to write in"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "not on record") || strings.Contains(text, "record said") {
		t.Errorf("the sheet tells of the record:\n%s", text)
	}
}

// TestAsManyRunsAboveAsBelow: a run has its place in both tables.
func TestAsManyRunsAboveAsBelow(t *testing.T) {
	rows := sheets()[0].page().Rows
	above := 0
	for _, head := range rows[0][0].Table.Head {
		if strings.HasPrefix(head, "Run ") {
			above++
		}
	}
	if below := len(rows[1][0].Table.Rows); above != below || above < 5 {
		t.Errorf("room for %d runs above and %d below", above, below)
	}
}

// TestOwnCard: the remedies below are worked by hand from the table of the
// trade (common practice, no published source) for the dampers named.
func TestOwnCard(t *testing.T) {
	club := tuning.DefaultSizes
	club.StepMany = 5
	for _, c := range []struct {
		name        string
		front, rear tuning.Damper
		sizes       tuning.Sizes
		rows        map[string]string
	}{
		{"four-way", damper(4, 40, tuning.FromHard), damper(4, 40, tuning.FromHard), tuning.DefaultSizes, map[string]string{
			"Oversteer, entry or mid": "Front low-speed rebound 3 stiffer; rear low-speed rebound 3 softer *",
			"Understeer, exit":        "Front low-speed rebound 1 softer; rear low-speed bump 3 stiffer",
			"Harsh on kerbs":          "All four high-speed bump 3 softer; all four high-speed rebound 3 softer *",
			"Sinks over bumps":        "That end's low-speed rebound 3 softer *",
			"Worse in one direction":  "Tyres, pressures and corner weights of the loaded side: no click first, left and right stay equal",
		}},
		{"one-way of 12 in front, two-way of 16 behind", damper(1, 12, tuning.FromSoft), damper(2, 16, tuning.FromHard), tuning.DefaultSizes, map[string]string{
			"Oversteer, exit":     "Rear bump 2 softer; front one-way adjuster 1 stiffer",
			"Low grip everywhere": "Front one-way adjuster 1 stiffer and rear bump 1 stiffer; again each run until it just begins to hop, then the back-off",
			"Sinks over bumps":    "Front one-way adjuster 1 softer * or rear rebound 2 softer *, the end that does it",
			"Dives under braking": "Front one-way adjuster 1 stiffer *; rear rebound 1 stiffer *",
		}},
		{"the club's own step", damper(2, 30, tuning.FromHard), damper(2, 30, tuning.FromHard), club, map[string]string{
			"Oversteer, entry or mid": "Front rebound 5 stiffer; rear rebound 5 softer *",
		}},
	} {
		s := sheetFor("Blue hatch", c.front, c.rear)
		s.sizes = c.sizes
		found := 0
		for _, row := range s.card().Table.Rows {
			if want, ok := c.rows[row[0]]; ok {
				found++
				if row[1] != want {
					t.Errorf("%s, %s:\n got %s\nwant %s", c.name, row[0], row[1], want)
				}
			}
		}
		if found != len(c.rows) {
			t.Errorf("%s: %d of %d rows stand on the card", c.name, found, len(c.rows))
		}
		if own := strings.Contains(s.foot(), "the steps are this club's own"); own != (c.sizes != tuning.DefaultSizes) {
			t.Errorf("%s: the foot says %q", c.name, s.foot())
		}
	}
}

// TestOwnCardHasEveryComplaint as the guide's has, and names no adjuster that
// the car lacks.
func TestOwnCardHasEveryComplaint(t *testing.T) {
	for _, ways := range []tuning.Ways{1, 2, 3, 4} {
		d := damper(ways, 20, tuning.FromHard)
		s := sheetFor("Blue hatch", d, d)
		rows := s.card().Table.Rows
		if general := symptomCard([]tuning.Drive{tuning.RearDrive}); len(rows) != len(general) {
			t.Errorf("%d rows, the guide's card has %d", len(rows), len(general))
		}
		var labels []string
		for _, a := range d.Adjusters() {
			labels = append(labels, d.Label(a))
		}
		for _, row := range rows {
			for _, a := range []string{"low-speed bump", "high-speed bump", "low-speed rebound", "high-speed rebound", "one-way adjuster"} {
				if strings.Contains(row[1], a) && !slices.Contains(labels, a) {
					t.Errorf("%s-way, %s: %s", ways, row[0], row[1])
				}
			}
		}
	}
}

// TestUnprintableNamesAreSaid: such a name stays off the page as a whole, and
// the page says of what it is and where it stands.
func TestUnprintableNamesAreSaid(t *testing.T) {
	s := sheetFor("Blue 㐀 hatch", damper(2, 16, tuning.FromHard), damper(2, 16, tuning.FromHard))
	text := textOf(s.page())
	for _, want := range []string{"The car\n", "The name of the car has letters that no font here can print; read it in the message"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	if strings.Contains(text, "Blue") {
		t.Error("a part of the name is printed")
	}
	if text := textOf(sheetFor("רכב", damper(2, 16, tuning.FromHard), damper(2, 16, tuning.FromHard)).page()); strings.Contains(text, "no font") || !strings.Contains(text, "רכב") {
		t.Error("a name that can be printed is not")
	}
}

func BenchmarkCarSheet(b *testing.B) {
	all := sheets()
	var out bytes.Buffer
	for i := 0; b.Loop(); i++ {
		out.Reset()
		if err := all[i%len(all)].page().Write(&out); err != nil {
			b.Fatal(err)
		}
	}
}
