package tuning

import (
	"slices"
	"testing"
)

// TestEveryComplaintIsWhole fails while a table of this package lacks something
// that it must know of a complaint.
func TestEveryComplaintIsWhole(t *testing.T) {
	seen := map[string]What{}
	for _, w := range Whats {
		for _, words := range []string{string(w.What), "said: " + w.Short, "means: " + w.Means} {
			if other, twice := seen[words]; twice {
				t.Errorf("%s and %s share %q", w.What, other, words)
			}
			seen[words] = w.What
		}
		if w.Short == "" || w.Means == "" || w.What.Short() != w.Short {
			t.Errorf("%s has no words: %+v", w.What, w)
		}
		if !slices.Contains(What("").Choices(), string(w.What)) {
			t.Errorf("%s cannot be chosen", w.What)
		}
		for _, drive := range []Drive{FrontDrive, RearDrive, FourDrive} {
			for _, where := range []Where{Anywhere, Entry, Mid, Exit} {
				c := Complaint{What: w.What, Where: where}
				r, ok := rowFor(Car{Drive: drive}, c)
				if !ok {
					t.Errorf("the table of remedies has no row for %s %s of %s drive", w.What, where, drive)
				}
				if len(r.recipes) == 0 && w.What.BeforeClicks() == "" {
					t.Errorf("for %s %s of %s drive there is nothing to turn and nothing else to do", w.What, where, drive)
				}
			}
		}
	}
	known := func(of string, what What) {
		if seen[string(what)] != what {
			t.Errorf("%s knows %q, which is no complaint", of, what)
		}
	}
	for _, r := range table {
		known("the table of remedies", r.what)
	}
	for what := range splitsByPlace {
		known("splitsByPlace", what)
	}
	for what, other := range opposite {
		known("opposite", what)
		known("opposite", other)
	}
	for what := range placeOf {
		known("placeOf", what)
	}
	for what := range notClicks {
		known("notClicks", what)
	}
}

func TestSameComplaint(t *testing.T) {
	front, rear := Front, Rear
	for _, c := range []struct {
		a, b       Complaint
		same, turn bool
	}{
		{Complaint{What: Understeer, Where: Entry}, Complaint{What: Understeer, Where: Mid}, true, false},
		{Complaint{What: Understeer, Where: Entry}, Complaint{What: Understeer, Where: Exit}, false, false},
		{Complaint{What: Understeer}, Complaint{What: Oversteer, Where: Entry}, false, true},
		{Complaint{What: Understeer}, Complaint{What: Oversteer, Where: Exit}, false, false},
		{Complaint{What: Hops, Where: Entry}, Complaint{What: Hops, Where: Exit}, true, false},
		{Complaint{What: PacksDown, Axle: &front}, Complaint{What: PacksDown, Axle: &rear}, false, false},
		{Complaint{What: PacksDown, Axle: &front}, Complaint{What: PacksDown}, true, false},
		{Complaint{What: PacksDown}, Complaint{What: SlowSettle}, false, true},
		{Complaint{}, Complaint{What: Hops}, false, false},
	} {
		if c.a.sameAs(c.b) != c.same || c.b.sameAs(c.a) != c.same || c.a.turnedFrom(c.b) != c.turn || c.b.turnedFrom(c.a) != c.turn {
			t.Errorf("%+v and %+v: the same %v, turned %v", c.a, c.b, c.a.sameAs(c.b), c.a.turnedFrom(c.b))
		}
	}
}
