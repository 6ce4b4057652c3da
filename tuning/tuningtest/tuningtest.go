// Package tuningtest has the assertions that tests of several rooms share.
package tuningtest

import (
	"math"
	"testing"
)

// Near fails the test unless got is within a part of want; NaN is near nothing.
func Near(t testing.TB, what string, got, want, part float64) {
	t.Helper()
	if !near(got, want, part*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

// Within is Near for figures that may be small: below one the tolerance is
// absolute.
func Within(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !near(got, want, tolerance*max(1, math.Abs(want))) {
		t.Errorf("%s is %.15g, want %.15g", what, got, want)
	}
}

func near(got, want, by float64) bool { return math.Abs(got-want) <= by }

// Must ends the test at an error.
func Must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
