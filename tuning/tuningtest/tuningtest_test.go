package tuningtest

import (
	"math"
	"testing"
)

func TestNear(t *testing.T) {
	for _, c := range []struct {
		got, want, by float64
		near          bool
	}{
		{1.01, 1, 0.01 + 1e-12, true}, {1.02, 1, 0.01, false}, {-1, 1, 0.5, false}, {0, 0, 0, true},
		{math.NaN(), 1, math.Inf(1), false}, {1, math.NaN(), 1, false}, {math.Inf(1), math.Inf(1), 1, false},
	} {
		if near(c.got, c.want, c.by) != c.near {
			t.Errorf("%v is near %v by %v: %v", c.got, c.want, c.by, !c.near)
		}
	}
}

// record notes what an assertion says instead of failing.
type record struct {
	testing.TB
	failed bool
}

func (*record) Helper()                 {}
func (r *record) Errorf(string, ...any) { r.failed = true }

func TestNearIsRelativeAndWithinIsAbsoluteBelowOne(t *testing.T) {
	for _, c := range []struct {
		got, want, tolerance float64
		near, within         bool
	}{
		{1000.5, 1000, 1e-3, true, true}, {1002, 1000, 1e-3, false, false}, {0.0005, 0.0001, 1e-3, false, true}, {0.002, 0, 1e-3, false, false},
	} {
		var n, w record
		Near(&n, "it", c.got, c.want, c.tolerance)
		Within(&w, "it", c.got, c.want, c.tolerance)
		if n.failed == c.near || w.failed == c.within {
			t.Errorf("%+v: Near failed %v, Within failed %v", c, n.failed, w.failed)
		}
	}
}

// word is a type whose constants this file declares, for TestSaysEach.
type word string

const (
	first  word = "first"
	second word = "second"
)

func TestSaysEach(t *testing.T) {
	for name, c := range map[string]struct {
		table  map[word]string
		failed bool
	}{
		"whole":     {map[word]string{first: "The first.", second: "The second."}, false},
		"too short": {map[word]string{first: "The first."}, true},
		"too long":  {map[word]string{first: "The first.", second: "The second.", "third": "The third."}, true},
	} {
		r := record{TB: t}
		if SaysEach(&r, ".", c.table); r.failed != c.failed {
			t.Errorf("of a table that is %s: failed %v", name, r.failed)
		}
	}
}
