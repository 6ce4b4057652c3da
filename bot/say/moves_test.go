package say_test

import (
	"fmt"
	"testing"

	"detent/bot/say"
	"detent/tuning"
)

// twin is a car with the same two-way dampers at both ends, counted from hard.
func twin(clicks int) tuning.Car {
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = clicks, clicks
	return tuning.Car{Name: "Blue hatch", Dampers: [tuning.Axles]tuning.Damper{d, d}}
}

// at are moves of one adjuster, by corner.
func at(a tuning.Adjuster, moves map[tuning.Corner][2]int) []tuning.Move {
	var out []tuning.Move
	for c := range tuning.Corner(tuning.Corners) {
		if m, ok := moves[c]; ok {
			out = append(out, tuning.Move{Corner: c, Adjuster: a, From: m[0], To: m[1]})
		}
	}
	return out
}

func TestMoves(t *testing.T) {
	both := map[tuning.Corner][2]int{tuning.FL: {20, 22}, tuning.FR: {20, 22}}
	for want, moves := range map[string][]tuning.Move{
		"": nil,
		"Front rebound 2 stiffer, both sides: 10 → 8 from hard":         at(tuning.Rebound, both),
		"FL rebound 2 stiffer: 10 → 8 from hard":                        at(tuning.Rebound, map[tuning.Corner][2]int{tuning.FL: {20, 22}, tuning.FR: {20, 20}}),
		"All four bump 1 softer: 15 → 16 from hard":                     at(tuning.Bump, map[tuning.Corner][2]int{0: {15, 14}, 1: {15, 14}, 2: {15, 14}, 3: {15, 14}}),
		"All four bump 1 softer: front 15 → 16, rear 20 → 21 from hard": at(tuning.Bump, map[tuning.Corner][2]int{0: {15, 14}, 1: {15, 14}, 2: {10, 9}, 3: {10, 9}}),
		"Front rebound, both sides: 8 from hard":                        at(tuning.Rebound, map[tuning.Corner][2]int{tuning.FL: {-1, 22}, tuning.FR: {-1, 22}}),
	} {
		if got := say.Moves(twin(30), moves); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestAt(t *testing.T) {
	var setting tuning.Setting
	for c := range setting {
		setting[c][tuning.Bump], setting[c][tuning.Rebound] = 10, 10
	}
	setting[tuning.RL][tuning.Bump] = 12
	want := "Front: bump and rebound 20 from hard (10 from soft).\nRear: bump left 18 from hard (12 from soft), right 20 from hard (10 from soft); rebound 20 from hard (10 from soft)."
	if got := say.At(twin(30), setting); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func ExampleMoves() {
	fmt.Println(say.Moves(twin(30), at(tuning.Rebound, map[tuning.Corner][2]int{tuning.RL: {14, 17}, tuning.RR: {14, 17}})))
	// Output: Rear rebound 3 stiffer, both sides: 16 → 13 from hard
}
