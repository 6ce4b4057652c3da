package say

import (
	"fmt"
	"time"

	"detent/tuning"
)

// Facts puts what an answer has to say beside its remedies into sentences. That
// the order is the car's own is not among them: LearnedOrder says it from what
// was learned.
func Facts(car tuning.Car, facts []tuning.Fact, zone *time.Location) []string {
	var lines []string
	for _, f := range facts {
		if line := sayFact(car, f, zone); line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

func sayFact(car tuning.Car, f tuning.Fact, zone *time.Location) string {
	d := car.Dampers[f.Axle]
	adjuster := fmt.Sprintf("%s %s", f.Axle, d.Label(f.Adjuster))
	switch f.Kind {
	case tuning.UnequalSides:
		return fmt.Sprintf("%s stands at %d left and %d right: make them equal first.", Capital(adjuster), d.Counted(f.Adjuster, f.Left), d.Counted(f.Adjuster, f.Right))
	case tuning.FeltWorse:
		if f.At.IsZero() {
			return fmt.Sprintf("%s %s felt worse last time.", Capital(adjuster), f.Turn)
		}
		return fmt.Sprintf("%s %s felt worse on %s.", Capital(adjuster), f.Turn, Time(f.At, zone))
	case tuning.LittleLeft:
		return fmt.Sprintf("Little is left on the %s: spring, bump-stop or ride height matter more.", adjuster)
	case tuning.MidCorner:
		return "In mid-corner dampers do little: springs, bars, tyres and ride height do more."
	case tuning.FaultTold:
		stop, because := Fault(f.Word)
		return stop + ". " + because
	case tuning.UntoldTries:
		return "You have turned that way twice for this and not said how it felt: say it with /feel, so that I can tell when to stop."
	case tuning.Unrecorded:
		return "I assume the clicks are at the start. Different? Tell me with /clicks set."
	}
	return sayNote(car, f)
}

// Fault says what to do about a fault that a word in the driver's last notes
// tells of: stop is a heading, because follows a car's name and a colon.
func Fault(word string) (stop, because string) {
	return fmt.Sprintf("Your last notes say %q: stop and have the car inspected", word),
		fmt.Sprintf("%q points to a fault, not a set-up. No clicks until it is repaired; then record how it feels with /feel.", word)
}
