package tuning

import (
	"fmt"
	"strings"
	"testing"
)

const goodTable = "click,speed_mm_s,bump_n,rebound_n\n0,0,0,0\n0,100,200,400\n10,0,0,0\n10,50,250,500\n10,100,400,800\n"

func TestForceTable(t *testing.T) {
	for name, text := range map[string]string{
		"plain": goodTable, "CRLF": strings.ReplaceAll(goodTable, "\n", "\r\n"), "byte-order mark": "\ufeff" + goodTable,
		"blank lines": strings.ReplaceAll(goodTable, "10,0,", "\n10,0,"), "no newline at the end": strings.TrimSpace(goodTable),
	} {
		table, err := ParseForceTable(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if fmt.Sprint(table.Clicks, table.Speeds) != "[0 10] [0 0.05 0.1]" || table.Bump[0][1] != 100 || table.Rebound[1][2] != 800 {
			t.Errorf("%s: %+v", name, table)
		}
		again, err := ParseForceTable(table.CSV)
		if err != nil || fmt.Sprint(again.Bump) != fmt.Sprint(table.Bump) {
			t.Errorf("%s: kept as %q, read back as %v", name, table.CSV, err)
		}
	}
}

func TestForceTableFaults(t *testing.T) {
	const head = "click,speed_mm_s,bump_n,rebound_n\n"
	for name, tt := range map[string]struct {
		text string
		want TableFault
	}{
		"empty":             {"", TableFault{Why: NoHeader, Line: 1}},
		"no header":         {"0,0,0,0\n", TableFault{Why: NoHeader, Line: 1}},
		"header only":       {head, TableFault{Why: NoValues}},
		"semicolons":        {strings.ReplaceAll(goodTable, ",", ";"), TableFault{Why: NoHeader, Line: 1}},
		"semicolons within": {head + "0;0;0;0\n", TableFault{Why: WrongValues, Line: 2, Values: 1}},
		"a number missing":  {head + "0,0,0,0\n0,100,,400\n", TableFault{Why: BadValue, Line: 3, Column: "bump force"}},
		"a column missing":  {head + "0,0,0\n", TableFault{Why: WrongValues, Line: 2, Values: 3}},
		"negative":          {head + "0,0,0,0\n0,100,-200,400\n", TableFault{Why: BadValue, Line: 3, Column: "bump force"}},
		"not a number":      {head + "0,0,0,0\n0,100,NaN,400\n", TableFault{Why: BadValue, Line: 3, Column: "bump force"}},
		"infinite":          {head + "0,0,0,0\n0,100,1e309,400\n", TableFault{Why: BadValue, Line: 3, Column: "bump force"}},
		"speeds fall":       {head + "0,100,200,400\n0,50,300,500\n", TableFault{Why: SpeedsFall, Line: 3}},
		"speeds repeat":     {head + "0,100,200,400\n0,100,300,500\n", TableFault{Why: SpeedsFall, Line: 3}},
		"too large":         {head + "0,1e5,200,400\n", TableFault{Why: HugeValue, Line: 2}},
		"half a click":      {head + "0.5,0,0,0\n", TableFault{Why: BadClick, Line: 2}},
		"one speed":         {head + "0,100,200,400\n", TableFault{Why: OneSpeed, Line: 2}},
		"force falls":       {head + "0,0,0,0\n0,100,200,400\n1,0,0,0\n1,100,189,400\n", TableFault{Why: ForceFalls, Line: 5, Column: "bump force", Click: 1}},
		"rebound falls":     {head + "0,0,0,0\n0,100,200,400\n1,0,0,0\n1,100,200,300\n", TableFault{Why: ForceFalls, Line: 5, Column: "rebound force", Click: 1}},
		"too many lines":    {head + strings.Repeat("0,0,0,0\n", MaxTableLines), TableFault{Why: TooManyLines, Values: MaxTableLines + 1}},
		"10 MB":             {head + strings.Repeat("0,0,0,0\n", 10<<20/8), TableFault{Why: TableTooLarge}},
	} {
		if _, err := ParseForceTable(tt.text); err != tt.want {
			t.Errorf("%s: %v, want %+v", name, err, tt.want)
		}
	}
	// A fall of 5 % itself is scatter.
	if _, err := ParseForceTable(head + "0,0,0,0\n0,100,200,400\n1,0,0,0\n1,100,190,380\n"); err != nil {
		t.Errorf("a fall of 5 %%: %v", err)
	}
}

func TestForceTableFitsTheDamper(t *testing.T) {
	table, err := ParseForceTable(goodTable)
	if err != nil {
		t.Fatal(err)
	}
	if err := table.Fits(twoWay(10, FromSoft)); err != nil {
		t.Error(err)
	}
	if err := table.Fits(twoWay(9, FromSoft)); KindOf(err) != Invalid {
		t.Errorf("click 10 on a damper of 9: %v", err)
	}
}

func FuzzParseForceTable(f *testing.F) {
	f.Add(goodTable)
	f.Add("click,speed_mm_s,bump_n,rebound_n\n0,1e-320,1,1\n0,2,1,1\n")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := ParseForceTable(text)
		if err != nil {
			if KindOf(err) == Internal {
				t.Fatal(err)
			}
			return
		}
		for i := range table.Clicks {
			for j := range table.Speeds {
				for _, force := range []float64{float64(table.Bump[i][j]), float64(table.Rebound[i][j])} {
					if !(force >= 0 && force < 1e300) {
						t.Fatalf("force %v at click %d, speed %v", force, table.Clicks[i], table.Speeds[j])
					}
				}
			}
		}
	})
}
