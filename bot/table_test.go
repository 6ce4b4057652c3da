package bot

import "testing"

func TestTable(t *testing.T) {
	fromHard := func(corner string, from, to int, shown string) Corner {
		return Corner{Corner: corner, Adjuster: "bump", From: from, To: to, Range: 30, Shown: shown}
	}
	for want, corners := range map[string][]Corner{
		"": nil,
		"         FL     FR  RL  RR\nbump  16→13  16→13   -   -\ncounted from hard": {
			fromHard("FL", 14, 17, "13 from hard"), fromHard("FR", 14, 17, "13 from hard")},
		"      FL  FR  RL   RR\nbump  13   -   -  4→6\ncounted from hard at the front, from soft at the rear": {
			fromHard("FL", 17, 17, "13 from hard"), fromHard("RR", 4, 6, "6 from soft")},
	} {
		if got := Table(corners); got != want {
			t.Errorf("it reads\n%s\nwant\n%s", got, want)
		}
	}
}
