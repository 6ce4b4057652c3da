package garage

import (
	"cmp"

	"detent/tuning"
)

// weatherOption is the weather that an answer is for.
type weatherOption struct {
	Weather tuning.Weather `name:"weather" help:"the weather, when it is not the event's, or not dry"`
}

// at is the weather said, otherwise that of the event the car is at.
func (o weatherOption) at(k tuning.Case) tuning.Weather {
	return cmp.Or(o.Weather, k.Event.Weather.Known(), tuning.Dry)
}
