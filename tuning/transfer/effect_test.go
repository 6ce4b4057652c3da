package transfer

import (
	"fmt"
	"strings"
	"testing"

	"detent/tuning/unit"
)

// The first remedies for entry are common practice, no published source: the
// model stands behind both on every ordinary car.
func TestFirstRemediesForEntryAgree(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		for _, remedy := range []struct {
			what   string
			axle   int
			wanted Direction
		}{
			{"oversteer: front rebound stiffer", Front, TowardUndersteer},
			{"understeer: rear rebound stiffer", Rear, TowardOversteer},
		} {
			e := effect(t, before, stiffer(t, before, remedy.axle, 1, 1.2), Entry, o)
			if got := e.Verdict(remedy.wanted); got != Agrees {
				t.Errorf("%s, %s: %v, share %+.3f points, balance %+.2e",
					o.name, remedy.what, got, 100*e.Share(), e.Balance())
			}
		}
	}
}

// Bump and rebound of one axle move the front share the same way at turn-in,
// and against it while the roll unwinds.
func TestDampingMovesShareByRollSpeed(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		for _, change := range []struct{ bump, rebound unit.Ratio }{{1.2, 1}, {1, 1.2}, {1.2, 1.2}} {
			after := stiffer(t, before, Front, change.bump, change.rebound)
			if up := effect(t, before, after, Entry, o).Share(); up <= 0 {
				t.Errorf("%s, front %v at entry: share %+.4f", o.name, change, up)
			}
			if down := effect(t, before, after, Exit, o).Share(); down >= 0 {
				t.Errorf("%s, front %v at exit: share %+.4f", o.name, change, down)
			}
		}
	}
}

// The table is printed as the model gives it. Only two things are asserted:
// that every entry is a figure, and that the model is not silent everywhere.
func TestExitTable(t *testing.T) {
	remedies := []struct {
		what   string
		axle   int
		bump   unit.Ratio
		reb    unit.Ratio
		wanted Direction
	}{
		{"understeer: rear bump stiffer", Rear, 1.2, 1, TowardOversteer},
		{"understeer: front rebound softer", Front, 1, 1 / 1.2, TowardOversteer},
		{"oversteer: rear bump softer", Rear, 1 / 1.2, 1, TowardUndersteer},
		{"oversteer: front rebound stiffer", Front, 1, 1.2, TowardUndersteer},
	}
	var table strings.Builder
	verdicts := map[Verdict]int{}
	for _, o := range ordinaryCars() {
		before := o.build(t)
		fmt.Fprintf(&table, "\n%s\n", o.name)
		for _, r := range remedies {
			e := effect(t, before, stiffer(t, before, r.axle, r.bump, r.reb), Exit, o)
			verdict := e.Verdict(r.wanted)
			verdicts[verdict]++
			fmt.Fprintf(&table, "  %-34s %-9v  balance %+.1e  first 0.15 s %+.1e  share %+.3f points\n",
				r.what, verdict, e.Balance(), e.EarlyBalance(), 100*e.Share())
			if e.Balance() != e.Balance() || e.EarlyBalance() != e.EarlyBalance() {
				t.Errorf("%s, %s: no figure", o.name, r.what)
			}
		}
	}
	t.Log(table.String())
	if verdicts[Agrees]+verdicts[Disagrees] == 0 {
		t.Error("the model says nothing about any remedy at exit")
	}
}

func TestVerdict(t *testing.T) {
	outcome := func(p Phase, share unit.Share, balance unit.Ratio) Outcome {
		return Outcome{Phase: p, FrontShare: share, Watch: Figures{Balance: balance}, Rolling: Figures{Balance: balance}}
	}
	for _, c := range []struct {
		phase   Phase
		share   unit.Share // change
		balance unit.Ratio // change
		want    Verdict    // of a remedy toward understeer
	}{
		{Entry, 0.0011, 0, Agrees},
		{Entry, 0.0009, -1e-3, Neutral},
		{Entry, 0.0011, +1e-5, Agrees},
		{Entry, 0.0011, +3e-5, Neutral},
		{Entry, -0.0011, 0, Disagrees},
		{Entry, -0.0011, -3e-5, Neutral},
		{Exit, 0.01, -3e-5, Agrees},
		{Exit, 0.01, +3e-5, Disagrees},
		{Exit, 0.01, +1e-5, Neutral},
		{Braking, 0, -3e-5, Agrees},
		{Braking, 0, +3e-5, Disagrees},
	} {
		e, err := Compare(outcome(c.phase, 0.5, 0.1), outcome(c.phase, 0.5+c.share, 0.1+c.balance))
		if err != nil {
			t.Fatal(err)
		}
		if got := e.Verdict(TowardUndersteer); got != c.want {
			t.Errorf("%v, share %+g, balance %+g: %v, want %v", c.phase, c.share, c.balance, got, c.want)
		}
		mirror := map[Verdict]Verdict{Agrees: Disagrees, Disagrees: Agrees}[c.want]
		if got := e.Verdict(TowardOversteer); got != mirror {
			t.Errorf("%v the other way: %v, want %v", c.phase, got, mirror)
		}
	}
	if _, err := Compare(Outcome{Phase: Entry}, Outcome{Phase: Exit}); err == nil {
		t.Error("two phases were compared")
	}
}

// More of a remedy moves the balance further the same way.
func TestMoreMovesFurther(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		for axle, way := range []unit.Share{+1, -1} {
			last := unit.Share(0)
			for _, factor := range []unit.Ratio{1.05, 1.1, 1.2, 1.4, 1.8} {
				moved := way * effect(t, before, stiffer(t, before, axle, 1, factor), Entry, o).Share()
				if moved <= last {
					t.Errorf("%s, axle %d rebound × %g moves the share by %g, less than before (%g)",
						o.name, axle, float64(factor), float64(moved), float64(last))
				}
				last = moved
			}
		}
	}
}

// The steady corner does not feel the dampers at all.
func TestSteadyCornerIgnoresDampers(t *testing.T) {
	for _, o := range ordinaryCars() {
		before := o.build(t)
		after := stiffer(t, before, Front, 1.4, 1.4)
		a, err := before.Steady(7, 0)
		if err != nil {
			t.Fatal(err)
		}
		b, err := after.Steady(7, 0)
		if err != nil {
			t.Fatal(err)
		}
		if a != b {
			t.Errorf("%s: %v became %v", o.name, a, b)
		}
	}
}
