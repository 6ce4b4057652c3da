package say_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot/say"
	"detent/tuning"
)

// remembered is a place where the car felt best with its front rebound at 8 from
// hard; today it stands at 10, or elsewhere.
func remembered() tuning.PlaceMemory {
	day := time.Date(2026, 4, 18, 9, 0, 0, 0, time.UTC)
	m := tuning.PlaceMemory{Car: twin(30), Visit: tuning.Event{Name: "April day", Place: "Windy Hill", Starts: day, Ends: day.Add(8 * time.Hour)}}
	for corner := range tuning.Corner(tuning.Corners) {
		m.Today.Setting[corner][tuning.Bump], m.Today.Setting[corner][tuning.Rebound] = 15, 20
	}
	m.Last = m.Today
	best := tuning.BestThere{FeltThere: tuning.FeltThere{Feel: tuning.Feel{At: day, Grip: 8}, Event: "April day"}, Stood: m.Today}
	best.Setting[tuning.FL][tuning.Rebound], best.Setting[tuning.FR][tuning.Rebound] = 22, 22
	m.Best = []tuning.BestThere{best}
	return m
}

func TestPlaces(t *testing.T) {
	for name, c := range map[string]struct {
		change func(m *tuning.PlaceMemory)
		short  string
		whole  string
	}{
		"one adjuster elsewhere": {func(*tuning.PlaceMemory) {}, "Windy Hill: best grip 8 (18 Apr 2026), with front rebound 8 from hard (10 today).",
			"To go back there: front rebound 2 stiffer, both sides: 10 → 8 from hard."},
		"left and right apart": {func(m *tuning.PlaceMemory) { m.Best[0].Setting[tuning.FL][tuning.Rebound] = 21 },
			"with FL rebound 9 from hard (10 today) and FR rebound 8 from hard (10 today).", "Front, from hard: bump 15; rebound 9 left and 8 right (10 today)."},
		"as today": {func(m *tuning.PlaceMemory) { m.Best[0].Setting = m.Today.Setting }, "with the clicks as they stand today.", "It stands there today."},
		"all elsewhere": {func(m *tuning.PlaceMemory) {
			m.Best[0].Setting = tuning.Setting{}
			for corner := range tuning.Corner(tuning.Corners) {
				m.Best[0].Setting[corner][tuning.Rebound] = int(corner)
			}
		}, "with 8 adjusters 15 to 20 softer than today.", "Front, from hard: bump 30 (15 today); rebound 30 left and 29 right (10 today)."},
		"other front dampers": {func(m *tuning.PlaceMemory) { m.Best[0].Refitted[tuning.Front] = true },
			"with the other end as it stands today and other front dampers than now.", "Front: other dampers then, so those clicks do not count any more."},
		"other dampers": {func(m *tuning.PlaceMemory) { m.Best[0].Refitted = [tuning.Axles]bool{true, true} },
			"with other dampers than it has now, so the clicks of then do not count.", "It had other dampers then, so those clicks do not count any more."},
		"never said": {func(m *tuning.PlaceMemory) { m.Best[0].Unrecorded = true }, "with clicks that nobody had told me.", "Nobody had told me where the clicks stood."},
		"not said today": {func(m *tuning.PlaceMemory) { m.Today.Unrecorded = true }, "nobody has told me where they stand today.",
			"Nobody has told me where the clicks stand today: /clicks set does."},
	} {
		m := remembered()
		c.change(&m)
		if short := say.PlaceShortly(m, nil, "", time.UTC); !strings.HasSuffix(short[0], c.short) {
			t.Errorf("%s: it says %q, want %q", name, short[0], c.short)
		}
		if whole := say.Place(m, nil, time.UTC, false); !slices.Contains(whole, c.whole) {
			t.Errorf("%s: it lacks %q:\n%s", name, c.whole, strings.Join(whole, "\n"))
		}
	}
}

// Where nobody said how it felt, the place still knows how the car was left.
func TestAPlaceWithoutAFeel(t *testing.T) {
	m := remembered()
	m.Best = nil
	if short := say.PlaceShortly(m, nil, "", time.UTC); !slices.Equal(short, []string{"Left there last (18 Apr 2026) with the clicks as they stand today."}) {
		t.Errorf("%q", short)
	}
	want := "Nobody said how it felt there.\nLeft there last (April day, 18 Apr 2026):\nFront, from hard: bump 15; rebound 10.\nRear, from hard: bump 15; rebound 10.\n" +
		"It stands there today.\nNothing that was turned there was felt as better."
	if whole := strings.Join(say.Place(m, nil, time.UTC, false), "\n"); whole != want {
		t.Errorf("%s\nwant\n%s", whole, want)
	}
}
