package bot

import (
	"detent/tuning"
	"fmt"
	"unicode/utf8"
)

// maxAim is the longest line behind a button: the ways in that have buttons
// have room for it, with the club beside it.
const maxAim = 78

// aim is a line with the car named, for a button; a car whose name has no room
// there goes by its number.
func aim(line string, car tuning.Car) string {
	named := line + " car:" + Quote(car.Name)
	if utf8.RuneCountInString(named) > maxAim {
		return fmt.Sprintf("%s car:%s%d", line, carNumber, car.ID)
	}
	return named
}
