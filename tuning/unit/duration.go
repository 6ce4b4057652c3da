package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// periods are the units of a length of time as they are typed, longest first.
var periods = []struct {
	names []string
	is    time.Duration
}{
	{[]string{"d", "day", "days"}, 24 * time.Hour},
	{[]string{"h", "hr", "hrs", "hour", "hours"}, time.Hour},
	{[]string{"m", "min", "mins", "minute", "minutes"}, time.Minute},
	{[]string{"s", "sec", "secs", "second", "seconds"}, time.Second},
}

// Duration reads a length of time as people type it: "3 h", "30 min",
// "1 h 30 min", "1h30m", "90m", "1,5 h". Each unit may stand once, the longer
// before the shorter, and a comma is a decimal point. A bare number is refused,
// for it could be hours or minutes; 0 needs no unit.
func Duration(text string) (time.Duration, error) {
	rest := squeeze(text)
	if rest == "0" {
		return 0, nil
	}
	bad := fmt.Errorf("%s is not a length of time: type it like 3h, 30 min or 1 h 30 min", quote(text))
	total, next := 0.0, 0
	for rest != "" {
		digits := len(rest) - len(strings.TrimLeft(rest, "0123456789.,"))
		v, err := strconv.ParseFloat(strings.Replace(rest[:digits], ",", ".", 1), 64)
		rest = rest[digits:]
		letters := strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) })
		if letters < 0 {
			letters = len(rest)
		}
		i := period(rest[:letters])
		if err != nil || i < next {
			return 0, bad
		}
		total += v * float64(periods[i].is)
		rest, next = rest[letters:], i+1
	}
	if next == 0 || !(total < math.MaxInt64) {
		return 0, bad
	}
	return time.Duration(math.Round(total)), nil
}

// period finds a unit by its name, -1 for none.
func period(name string) int {
	for i, p := range periods {
		for _, n := range p.names {
			if n == name {
				return i
			}
		}
	}
	return -1
}

// ShowDuration prints a length of time in hours and minutes, so that Duration
// reads it back to within half a minute: "3 h", "1 h 30 min".
func ShowDuration(d time.Duration) string {
	minutes := int64(d.Round(time.Minute) / time.Minute)
	hours, minutes := minutes/60, minutes%60
	switch {
	case hours == 0:
		return fmt.Sprintf("%d min", minutes)
	case minutes == 0:
		return fmt.Sprintf("%d h", hours)
	}
	return fmt.Sprintf("%d h %d min", hours, minutes)
}
