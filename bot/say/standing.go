package say

import (
	"fmt"

	"detent/tuning"
)

// Standing says what is doubtful about where the clicks stand.
func Standing(c tuning.Case) []string {
	var notes []string
	if c.History.Unrecorded {
		notes = append(notes, "Nobody has told me where the clicks stand: this is the start; correct it with /clicks set.")
	}
	for axle := range tuning.Axle(tuning.Axles) {
		left, right := axle.Corners()[0], axle.Corners()[1]
		if c.Setting[left] != c.Setting[right] {
			notes = append(notes, fmt.Sprintf("Left and right differ at the %s: set them equal unless you mean it.", axle))
		}
	}
	return notes
}

// ChecksLine is said once an event or day, before clicks are turned.
const ChecksLine = "Checks first today: pressures, tyres, leaks."
