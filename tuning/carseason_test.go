package tuning

import (
	"slices"
	"testing"
	"time"
)

// day is noon of a day of 2026, counted from its first.
func day(n int) time.Time { return time.Date(2026, 1, n, 12, 0, 0, 0, time.UTC) }

// year2026 is a year of which nothing is on record.
func year2026() CarSeason {
	return CarSeason{From: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), To: time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)}
}

func pairOf(front, rear int) Car {
	return Car{Dampers: [Axles]Damper{twoWay(front, FromHard), twoWay(rear, FromHard)}}
}

// axleMoves move an adjuster of both sides.
func axleMoves(axle Axle, a Adjuster, from, to int) []Move {
	sides := axle.Corners()
	return []Move{{sides[0], a, from, to}, {sides[1], a, from, to}}
}

func TestLanesFollowTheClicks(t *testing.T) {
	s := year2026()
	s.Before = slices.Concat(axleMoves(Front, Bump, -1, 9), axleMoves(Front, Rebound, -1, 8), axleMoves(Rear, Rebound, -1, 7), axleMoves(Rear, Bump, -1, 5))
	s.Changes = []Change{
		{At: day(3), Reason: ByRemedy, Moves: axleMoves(Rear, Rebound, 7, 10)},
		{At: day(4), Reason: ByHand, Turned: true, Moves: []Move{{FL, Bump, 9, 11}}},
		{At: day(5), Reason: ByHand, Moves: axleMoves(Front, Rebound, 8, 8)}, // confirmed
		{At: day(6), Reason: ByUndo, Moves: axleMoves(Rear, Rebound, 10, 7)},
	}
	want := []Lane{
		{Front, Bump, []Step{{-1, 9, 9}, {1, 11, 9}}},
		{Front, Rebound, []Step{{-1, 8, 8}}},
		{Rear, Bump, []Step{{-1, 5, 5}}},
		{Rear, Rebound, []Step{{-1, 7, 7}, {0, 10, 10}, {3, 7, 7}}},
	}
	got := s.Lanes(pairOf(20, 16))
	if !slices.EqualFunc(got, want, func(a, b Lane) bool {
		return a.Axle == b.Axle && a.Adjuster == b.Adjuster && slices.Equal(a.Steps, b.Steps)
	}) {
		t.Errorf("the lanes are %+v", got)
	}
	if !got[0].Turned() || got[1].Turned() {
		t.Error("what was confirmed was turned, or the other way round")
	}
	if s.Turned() != 3 {
		t.Errorf("%d changes turned something", s.Turned())
	}
}

// With other dampers a lane begins anew, at nought clicks too.
func TestLanesBeginWithTheDampers(t *testing.T) {
	s := year2026()
	s.Before = axleMoves(Front, Bump, -1, 9)
	s.Fitted[Front] = day(9)
	s.Changes = []Change{
		{At: day(3), Reason: ByRemedy, Moves: axleMoves(Front, Bump, 9, 12)},
		{At: day(9), Reason: ByFitting, Moves: append(axleMoves(Front, Bump, -1, 0), axleMoves(Front, Rebound, -1, 4)...)},
		{At: day(10), Reason: ByRemedy, Moves: axleMoves(Front, Bump, 0, 2)},
	}
	lanes := s.Lanes(pairOf(20, 20))
	if len(lanes) != 2 || !slices.Equal(lanes[0].Steps, []Step{{1, 0, 0}, {2, 2, 2}}) || !slices.Equal(lanes[1].Steps, []Step{{1, 4, 4}}) {
		t.Errorf("the lanes are %+v", lanes)
	}
	if !s.Replaced(Front) || s.Replaced(Rear) {
		t.Error("the front's dampers were replaced, the rear had none")
	}
	first := year2026()
	first.Fitted[Front] = day(9)
	first.Changes = s.Changes[1:]
	if first.Replaced(Front) {
		t.Error("the first dampers replaced others")
	}
	s.Fitted[Front] = s.To
	if lanes := s.Lanes(pairOf(20, 20)); len(lanes) != 0 || !s.Replaced(Front) {
		t.Errorf("dampers of the year after have lanes: %+v", lanes)
	}
}

func TestAnEmptyYear(t *testing.T) {
	s := year2026()
	s.Changes = []Change{{Reason: ByFitting, Moves: axleMoves(Front, Bump, -1, 9)}, {Reason: ByHand, Moves: axleMoves(Front, Bump, 9, 8)}}
	s.Events = []Event{{ID: 1}}
	if !s.Empty() {
		t.Error("a fitting and a corrected record are a season")
	}
	for _, full := range []CarSeason{{Notes: make([]CarNote, 1)}, {Feels: make([]Feel, 1)},
		{Changes: []Change{{Reason: ByHand, Turned: true, Moves: axleMoves(Front, Bump, 9, 8)}}}} {
		if full.Empty() {
			t.Errorf("%+v is empty", full)
		}
	}
}

func TestBestLapsByPlaceAndWeather(t *testing.T) {
	s := year2026()
	s.Events = []Event{{ID: 1, Name: "Spring day", Place: "Windy Hill", Weather: Wet}, {ID: 2, Name: "June day", Place: "windy hill "}, {ID: 3, Name: "Open day", Weather: Either}}
	lap := func(event int64, c Conditions, seconds int) Feel {
		return Feel{Event: event, Conditions: c, Lap: time.Duration(seconds) * time.Second}
	}
	s.Feels = []Feel{lap(1, "", 118), lap(1, ItWasDamp, 110), lap(2, ItWasDry, 103), lap(2, ItWasDry, 102), lap(2, ItWasWet, 119),
		lap(3, "", 90), lap(0, ItWasDry, 80), {Event: 1}}
	type best struct {
		place   string
		c       Conditions
		seconds int
	}
	var got []best
	for _, l := range s.BestLaps() {
		got = append(got, best{l.Place, l.Conditions, int(l.Lap.Seconds())})
	}
	want := []best{{"", ItWasDry, 80}, {"Open day", "", 90}, {"windy hill", ItWasDry, 102}, {"Windy Hill", ItWasDamp, 110}, {"Windy Hill", ItWasWet, 118}}
	if !slices.Equal(got, want) {
		t.Errorf("the laps are %v", got)
	}
	if !s.Damp(s.Feels[0]) || !s.Damp(s.Feels[1]) || s.Damp(s.Feels[2]) || s.Damp(s.Feels[5]) {
		t.Error("what its event says of the track does not hold for a run that says nothing")
	}
}
