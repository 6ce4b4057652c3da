package clubroom

import (
	"strings"
	"testing"

	"detent/tuning/calendar"
)

func TestEveryZoneIsKnown(t *testing.T) {
	if len(zones) < 400 {
		t.Fatalf("there are only %d zones", len(zones))
	}
	for _, z := range zones {
		if _, err := calendar.Zone(z); err != nil {
			t.Errorf("%s is offered and not known: %v", z, err)
		}
	}
}

func TestFindZone(t *testing.T) {
	for text, want := range map[string]string{
		"Europe/Berlin": "Europe/Berlin", " europe/BERLIN ": "Europe/Berlin", "america/new york": "America/New_York",
		"utc": "UTC", "US/Eastern": "US/Eastern",
	} {
		if got, err := findZone(text); got != want || err != nil {
			t.Errorf("%q is read as %q (%v), want %q", text, got, err, want)
		}
	}
	for text, hint := range map[string]string{
		"Europe/Berln": "did you mean Europe/Berlin?", "berlin": "did you mean Europe/Berlin?", "new york": "did you mean America/New_York?",
		"Local": "", "": "", "Qxzyqxzyqxzy": "",
	} {
		_, err := findZone(text)
		if err == nil || !strings.Contains(err.Error(), hint) {
			t.Errorf("%q is refused with %v, want the hint %q", text, err, hint)
		}
	}
}
