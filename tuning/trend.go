package tuning

// Trend is where the marks for the grip of a car are going; "" while there are
// too few of them to tell.
type Trend string

// The trends.
const (
	Rising  Trend = "rising"
	Level   Trend = "level"
	Falling Trend = "falling"
)

// TrendOver is how many feels a trend looks at, and fewest how many there must be.
const (
	TrendOver = 5
	fewest    = 3
)

// TrendOf is the trend of the newest feels of a car, newest first: of the last
// five, those in the wet or in the dry as the newest was, for a wet day's marks
// say nothing of the car. Through their marks for the grip goes the straight
// line of least squares. More than one mark up from its first run to its last is
// rising, more than one down falling; one good or bad run at the end is neither.
// Common practice, no published source.
func TrendOf(feels []Feel) Trend {
	var grips []int // newest first
	for _, f := range feels[:min(len(feels), TrendOver)] {
		if f.Conditions.wet() == feels[0].Conditions.wet() {
			grips = append(grips, f.Grip)
		}
	}
	n := len(grips)
	if n < fewest {
		return ""
	}
	// The runs stand at x = n-1, n-3 … 1-n, two apart. The line climbs by
	// (n-1) · 2 · Σxy / Σx² from the first to the last of them.
	climb, squares := 0, 0
	for i, grip := range grips {
		x := n - 1 - 2*i
		climb += 2 * (n - 1) * x * grip
		squares += x * x
	}
	switch {
	case climb > squares:
		return Rising
	case climb < -squares:
		return Falling
	}
	return Level
}

// wet tells whether the track was not dry.
func (c Conditions) wet() bool { return c == ItWasDamp || c == ItWasWet }
