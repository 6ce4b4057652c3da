package calendar

import (
	"testing"
	"time"
)

func TestYearIsThatOfTheClub(t *testing.T) {
	zone, err := Zone("Pacific/Auckland")
	if err != nil {
		t.Fatal(err)
	}
	from, to := Year(2026, zone)
	if got := from.UTC().Format(time.RFC3339); got != "2025-12-31T11:00:00Z" {
		t.Errorf("2026 begins at %s", got)
	}
	if next, _ := Year(2027, zone); !to.Equal(next) {
		t.Errorf("2026 ends at %v, 2027 begins at %v", to, next)
	}
}
