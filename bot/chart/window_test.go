package chart

import (
	"math"
	"strings"
	"testing"
)

// The shade is as wide as the window, and the dashed line stands where today's
// click is.
func TestWindowIsDrawnWhereItLies(t *testing.T) {
	narrow, wide := windows(), windows()
	for i := range wide.Axles {
		narrow.Axles[i].From, narrow.Axles[i].To = wide.Axles[i].Best-1, wide.Axles[i].Best+1
		wide.Axles[i].From, wide.Axles[i].To = 0, wide.Axles[i].Clicks-1
	}
	few, many := greys(drawn(t, narrow, "narrow"))[shade.Y], greys(drawn(t, wide, "wide"))[shade.Y]
	// 2 of 30 and 2 of 12 clicks against nearly all of them, on two panels alike.
	if part, want := float64(few)/float64(many), (2.0/30+2.0/12)/(29.0/30+11.0/12); math.Abs(part-want) > 0.03 {
		t.Errorf("the narrow window is %.3f of the whole range, want %.3f", part, want)
	}

	moved := windows()
	moved.Axles[0].Today = 25
	left, right := columnOfInk(drawn(t, windows(), "left")), columnOfInk(drawn(t, moved, "right"))
	if left >= right {
		t.Errorf("today's line stands at %d of the width for click 5 and at %d for click 25", left, right)
	}
}

// Nothing is drawn as advice where the model hardly tells the clicks apart, nor a
// best where the grip still rises at a stop.
func TestNoWindowWhereThereIsNone(t *testing.T) {
	level, rising := windows(), windows()
	for i := range level.Axles {
		level.Axles[i].From, level.Axles[i].To = 0, level.Axles[i].Clicks
		last := rising.Axles[i].Clicks
		rising.Axles[i] = window(rising.Axles[i].Name, last, last, 3, true)
	}
	if n := greys(drawn(t, level, "level"))[shade.Y]; n > 500 { // the edges of letters have some
		t.Errorf("%d pixels of a window where there is none", n)
	}
	drawn(t, rising, "rising")
	for d, say := range map[*Windows]string{&level: "hardly told apart", &rising: "no peak inside the range"} {
		if alt := d.Alt(); !strings.Contains(alt, say) || strings.Contains(alt, "best at") {
			t.Errorf("%q does not say %q, or names a best", alt, say)
		}
	}
}
