package say_test

import (
	"testing"
	"time"

	"detent/bot/say"
	"detent/tuning"
)

func TestLogEntries(t *testing.T) {
	when := time.Date(2026, 5, 16, 9, 20, 0, 0, time.UTC)
	moves := at(tuning.Rebound, map[tuning.Corner][2]int{tuning.FL: {20, 22}, tuning.FR: {20, 22}})
	wide := -1
	complaint := tuning.Complaint{What: tuning.Understeer, Where: tuning.Entry}
	for want, e := range map[string]tuning.Logged{
		"16 May 09:20: Front rebound 2 stiffer, both sides: 10 → 8 from hard (remedy for understeer on entry, by Sam; felt better; Spring day)": {
			Change: tuning.Change{Moves: moves, Reason: tuning.ByRemedy, Complaint: &complaint, By: "sam", Felt: tuning.BetterYes}, ByName: "Sam", Event: "Spring day"},
		"16 May 09:20: Front rebound 2 stiffer, both sides: 10 → 8 from hard (coach's suggestion, taken back later)": {
			Change: tuning.Change{Moves: moves, Reason: tuning.ByRemedy, By: "robin", Undone: true}, ByName: "Robin"},
		"16 May 09:20: confirmed where it stands (record corrected; felt the same)": {Change: tuning.Change{Reason: tuning.ByHand, By: "robin", Felt: tuning.BetterSame}},
		"16 May 09:20: front dampers fitted, taken at the start (fitted)":           {Change: tuning.Change{Moves: moves, Reason: tuning.ByFitting, By: "robin"}},
		"16 May 09:20: grip 7, exit pushes wide 1, lap 1:42.600, 2.1 bar hot, “turns in now” (Spring day)": {Event: "Spring day",
			Feel: &tuning.Feel{At: when, Person: "robin", Grip: 7, Exit: &wide, Lap: 102600 * time.Millisecond, Hot: tuning.Pressures{2.1e5, 2.1e5, 2.1e5, 2.1e5}, Notes: "turns in now"}},
		"16 May 09:20: ride height: 5 mm lower (by Sam)": {ByName: "Sam", Note: &tuning.CarNote{At: when, Person: "sam", What: tuning.AboutRideHeight, Text: "5 mm lower"}},
	} {
		e.Change.At = when
		if got := say.LogEntry(twin(30), e, time.UTC, "robin", false); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
