package model_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

// A start outside the window stands; the nearest position inside is offered as
// a second remedy of the same advice.
func TestStartOutsideWindow(t *testing.T) {
	s := coupe(t)
	r := s.answer(t, "/baseline")
	trade, err := tuning.Baseline(s.of.Car, tuning.Dry, tuning.DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range r.Corners {
		corner, _ := tuning.CornersAt(c.Corner)
		adjuster, _ := tuning.ParseAdjuster(c.Adjuster)
		if c.To != trade[corner[0]][adjuster] {
			t.Errorf("%s %s starts at %d, want the trade's %d", c.Corner, c.Adjuster, c.To, trade[corner[0]][adjuster])
		}
	}
	remedies := s.given[0].Remedies
	if len(remedies) != 2 {
		t.Fatalf("%d positions are kept, want the start and the nearest inside", len(remedies))
	}
	inside, err := s.of.Setting.Apply(remedies[1].Moves)
	if err != nil {
		t.Fatal(err)
	}
	if inside[tuning.RL] != trade[tuning.RL] || inside[tuning.FL][tuning.Bump] <= trade[tuning.FL][tuning.Bump] || inside[tuning.FL] != inside[tuning.FR] {
		t.Errorf("the nearest inside is %v; the rear, which has no peak, stands and the front goes stiffer from %v", inside, trade)
	}
	s.of.Setting = inside
	if w := s.answer(t, "/window"); strings.HasPrefix(w.Title, "Nearest") {
		t.Errorf("there, /window says %q", w.Title)
	}
}
