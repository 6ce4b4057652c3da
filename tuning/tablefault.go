package tuning

import "fmt"

// TableFault is why a force table cannot be used, with the line and the values
// that it is about.
type TableFault struct {
	Why    TableFaultKind
	Line   int    // from 1, 0 for the table as a whole
	Values int    // of the line or the table, where their number is at fault
	Column string // "speed", "bump force" or "rebound force"
	Click  int
	Softer int // the softer click with the larger force
}

// TableFaultKind is what is wrong with a force table.
type TableFaultKind string

// What can be wrong, and which fields of TableFault tell more.
const (
	TableTooLarge  TableFaultKind = "too many bytes"
	TooManyLines   TableFaultKind = "too many lines"     // Values
	NoHeader       TableFaultKind = "no header"          // Line
	WrongValues    TableFaultKind = "not four values"    // Line, Values
	BadClick       TableFaultKind = "not a click"        // Line
	BadValue       TableFaultKind = "not a number"       // Line, Column
	HugeValue      TableFaultKind = "too large a value"  // Line
	SpeedsFall     TableFaultKind = "speeds do not rise" // Line, Click
	OneSpeed       TableFaultKind = "only one speed"     // Line, Click
	NoValues       TableFaultKind = "no values"
	ForceFalls     TableFaultKind = "a stiffer click has less force" // Line, Column, Click, Softer
	MoreThanDamper TableFaultKind = "more clicks than the damper"    // Click, Values: the damper's
)

// TableFaultKinds are all of them.
var TableFaultKinds = []TableFaultKind{TableTooLarge, TooManyLines, NoHeader, WrongValues, BadClick, BadValue,
	HugeValue, SpeedsFall, OneSpeed, NoValues, ForceFalls, MoreThanDamper}

func (t TableFault) Error() string { return fmt.Sprintf("force table, line %d: %s", t.Line, t.Why) }

// Refuses returns Limit for a table that is too large, otherwise Invalid.
func (t TableFault) Refuses() Kind {
	if t.Why == TableTooLarge || t.Why == TooManyLines {
		return Limit
	}
	return Invalid
}
