package ride

import (
	"math"
	"testing"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// measured is a small table; the figures are invented.
func measured(t *testing.T) Table {
	t.Helper()
	table, err := NewTable([]int{0, 4, 12}, []unit.Speed{0.05, 0.1, 0.3},
		[][]unit.Force{{50, 90, 170}, {90, 150, 250}, {170, 270, 410}},
		[][]unit.Force{{100, 180, 340}, {180, 300, 500}, {340, 540, 820}})
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func TestTable(t *testing.T) {
	table := measured(t)
	if soft, hard := table.Range(); soft != 0 || hard != 12 {
		t.Errorf("range %d to %d", soft, hard)
	}
	for _, c := range []struct {
		click int
		v     unit.Speed
		want  unit.Force
	}{
		{0, 0.05, 50}, {0, 0.1, 90}, {12, 0.3, 410}, {4, -0.1, -300}, // as measured
		{0, 0.025, 25}, {0, 0.2, 130}, {0, 0.4, 210}, // between speeds, and beyond
		{2, 0.1, 120}, {8, 0.1, 210}, {8, -0.3, -660}, // between positions
	} {
		d := must[Damper](t)(table.Damper(c.click))
		if got := d.Force(c.v); math.Abs(float64(got-c.want)) > 1e-9 {
			t.Errorf("click %d at %g m/s: %g N, want %g", c.click, float64(c.v), float64(got), float64(c.want))
		}
	}
	for _, click := range []int{-1, 13} {
		if _, err := table.Damper(click); err == nil {
			t.Errorf("click %d lies in the table", click)
		}
	}
	if _, err := (Table{}).Damper(0); err == nil {
		t.Error("an empty table has a damper")
	}
}

// The table keeps its own figures.
func TestTableKeepsItsOwn(t *testing.T) {
	speeds := []unit.Speed{0.1, 0.2}
	forces := [][]unit.Force{{10, 20}, {30, 40}}
	table := must[Table](t)(NewTable([]int{0, 1}, speeds, forces, forces))
	speeds[0], forces[0][0] = 9, 9
	d := must[Damper](t)(table.Damper(0))
	if got := d.Force(0.1); got != 10 {
		t.Errorf("the table changed: %g N", float64(got))
	}
}

// With straight measured lines the ratios are the slopes over critical damping.
func TestTableRatios(t *testing.T) {
	c := ordinaryCorner()
	critical := float64(must[unit.Damping](t)(c.Critical()))
	d := must[Damper](t)(must[Damper](t)(measured(t).Damper(0)).AtWheel(0.5))
	ratios := must[Ratios](t)(c.Ratios(d, 0.05/0.5))
	tuningtest.Near(t, "bump, slow", float64(ratios.Low.Bump), 1000*0.25/critical, 1e-12)
	tuningtest.Near(t, "rebound, slow", float64(ratios.Low.Rebound), 2000*0.25/critical, 1e-12)
	tuningtest.Near(t, "bump, fast", float64(ratios.High.Bump), (150.0-50)/0.2*0.25/critical, 1e-12)
}

func TestBadTables(t *testing.T) {
	nan := unit.Force(math.NaN())
	clicks, speeds := []int{0, 1}, []unit.Speed{0.1, 0.2}
	good := [][]unit.Force{{10, 20}, {30, 40}}
	for name, bad := range map[string]struct {
		clicks        []int
		speeds        []unit.Speed
		bump, rebound [][]unit.Force
	}{
		"nothing":         {},
		"one row":         {[]int{0}, speeds, good[:1], good[:1]},
		"one speed":       {clicks, speeds[:1], [][]unit.Force{{1}, {2}}, [][]unit.Force{{1}, {2}}},
		"clicks fall":     {[]int{1, 0}, speeds, good, good},
		"clicks below 0":  {[]int{-1, 0}, speeds, good, good},
		"speeds fall":     {clicks, []unit.Speed{0.2, 0.1}, good, good},
		"speed NaN":       {clicks, []unit.Speed{0.1, unit.Speed(math.NaN())}, good, good},
		"speed 0":         {clicks, []unit.Speed{0, 0.1}, good, good},
		"row missing":     {clicks, speeds, good[:1], good},
		"force missing":   {clicks, speeds, good, [][]unit.Force{{10}, {30, 40}}},
		"force NaN":       {clicks, speeds, [][]unit.Force{{10, nan}, {30, 40}}, good},
		"negative force":  {clicks, speeds, [][]unit.Force{{-10, 20}, {30, 40}}, good},
		"falling force":   {clicks, speeds, good, [][]unit.Force{{20, 10}, {30, 40}}},
		"rebound missing": {clicks, speeds, good, nil},
	} {
		if _, err := NewTable(bad.clicks, bad.speeds, bad.bump, bad.rebound); err == nil {
			t.Errorf("%s is a table", name)
		}
	}
}
