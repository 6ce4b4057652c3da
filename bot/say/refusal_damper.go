package say

import (
	"fmt"

	"detent/tuning"
)

// damperRefusal is about dampers, their clicks and their force tables.
func damperRefusal(r tuning.Refusal) string {
	switch r := r.(type) {
	case tuning.Unfitted:
		if r.Car == "" {
			return fmt.Sprintf("I do not know the %s dampers yet: use /damper fit axle:%s.", r.Axle, r.Axle)
		}
		return fmt.Sprintf("I do not know the %s dampers of %s yet: use /damper fit axle:%s, with ways, clicks and the stop you count from.", r.Axle, r.Car, r.Axle)
	case tuning.NoDampers:
		return fmt.Sprintf("The dampers of %s are not known yet: use /damper fit.", r.Car)
	case tuning.NoBump:
		return fmt.Sprintf("The grip search turns bump at all four corners, and %s has a damper without a bump adjuster.", r.Car)
	case tuning.BadRange:
		if r.Clicks == 0 {
			return fmt.Sprintf("Say how many clicks the %s has: %s:NUMBER, or clicks:NUMBER when every adjuster has the same.", r.Adjuster.Label(), r.Adjuster)
		}
		return fmt.Sprintf("%d clicks of %s cannot be right: give the number of clicks between the two stops, 1 to %d.", r.Clicks, r.Adjuster.Label(), tuning.MaxRange)
	case tuning.NoAdjuster:
		return fmt.Sprintf("A %s-way damper has no %s; it has %s.", r.Ways, r.Adjuster.Label(), adjusterLabels(r.Ways.Adjusters()))
	case tuning.PastStop:
		return fmt.Sprintf("%d is past the stop: the %s goes from 0 to %d, counted from %s.", r.Typed, r.Adjuster.Label(), r.Most, r.Count)
	case tuning.Moved:
		return fmt.Sprintf("The %s %s no longer stands where this change starts: ask again.", r.Move.Corner, r.Move.Adjuster.Label())
	case tuning.Overtaken:
		return overtaken(r)
	case tuning.TableFault:
		return tableFault(r)
	}
	return ""
}

func adjusterLabels(adjusters []tuning.Adjuster) string {
	var labels []string
	for _, a := range adjusters {
		labels = append(labels, a.Label())
	}
	return AllOf(labels)
}

// tableFault says why a force table cannot be used.
func tableFault(t tuning.TableFault) string {
	switch t.Why {
	case tuning.TableTooLarge:
		return fmt.Sprintf("The force table is larger than 1 MiB: send at most %d lines.", tuning.MaxTableLines)
	case tuning.TooManyLines:
		return fmt.Sprintf("The force table has %d lines: send at most %d.", t.Values, tuning.MaxTableLines)
	case tuning.NoValues:
		return "The force table has a header and no values: add a line for each click and speed."
	case tuning.NoHeader:
		return fmt.Sprintf("Line %d of the force table must be the header %s, with commas.", t.Line, tuning.ForceHeader)
	case tuning.WrongValues:
		return fmt.Sprintf("Line %d of the force table has %d values; it needs 4, separated by commas: %s.", t.Line, t.Values, tuning.ForceHeader)
	case tuning.MoreThanDamper:
		return fmt.Sprintf("The force table goes to click %d, but this damper has %d clicks: count from full soft, or correct /damper fit.", t.Click, t.Values)
	}
	if fault := lineFault(t); fault != "" {
		return fmt.Sprintf("Line %d of the force table: %s.", t.Line, fault)
	}
	return ""
}

// lineFault says what is wrong with the values of a line.
func lineFault(t tuning.TableFault) string {
	switch t.Why {
	case tuning.BadClick:
		return fmt.Sprintf("the click must be a whole number from 0 to %d, counted from full soft", tuning.MaxRange)
	case tuning.BadValue:
		return "the " + t.Column + " must be a number, 0 or more"
	case tuning.HugeValue:
		return "speeds are in mm/s and forces in N; these are too large"
	case tuning.SpeedsFall:
		return fmt.Sprintf("the speeds of click %d must rise from line to line", t.Click)
	case tuning.OneSpeed:
		return fmt.Sprintf("click %d has only one speed; give at least two", t.Click)
	case tuning.ForceFalls:
		return fmt.Sprintf("the %s at click %d is lower than at click %d, more than 5 %%; count clicks from full soft", t.Column, t.Click, t.Softer)
	}
	return ""
}
