package garage

import (
	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

// complaintOn is the complaint that was made about a car. What only its dampers
// or the end of the car can settle is asked for; where in the corner it happens
// is taken as on entry, which placeActions lets the driver change.
func (o symptomOptions) complaintOn(call call, c tuning.Case) (tuning.Complaint, error) {
	complaint := tuning.Complaint{What: o.What, Where: o.Where, Axle: o.Axle.Axle(), Weather: o.at(c)}
	if err := bot.RequireDampers(c.Car); err != nil {
		return complaint, err
	}
	if o.What.NeedsAxle() && complaint.Axle == nil {
		return complaint, call.Missing("axle", bot.OfCar(c.Car))
	}
	if o.What.SplitsByPlace() && complaint.Where == tuning.Anywhere {
		complaint.Where = tuning.Entry
	}
	return complaint, nil
}

// placeActions are the other places of a complaint that was taken as on entry,
// none while the driver's notes tell of a fault.
func (o symptomOptions) placeActions(call call, c tuning.Case) []bot.Action {
	if !o.What.SplitsByPlace() || o.Where != tuning.Anywhere || tuning.Fault(c.History.LastNotes()) != "" {
		return nil
	}
	var actions []bot.Action
	line := call.Ask.Line.Without("car")
	for _, where := range []tuning.Where{tuning.Mid, tuning.Exit} {
		actions = append(actions, bot.Button(say.Capital(string(where)), line.With("where", string(where)).String(), bot.OfCar(c.Car)))
	}
	return actions
}

// complainAction is the button that asks what a car does.
func complainAction(car tuning.Car) bot.Action {
	return bot.Button("Something is wrong", "/symptom", bot.OfCar(car))
}

// symptomLine is the line that makes a complaint again.
func symptomLine(c tuning.Complaint) string {
	line := "/symptom what:" + string(c.What)
	if c.Where != tuning.Anywhere {
		line += " where:" + string(c.Where)
	}
	if c.Axle != nil {
		line += " axle:" + c.Axle.String()
	}
	if c.Weather != "" {
		line += " weather:" + string(c.Weather)
	}
	return line
}

// equalSides are the remedies that end the differences between left and right
// which an advice tells of: both sides to the softer of the two.
func equalSides(advice tuning.Advice) []tuning.Remedy {
	var remedies []tuning.Remedy
	for _, f := range advice.Facts {
		if f.Kind != tuning.UnequalSides {
			continue
		}
		remedies = append(remedies, tuning.Remedy{Kind: tuning.MakeEqual, Confidence: tuning.CommonPractice, Moves: f.Equal(),
			Why: tuning.WhySidesDiffer, Watch: tuning.WatchPullsNoMore})
	}
	return remedies
}
