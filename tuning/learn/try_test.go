package learn

import (
	"detent/tuning/tuningtest"
	"testing"
	"time"
)

func TestWeight(t *testing.T) {
	const day = 24 * time.Hour
	for _, tt := range []struct {
		name   string
		age    time.Duration
		refits []time.Duration // ago
		want   float64
	}{
		{"now", 0, nil, 1},
		{"a year", 365 * day, nil, 0.5},
		{"two years", 730 * day, nil, 0.25},
		{"other tyres since", 0, []time.Duration{-0}, 1},
		{"other tyres a day later", 365 * day, []time.Duration{364 * day}, 0.125},
		{"tyres, then springs", 365 * day, []time.Duration{300 * day, 20 * day}, 0.03125},
		{"other tyres before it", 365 * day, []time.Duration{366 * day}, 0.5},
		{"other tyres in time to come", 365 * day, []time.Duration{-day}, 0.5},
		{"a clock that went back", -day, nil, 1},
	} {
		var refits []time.Time
		for _, ago := range tt.refits {
			refits = append(refits, now.Add(-ago))
		}
		tuningtest.Within(t, tt.name, Try{At: now.Add(-tt.age)}.Weight(now, refits), tt.want, 1e-12)
	}
}
