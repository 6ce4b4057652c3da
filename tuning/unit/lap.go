package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// MaxLap is the longest lap that is read.
const MaxLap = time.Hour

// Lap reads a lap time to the millisecond: "1:23.4", "1:23,4", or seconds alone
// as in "83.4". A comma is always a decimal point here. More than a minute in
// whole seconds is refused: it is more often a slip than a lap.
func Lap(text string) (time.Duration, error) {
	bad := fmt.Errorf("%s is not a lap time: type minutes and seconds, like 1:23.4", quote(text))
	minutes, seconds, parted := strings.Cut(squeeze(text), ":")
	if !parted {
		minutes, seconds = "0", minutes
	}
	m, err := strconv.ParseUint(minutes, 10, 8)
	if err != nil || len(minutes) > 2 || !onlyDigits(seconds) {
		return 0, bad
	}
	s, err := strconv.ParseFloat(strings.Replace(seconds, ",", ".", 1), 64)
	if err != nil || s >= 60 && (parted || !strings.ContainsAny(seconds, ".,")) {
		return 0, bad
	}
	ms := math.Round((float64(m)*60 + s) * 1000)
	if !(ms > 0 && ms < float64(MaxLap.Milliseconds())) {
		return 0, bad
	}
	return time.Duration(ms) * time.Millisecond, nil
}

// onlyDigits tells whether the text is made of digits, points and commas, so
// that nothing else that parses as a number passes.
func onlyDigits(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.,") == ""
}

// ShowLap prints a lap time to the millisecond: "1:23.400".
func ShowLap(d time.Duration) string {
	d = d.Round(time.Millisecond)
	return fmt.Sprintf("%d:%06.3f", int(d/time.Minute), (d % time.Minute).Seconds())
}
