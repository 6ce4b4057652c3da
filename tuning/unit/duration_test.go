package unit

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestDuration(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"3 h": 3 * time.Hour, "3h": 3 * time.Hour, "30 min": 30 * time.Minute, "1 h 30 min": 90 * time.Minute, "1h30m": 90 * time.Minute,
		"90m": 90 * time.Minute, "1,5 h": 90 * time.Minute, "1.5 hours": 90 * time.Minute, "2 days": 48 * time.Hour, "1 d 2 h": 26 * time.Hour,
		"3h0m0s": 3 * time.Hour, "90 Minutes": 90 * time.Minute, "0": 0, "0 min": 0, "45 s": 45 * time.Second, " 1 hr ": time.Hour, "168h": 168 * time.Hour,
	} {
		if got, err := Duration(text); err != nil || got != want {
			t.Errorf("Duration(%q) = %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "90", "h", "3 x", "1 h 1 h", "30 min 1 h", "-3h", "1:30", "1,5,5 h", "3 h 30", "1e9d", "9999999999999999 h", "3 h!", "nan h", "٣ h"} {
		if got, err := Duration(text); err == nil {
			t.Errorf("Duration(%q) = %v, want a refusal", text, got)
		}
	}
}

func TestShowDuration(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "0 min", 3 * time.Hour: "3 h", 90 * time.Minute: "1 h 30 min", 30 * time.Minute: "30 min", 168 * time.Hour: "168 h", 59*time.Minute + 40*time.Second: "1 h",
	} {
		if got := ShowDuration(d); got != want {
			t.Errorf("ShowDuration(%v) = %q, want %q", d, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.Int64Range(0, int64(10000*time.Hour)).Draw(t, "length"))
		if back, err := Duration(ShowDuration(d)); err != nil || (back-d).Abs() > 30*time.Second {
			t.Fatalf("%v is shown as %q and read back as %v, %v", d, ShowDuration(d), back, err)
		}
	})
}

// What is read is no negative length, and prints as one that is read again.
func FuzzDuration(f *testing.F) {
	for _, s := range []string{"3 h", "1 h 30 min", "90m", "1,5 h", "1d2h3m4s", ".h", ",h", "0"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := Duration(text)
		if err != nil {
			return
		}
		if d < 0 {
			t.Fatalf("Duration(%q) = %v", text, d)
		}
		if back, err := Duration(ShowDuration(d)); err != nil || (back-d).Abs() > 30*time.Second {
			t.Fatalf("%q is shown as %q and read back as %v, %v", text, ShowDuration(d), back, err)
		}
	})
}
