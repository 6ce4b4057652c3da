package say

import (
	"fmt"
	"strings"
	"time"

	"detent/tuning"
)

// Student says what a coach sees of a student at once, in short sentences:
// "Grip 7 on 12 May, rising. Understeer on entry since 12 May, not better yet.
// Last change 12 May: front rebound 2 softer, both sides. Next: Spring day, 23 May."
func Student(s tuning.Student, zone *time.Location, now time.Time) string {
	day := func(t time.Time) string { return DayNear(t, zone, now) }
	var parts []string
	switch {
	case s.Car.ID == 0:
		parts = append(parts, "No car yet")
	case len(s.Feels) == 0:
		parts = append(parts, "No feel yet")
	default:
		feel := fmt.Sprintf("Grip %d on %s", s.Feels[0].Grip, day(s.Feels[0].At))
		if trend := tuning.TrendOf(s.Feels); trend != "" {
			feel += ", " + string(trend)
		}
		parts = append(parts, feel)
	}
	if said, open := s.Open(); open {
		parts = append(parts, Capital(Complaint(said))+" since "+day(s.SaidAt)+", not better yet")
	}
	if s.Last.ID != 0 {
		parts = append(parts, "Last change "+day(s.Last.At)+": "+Briefly(s.Car, s.Last))
	}
	if s.Next.ID != 0 {
		parts = append(parts, "Next: "+s.Next.Name+", "+day(s.Next.Starts))
	}
	return strings.Join(parts, ". ") + "."
}

// DayNear says a day on the clocks of the club, with its year when that is another.
func DayNear(t time.Time, zone *time.Location, now time.Time) string {
	t, now = t.In(zone), now.In(zone)
	if t.Year() != now.Year() {
		return t.Format("2 Jan 2006")
	}
	return t.Format("2 Jan")
}
