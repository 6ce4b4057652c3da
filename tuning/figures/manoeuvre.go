package figures

import (
	"fmt"
	"math"

	"detent/tuning/transfer"
	"detent/tuning/unit"
)

// balance judges a remedy by what it moves in a phase of a corner.
func (c change) balance(phase transfer.Phase, wanted transfer.Direction) (Verdict, error) {
	effect, err := c.effect(phase)
	if err != nil {
		return Verdict{}, err
	}
	verdict := Verdict{Rests: OnWhole, Word: Neutral}
	switch effect.Verdict(wanted) {
	case transfer.Agrees:
		verdict.Word = Agrees
	case transfer.Disagrees:
		verdict.Word = Disagrees
	}
	balance := "balance front against rear " + percent(float64(effect.Balance()))
	if phase == transfer.Entry {
		share := 100 * float64(effect.Share())
		verdict.Say = fmt.Sprintf("Estimate, turning in: front part of the load moved across %+.2f points, %s; %s.", share, balance, entryEnding(verdict.Word, share, wanted))
		return verdict, nil
	}
	when := map[transfer.Phase]string{transfer.Exit: "on the power", transfer.Braking: "on the brakes"}[phase]
	verdict.Say = fmt.Sprintf("Estimate, %s: %s over 0.8 s (%s in the first 0.15 s); %s.", when, balance, percent(float64(effect.EarlyBalance())), verdict.Word.ending())
	return verdict, nil
}

// entryEnding tells a remedy that moves too little from one whose two figures
// point different ways.
func entryEnding(w Word, share float64, wanted transfer.Direction) string {
	const told = 0.1 // points, from where the share counts
	switch {
	case w != Neutral || math.Abs(share) <= told:
		return w.ending()
	case share*float64(wanted) > 0:
		return "the share goes as wanted, the balance against it"
	}
	return "the share goes against what is wanted, the balance with it"
}

func percent(v float64) string { return fmt.Sprintf("%+.3f %%", 100*v) }

func (c change) effect(phase transfer.Phase) (transfer.Effect, error) {
	var outcomes [2]transfer.Outcome
	for i, at := range c.settings() {
		car, err := c.model.whole(at)
		if err != nil {
			return transfer.Effect{}, err
		}
		if outcomes[i], err = car.Try(phase, c.model.grip(), c.model.driven()); err != nil {
			return transfer.Effect{}, cannot(err, "drive this car")
		}
	}
	effect, err := transfer.Compare(outcomes[0], outcomes[1])
	return effect, cannot(err, "compare")
}

// The braking that a dive is looked at in: as hard as transfer brakes.
const (
	brakes   = -0.9 * unit.Gravity
	brakesOn = unit.Seconds(0.15)
)

// dive judges by how far the nose is down once the brakes are fully on.
func (c change) dive() (Verdict, error) {
	var down [2]float64
	braking := transfer.Manoeuvre{
		Lateral:      transfer.Course{{At: 0, Value: 0}},
		Longitudinal: transfer.Course{{At: 0, Value: 0}, {At: brakesOn, Value: brakes}},
	}
	for i, at := range c.settings() {
		car, err := c.model.whole(at)
		if err != nil {
			return Verdict{}, err
		}
		trace, err := car.Drive(braking, []unit.Seconds{brakesOn})
		if err != nil {
			return Verdict{}, cannot(err, "drive this car")
		}
		down[i] = float64(trace[0].Pitch) * 180 / math.Pi
	}
	w := word(1-down[1]/down[0], noise)
	return Verdict{Word: w, Rests: OnWhole, Say: fmt.Sprintf(
		"Estimate: when the brakes are fully on the nose is down %.3f° instead of %.3f°; %s.", down[1], down[0], w.ending())}, nil
}
