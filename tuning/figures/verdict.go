package figures

import (
	"errors"
	"fmt"

	"detent/tuning"
	"detent/tuning/transfer"
)

// Verdict is what the model says of a remedy: a word, one sentence with its
// figure, and what the figure rests on. It never reorders the remedies.
type Verdict struct {
	Word  Word
	Say   string
	Rests Rests
}

// Word is the verdict itself.
type Word string

// The verdicts.
const (
	Agrees    Word = "agrees"
	Neutral   Word = "neutral"
	Disagrees Word = "disagrees"
	Unknown   Word = "unknown"
)

// Silent is the verdict of a model that could not be made.
func Silent(err error) Verdict {
	say := "The vehicle model has no answer for this car."
	if p, ok := errors.AsType[*tuning.Problem](err); ok {
		say = p.Say
	}
	return Verdict{Word: Unknown, Say: say}
}

// Judge says whether the model stands behind a remedy for a complaint: what
// the moves change on the member's car, or on an ordinary one of its layout
// where too little is known.
func (m Model) Judge(c tuning.Complaint, at tuning.Setting, moves []tuning.Move) Verdict {
	after, err := at.Apply(moves)
	if err != nil {
		return Silent(err)
	}
	change := change{model: m, before: at, after: after, moved: movedAxles(moves)}
	verdict, err := change.judge(c)
	if err != nil {
		return Silent(err)
	}
	return verdict
}

// change is a car before and after a remedy.
type change struct {
	model         Model
	before, after tuning.Setting
	moved         []tuning.Axle
}

func movedAxles(moves []tuning.Move) []tuning.Axle {
	var moved []tuning.Axle
	for axle := range tuning.Axle(tuning.Axles) {
		for _, m := range moves {
			if m.Corner.Axle() == axle && m.From != m.To {
				moved = append(moved, axle)
				break
			}
		}
	}
	return moved
}

// judge picks what stands for the complaint in the model.
func (c change) judge(complaint tuning.Complaint) (Verdict, error) {
	phase := transfer.Entry
	if complaint.Where == tuning.Exit {
		phase = transfer.Exit
	}
	switch complaint.What {
	case tuning.Oversteer:
		return c.balance(phase, transfer.TowardUndersteer)
	case tuning.Understeer:
		return c.balance(phase, transfer.TowardOversteer)
	case tuning.LooseBraking:
		return c.balance(transfer.Braking, transfer.TowardUndersteer)
	case tuning.Wheelspin: // the driven axle is to gain
		if c.model.car.Drive == tuning.FrontDrive {
			return c.balance(transfer.Exit, transfer.TowardOversteer)
		}
		return c.balance(transfer.Exit, transfer.TowardUndersteer)
	case tuning.Dives:
		return c.dive()
	case tuning.LowGrip:
		return c.grip("the grip index on a smooth track", tuning.Smooth, indexPart)
	case tuning.Hops:
		return c.grip("grip over rough ground and kerbs of a bumpy track", tuning.Bumpy, roughPart)
	case tuning.Kerbs:
		return c.grip("grip over a kerb", tuning.Bumpy, kerbPart)
	case tuning.SlowSettle:
		return c.settling()
	case tuning.PacksDown:
		return c.sinking()
	case tuning.Bottoms:
		return c.travel()
	}
	return Verdict{Word: Unknown, Say: fmt.Sprintf("There is no yaw, tyre lag or driver in the vehicle model, so it cannot tell about a car that is %s.", state[complaint.What])}, nil
}

// state says what a car is of which the model cannot tell.
var state = map[tuning.What]string{
	tuning.SlowTurnIn: "slow to answer the wheel", tuning.Nervous: "nervous", tuning.OneSided: "different left and right",
}

// word turns which way a figure went, +1 as wanted, into a word.
func word(toward, threshold float64) Word {
	switch {
	case toward > threshold:
		return Agrees
	case toward < -threshold:
		return Disagrees
	}
	return Neutral
}

// ending is how a sentence about a figure ends.
func (w Word) ending() string {
	switch w {
	case Agrees:
		return "as wanted"
	case Disagrees:
		return "against what is wanted"
	}
	return "too little to tell either way"
}
