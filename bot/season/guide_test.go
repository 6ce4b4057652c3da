package season

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"detent/bot/phone"
	"detent/tuning"
)

// entrant is a car of a kind with adjusters of so many clicks at both ends.
func entrant(drive tuning.Drive, engine tuning.Engine, clicks int) tuning.Entrant {
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = clicks, clicks
	return tuning.Entrant{Car: tuning.Car{Drive: drive, Engine: engine, Dampers: [tuning.Axles]tuning.Damper{d, d}}}
}

var hillClub = tuning.DefaultClub("hill")

func aDay() tuning.Event {
	starts := time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)
	return tuning.Event{ID: 1, Name: "Spring day", Starts: starts, Ends: starts.Add(8 * time.Hour), Place: "Windy Hill"}
}

// The starts below are worked by hand from the rules of the trade, common
// practice with no published source: the highest click below the middle, the
// driven axle a step softer, and in the wet all a step softer.
func TestGuideStarts(t *testing.T) {
	dry, wet := aDay(), aDay()
	wet.Weather = tuning.Wet
	for _, c := range []struct {
		event tuning.Event
		drive tuning.Drive
		lines []string
	}{
		{dry, tuning.RearDrive, []string{"7: 4 (3) / 5 (2)", "12: 7 (5) / 8 (4)", "16: 9 (7) / 11 (5)",
			"20: 11 (9) / 14 (6)", "24: 13 (11) / 16 (8)", "30: 16 (14) / 19 (11)"}},
		{dry, tuning.FrontDrive, []string{"16: 11 (5) / 9 (7)", "30: 19 (11) / 16 (14)"}},
		{dry, tuning.FourDrive, []string{"16: 9 (7) / 9 (7)", "30: 16 (14) / 16 (14)"}},
		{wet, tuning.RearDrive, []string{"7: 5 (2) / 6 (1)", "30: 19 (11) / 22 (8)"}},
	} {
		g := guideOf(c.event, []tuning.Entrant{entrant(c.drive, tuning.MidEngine, 16)}, hillClub)
		starts := g.starts()
		for _, want := range c.lines {
			if !slices.Contains(starts, want) {
				t.Errorf("%s drive, %s: no line %q in\n%s", c.drive, g.printed(), want, strings.Join(starts, "\n"))
			}
		}
		for _, row := range g.page(c.event.Starts).Rows[0][0].Table.Rows { // the sheet says the same
			line := fmt.Sprintf("%s: %s / %s", row[0], row[1], row[2])
			if !slices.Contains(starts, line) {
				t.Errorf("only the sheet says %q", line)
			}
		}
	}
}

func TestGuideFollowsTheClubsSizes(t *testing.T) {
	club := hillClub
	club.Sizes.StepMany = 5
	g := guideOf(aDay(), []tuning.Entrant{entrant(tuning.RearDrive, tuning.MidEngine, 30)}, club)
	if want := "30: 16 (14) / 21 (9)"; !slices.Contains(g.starts(), want) {
		t.Errorf("with a step of 5 there is no line %q", want)
	}
	if said := saySteps(g.ranges, g.sizes)[0]; !strings.Contains(said, "5 of 20, 24, 30 or 40") {
		t.Errorf("the steps are said as %q", said)
	}
}

// everyKind is one car of each kind, all with unusual dampers.
func everyKind() []tuning.Entrant {
	var all []tuning.Entrant
	for i, drive := range []tuning.Drive{tuning.FrontDrive, tuning.RearDrive, tuning.FourDrive} {
		for j, engine := range []tuning.Engine{tuning.FrontEngine, tuning.MidEngine, tuning.RearEngine} {
			all = append(all, entrant(drive, engine, 43+6*i+j))
		}
	}
	return all
}

func TestGuideFitsAMessage(t *testing.T) {
	e := aDay()
	e.Name, e.Place, e.Weather = strings.Repeat("W", tuning.MaxName), strings.Repeat("W", tuning.MaxName), tuning.Either
	for name, entrants := range map[string][]tuning.Entrant{"one car": {entrant(tuning.RearDrive, tuning.MidEngine, 30)}, "every kind": everyKind()} {
		g := guideOf(e, entrants, hillClub)
		if n := len(g.ranges); n > mostRanges {
			t.Errorf("%s: %d numbers of clicks", name, n)
		}
		reply, err := g.reply(e.Starts)
		if err != nil {
			t.Fatal(err)
		}
		lines, runes := reply.Message().Measure()
		if lines > 25 || runes > 1300 || strings.Contains(reply.Message().Words(), "…") || len(strings.Split(reply.View.Grid, "\n")) < 3 {
			t.Errorf("%s: %d lines, %d characters:\n%s", name, lines, runes, reply.Message().Words())
		}
		for line := range strings.SplitSeq(reply.View.Grid, "\n") {
			if n := utf8.RuneCountInString(line); n > phone.Columns {
				t.Errorf("%s: a line of the table has %d columns: %q", name, n, line)
			}
		}
	}
}

func TestRangesThatAreThere(t *testing.T) {
	for _, c := range []struct {
		seen map[int]int
		want []int
	}{
		{nil, []int{7, 12, 16, 20, 24, 30, 40}},
		{map[int]int{16: 3, 18: 1}, []int{7, 12, 16, 18, 20, 24, 30, 40}},
		{map[int]int{1: 1, 2: 1, 3: 5, 4: 4, 5: 3, 6: 2}, []int{1, 3, 4, 5, 6, 7, 12, 16, 20, 24, 30, 40}},
	} {
		if got := rangesOf(c.seen); !slices.Equal(got, c.want) {
			t.Errorf("of %v the guide shows %v, want %v", c.seen, got, c.want)
		}
	}
}

func TestOnlyAnotherGuideHasAnotherHash(t *testing.T) {
	of := func(e tuning.Event, entrants ...tuning.Entrant) string {
		reply, err := guideOf(e, entrants, hillClub).reply(e.Starts)
		if err != nil {
			t.Fatal(err)
		}
		return hashGuide(reply)
	}
	car, like := entrant(tuning.RearDrive, tuning.MidEngine, 30), entrant(tuning.RearDrive, tuning.MidEngine, 30)
	was := of(aDay(), car)
	if of(aDay(), car, like) != was {
		t.Error("another car of the same kind makes another guide")
	}
	moved := aDay()
	moved.Ends = moved.Ends.Add(time.Hour)
	for name, other := range map[string]string{"another kind": of(aDay(), car, entrant(tuning.FrontDrive, tuning.FrontEngine, 30)),
		"other clicks": of(aDay(), car, entrant(tuning.RearDrive, tuning.MidEngine, 18)), "other times": of(moved, car)} {
		if other == was {
			t.Errorf("%s makes no other guide", name)
		}
	}
}

func TestWeatherAndSurface(t *testing.T) {
	for _, c := range []struct {
		weather  tuning.Weather
		surface  tuning.Surface
		has, not []string
	}{
		{"", "", []string{"If it is wet", "Bumpy", "Smooth"}, []string{"If it dries"}},
		{tuning.Wet, tuning.Bumpy, []string{"If it dries", "Bumpy"}, []string{"If it is wet", "Smooth"}},
		{tuning.Dry, tuning.Smooth, []string{"If it is wet", "Smooth"}, []string{"If it dries", "Bumpy"}},
	} {
		e := aDay()
		e.Weather, e.Surface = c.weather, c.surface
		said := strings.Join(guideOf(e, everyKind(), hillClub).changes(), "\n")
		for _, words := range c.has {
			if !strings.Contains(said, words) {
				t.Errorf("%s %s lacks %q", c.weather, c.surface, words)
			}
		}
		for _, words := range c.not {
			if strings.Contains(said, words) {
				t.Errorf("%s %s says %q", c.weather, c.surface, words)
			}
		}
	}
}

// Where nobody can tell the weather, the guide has both starts: in its message,
// in its notes and on the sheet, side by side and large enough to read.
func TestGuideForEitherWeather(t *testing.T) {
	e := aDay()
	e.Weather = tuning.Either
	g := guideOf(e, []tuning.Entrant{entrant(tuning.RearDrive, tuning.MidEngine, 30)}, hillClub)
	if want := "30: dry 16 (14) / 19 (11), wet 19 (11) / 22 (8)"; !slices.Contains(g.starts(), want) {
		t.Errorf("no line %q in %q", want, g.starts())
	}
	reply, err := g.reply(e.Starts)
	if err != nil {
		t.Fatal(err)
	}
	if said := reply.Message().Words(); !strings.Contains(said, "16/19") || !strings.Contains(said, "19/22") || !strings.Contains(said, "dry/wet") {
		t.Errorf("the message says\n%s", said)
	}
	for _, said := range g.changes() {
		if strings.Contains(said, "If it") {
			t.Errorf("with both starts it still says %q", said)
		}
	}
	page := guideOf(e, everyKind(), hillClub).page(e.Starts)
	if starts := page.Rows[0]; len(starts) != 2 || !strings.Contains(starts[0].Head, "dry") || !strings.Contains(starts[1].Head, "wet") {
		t.Errorf("the sheet has %+v", starts)
	}
	if scale := page.Scale(); scale < smallestLetters {
		t.Errorf("the sheet's letters are %.2f of their size", scale)
	}
}
