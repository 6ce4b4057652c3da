package unit

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestLap(t *testing.T) {
	const lap = 83*time.Second + 400*time.Millisecond
	for text, want := range map[string]time.Duration{
		"1:23.4": lap, "1:23,4": lap, "1:23.400": lap, "1:23,400": lap, "83.4": lap, "83,4": lap, "01:23.4": lap, " 1:23.4 ": lap, "1: 23.4": lap,
		"59.9996": time.Minute, "0:45": 45 * time.Second, "59:59.999": time.Hour - time.Millisecond,
	} {
		if got, err := Lap(text); err != nil || got != want {
			t.Errorf("Lap(%q) = %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "0", "0:00", "1:60", "1:75.2", "60:00", "99", "3600.0", "-1:23", "1:-23", "1:2:3", "1:23.4.5", "1:", ":30x", "x:30", "nan", "1:inf", "1:1e1", "1:0x1", "100:01", "1,23:4"} {
		if got, err := Lap(text); err == nil {
			t.Errorf("Lap(%q) = %v, want a refusal", text, got)
		}
	}
}

func TestShownLapReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lap := time.Duration(rapid.Int64Range(1, int64(MaxLap/time.Millisecond)-1).Draw(t, "ms")) * time.Millisecond
		if back, err := Lap(ShowLap(lap)); err != nil || back != lap {
			t.Fatalf("%v is shown as %q and read back as %v, %v", lap, ShowLap(lap), back, err)
		}
	})
}

// What is read lies between nothing and an hour, and prints as itself.
func FuzzLap(f *testing.F) {
	for _, s := range []string{"1:23.4", "1:23,4", "83.4", "59.99999", "0:00.0004", "59:59.9999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		lap, err := Lap(text)
		if err != nil {
			return
		}
		if lap <= 0 || lap >= MaxLap {
			t.Fatalf("Lap(%q) = %v", text, lap)
		}
		if back, err := Lap(ShowLap(lap)); err != nil || back != lap {
			t.Fatalf("%q is shown as %q and read back as %v, %v", text, ShowLap(lap), back, err)
		}
	})
}
