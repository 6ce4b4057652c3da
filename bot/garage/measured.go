package garage

import (
	"detent/bot"
	"detent/bot/reading"
	"detent/tuning"
	"detent/tuning/unit"
)

// measuredOptions are what may be measured over a run.
type measuredOptions struct {
	Pressures  string            `name:"pressures" help:"hot, like 2.1 for all, or front 2.1 rear 2.0"`
	Conditions tuning.Conditions `name:"conditions" help:"how wet the track was"`
	Air        unit.Temperature  `name:"air" help:"the temperature of the air"`
	Track      unit.Temperature  `name:"track" help:"the temperature of the track"`
}

// measure puts what was measured into a feel.
func (o measuredOptions) measure(f *tuning.Feel, imperial bool) error {
	f.Conditions, f.Air, f.Track = o.Conditions, o.Air, o.Track
	if o.Pressures == "" {
		return nil
	}
	pressures, heat, err := reading.Pressures(o.Pressures, imperial)
	if err == nil && heat == tuning.TakenCold {
		err = bot.Problemf(tuning.Invalid, "A feel takes hot pressures: keep cold ones with /note what:pressures pressures:%s.", bot.Quote(o.Pressures))
	}
	f.Hot = pressures
	return err
}
