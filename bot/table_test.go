package bot

import (
	"fmt"
	"testing"
)

func TestTable(t *testing.T) {
	fromHard := func(corner string, from, to int, shown string) Corner {
		return Corner{Corner: corner, Adjuster: "bump", From: from, To: to, Range: 30, Shown: shown}
	}
	fromSoft := func(corner, adjuster string, from, to int) Corner {
		return Corner{Corner: corner, Adjuster: adjuster, From: from, To: to, Range: 30, Shown: fmt.Sprintf("%d from soft", to)}
	}
	for want, corners := range map[string][]Corner{
		"": nil,
		"         FL     FR  RL  RR\nbump  16→13  16→13   -   -\ncounted from hard": {
			fromHard("FL", 14, 17, "13 from hard"), fromHard("FR", 14, 17, "13 from hard")},
		"      FL  FR  RL   RR\nbump  13   -   -  4→6\ncounted front from hard, rear from soft": {
			fromHard("FL", 17, 17, "13 from hard"), fromHard("RR", 4, 6, "6 from soft")},
		"                FL   FR     RL     RR\n(low-)bump     5→4  5→4  14→11  14→11\n(low-)rebound    5    -    9→8    9→8\ncounted from soft": {
			fromSoft("FL", "bump", 5, 4), fromSoft("FR", "bump", 5, 4), fromSoft("RL", "low-bump", 14, 11), fromSoft("RR", "low-bump", 14, 11),
			fromSoft("RL", "low-rebound", 9, 8), fromSoft("RR", "low-rebound", 9, 8), fromSoft("FL", "rebound", 5, 5)},
	} {
		if got := Table(corners); got != want {
			t.Errorf("it reads\n%s\nwant\n%s", got, want)
		}
	}
}
