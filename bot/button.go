package bot

import (
	"fmt"

	"detent/tuning"
)

// Button is a line kept behind a label, with the things it is about named in
// it: by their names where a person reads the line, by their numbers where they
// press it.
func Button(label, line string, about ...Named) Action {
	a := Action{Label: label, Ask: line}
	for _, n := range about {
		a.Ask += " " + n.option + ":" + Quote(n.name)
	}
	if len(about) > 0 {
		a.Press = line
	}
	for _, n := range about {
		a.Press += fmt.Sprintf(" %s:%s%d", n.option, numberMark, n.number)
	}
	return a
}

// Named is a thing that a line names.
type Named struct {
	option, name string
	number       int64
}

// OfCar names a car.
func OfCar(car tuning.Car) Named { return Named{"car", car.Name, car.ID} }

// OfEvent names an event.
func OfEvent(e tuning.Event) Named { return Named{"name", e.Name, e.ID} }

// FeelAt is the button that says how a car felt at an event. The event goes by
// its number, for another may bear its name.
func FeelAt(label string, e tuning.Event, car tuning.Car) Action {
	return Button(label, fmt.Sprintf("/feel event:%s%d", numberMark, e.ID), OfCar(car))
}

// OfKept names clicks that were saved, for a line that names their car too.
func OfKept(kept tuning.Kept) Named { return Named{"name", kept.Name, kept.ID} }

// As names the thing in another option of the line.
func (n Named) As(option string) Named {
	n.option = option
	return n
}

// whyLabel is the label of the button behind which all of an answer stands.
const whyLabel = "Why"

// Why is the button that explains one remedy of an advice.
func Why(advice int64, remedy int) Action { return Button(whyLabel, WhyLine(advice, remedy)) }

// WhyLine is the line that explains one remedy of an advice.
func WhyLine(advice int64, remedy int) string {
	return fmt.Sprintf("/why advice:%d remedy:%d", advice, remedy)
}

// ApplyLine is the line that records one remedy of an advice as done.
func ApplyLine(advice int64, remedy int) string {
	return fmt.Sprintf("/apply advice:%d remedy:%d", advice, remedy)
}
