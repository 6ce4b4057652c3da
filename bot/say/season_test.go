package say

import (
	"testing"
	"time"

	"detent/tuning"
)

func TestSeasonsInWords(t *testing.T) {
	at := func(month time.Month, day int) time.Time { return time.Date(2026, month, day, 23, 30, 0, 0, time.UTC) }
	east := time.FixedZone("", 3600)
	feels := []tuning.Feel{{At: at(5, 16), Grip: 5}, {At: at(9, 12), Grip: 9}, {At: at(10, 2), Grip: 8}}
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 16, 16
	car := tuning.Car{Dampers: [tuning.Axles]tuning.Damper{d, d}}
	lanes := []tuning.Lane{{Axle: tuning.Front, Adjuster: tuning.Bump, Steps: []tuning.Step{{Change: -1, Left: 5, Right: 5}}},
		{Axle: tuning.Front, Adjuster: tuning.Rebound, Steps: []tuning.Step{{Change: -1, Left: 5, Right: 5}, {Change: 0, Left: 7, Right: 7}}},
		{Axle: tuning.Rear, Adjuster: tuning.Bump, Steps: []tuning.Step{{Change: -1, Left: 5, Right: 6}}}}
	for _, c := range []struct{ got, want string }{
		{YearOfCar(tuning.CarSeason{Feels: feels, Events: make([]tuning.Event, 1)}), "0 changes, 3 runs noted, 1 event"},
		{BestLap(tuning.BestLap{Place: "Windy Hill", Conditions: tuning.ItWasDamp, Lap: 102600 * time.Millisecond, At: at(5, 16)}, east), "Best lap at Windy Hill, damp: 1:42.600 on 17 May"},
		{BestLap(tuning.BestLap{Lap: time.Minute, At: at(5, 16)}, time.UTC), "Best lap at no event: 1:00.000 on 16 May"},
		{GripOver(feels, time.UTC), "Grip 5 at first, 8 at last, 9 at best (12 Sep)"},
		{GripOver(feels[:1], time.UTC), "Grip 5 (16 May)"},
		{GripOver(nil, time.UTC), ""},
		{Resting(car, lanes), "Not turned: front bump 11 from hard, rear bump 11 left, 10 from hard right"},
		{Resting(car, lanes[1:2]), ""},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func TestAClubsYearTellsWhatEnoughStandBehind(t *testing.T) {
	enough, few := tuning.Sample{Times: 54, Cars: 12, People: 11}, tuning.Sample{Times: 9, Cars: 3, People: 2}
	all := YearOfClub(tuning.ClubSeason{Entered: enough, Asked: enough, Applied: enough, Felt: enough})
	if len(all) != 4 || all[0] != "Entered: 54 times, 12 cars of 11 people." || all[3] != "Said how a run felt: 54 times, 12 cars of 11 people." {
		t.Errorf("%q", all)
	}
	some := YearOfClub(tuning.ClubSeason{Entered: enough, Asked: few, Applied: few, Felt: few})
	if len(some) != 2 || some[1] != "Not told: what fewer than three cars of three people stand behind." {
		t.Errorf("%q", some)
	}
}
