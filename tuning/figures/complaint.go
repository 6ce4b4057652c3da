package figures

import (
	"detent/tuning"
	"detent/tuning/transfer"
)

// Phase is the part of a corner in which a balance is measured.
type Phase int

const (
	Entry Phase = iota
	Mid         // the middle, steady on a flat road: only bumps move the car
	Exit
	Braking
)

// runs are the phases that have manoeuvres.
var runs = map[Phase]transfer.Phase{Entry: transfer.Entry, Exit: transfer.Exit, Braking: transfer.Braking}

// asked is what a complaint and a remedy for it ask of the model.
type asked struct {
	counts    Counts
	gains     tuning.Axle
	one       bool // only the grip of that axle counts, not the mean of both
	phase     Phase
	mechanism MechanismKind
	wanted    float64 // +1 where the mechanism is to grow, −1 where it is to shrink
}

// asks tells what measures a complaint in the model, for a remedy that turns one
// axle or both (moved) one way. ok is false where nothing does: the model has no
// yaw and no driver.
func asks(c tuning.Complaint, car tuning.Car, moved []tuning.Axle, stiffer bool) (a asked, ok bool) {
	switch c.What {
	case tuning.Oversteer:
		return balance(c, tuning.Rear, moved[0], stiffer), true
	case tuning.Understeer:
		return balance(c, tuning.Front, moved[0], stiffer), true
	case tuning.LooseBraking:
		a = asked{counts: Balance, gains: tuning.Rear, phase: Braking, mechanism: Dive, wanted: -1}
		if moved[0] == tuning.Rear {
			a.mechanism = LoadSwing
		}
		return a, true
	case tuning.Wheelspin:
		a = asked{counts: Grip, gains: driven(car), one: true, mechanism: Squat, wanted: +1}
		if moved[0] == tuning.Front {
			a.mechanism = NoseRise
		}
		return a, true
	case tuning.LowGrip:
		return asked{counts: Grip, mechanism: Lean, wanted: -1}, true
	case tuning.Hops:
		return asked{counts: Grip, mechanism: LoadSwing, wanted: -1}, true
	case tuning.Kerbs:
		return asked{counts: KerbGrip, mechanism: Lift, wanted: -1}, true
	case tuning.Bottoms:
		return asked{counts: Grip, mechanism: Travel, wanted: -1}, true
	case tuning.Dives:
		return asked{counts: Mechanism, mechanism: Dive, wanted: -1}, true
	case tuning.SlowSettle:
		return asked{counts: Mechanism, mechanism: Settling, wanted: -1}, true
	case tuning.PacksDown:
		return asked{counts: Mechanism, mechanism: Sinking, wanted: -1}, true
	}
	return asked{}, false
}

// balance tells what is asked of a remedy that makes one axle gain against the
// other. Its mechanism is what the trade says the remedy does. On the way in, the
// axle that gives up takes more of the load transfer; in the middle of the
// corner, its load swings more; on the way out, stiffer holds an end where it is
// and softer lets it go.
func balance(c tuning.Complaint, gains, moved tuning.Axle, stiffer bool) asked {
	a := asked{counts: Balance, gains: gains, wanted: +1}
	switch c.Where {
	case tuning.Exit:
		a.phase, a.mechanism = Exit, Squat
		if moved == tuning.Front {
			a.mechanism = NoseRise
		}
		if stiffer {
			a.wanted = -1
		}
	case tuning.Mid:
		a.phase, a.mechanism = Mid, LoadSwing
		if moved == gains {
			a.wanted = -1
		}
	default:
		a.phase, a.mechanism = Entry, TurnIn
		if gains == tuning.Front {
			a.wanted = -1
		}
	}
	return a
}

// driven is the axle that spins its wheels.
func driven(car tuning.Car) tuning.Axle {
	if car.Drive == tuning.FrontDrive {
		return tuning.Front
	}
	return tuning.Rear
}
