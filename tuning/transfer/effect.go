package transfer

import (
	"errors"
	"fmt"

	"detent/tuning/unit"
)

// Effect is what a change of the car changes in one phase of a corner.
type Effect struct {
	Before, After Outcome
}

// Compare joins the outcomes of one phase before and after a change.
func Compare(before, after Outcome) (Effect, error) {
	if before.Phase != after.Phase {
		return Effect{}, errors.New("only outcomes of one phase can be compared")
	}
	return Effect{before, after}, nil
}

// Share is the change of the front's share of the load moved from side to side,
// 0.01 for one percentage point. Up is toward understeer.
func (e Effect) Share() unit.Share { return e.After.FrontShare - e.Before.FrontShare }

// Balance is the change of the balance: at entry over the moments the share is
// taken over, otherwise over the whole watch. Down is toward understeer.
func (e Effect) Balance() unit.Ratio {
	if e.Before.Phase == Entry {
		return e.After.Rolling.Balance - e.Before.Rolling.Balance
	}
	return e.After.Watch.Balance - e.Before.Watch.Balance
}

// EarlyBalance is the change of the balance over the first 0.15 s.
func (e Effect) EarlyBalance() unit.Ratio { return e.After.Early.Balance - e.Before.Early.Balance }

// Direction is the way a remedy is meant to move the balance.
type Direction int

const (
	TowardUndersteer Direction = +1
	TowardOversteer  Direction = -1
)

// Verdict is what the model says of a remedy.
type Verdict int

const (
	Neutral Verdict = iota
	Agrees
	Disagrees
)

// String is the word the verdict goes by.
func (v Verdict) String() string {
	if v < Neutral || v > Disagrees {
		return fmt.Sprintf("Verdict(%d)", int(v))
	}
	return [...]string{"neutral", "agrees", "disagrees"}[v]
}

// Less than this is no movement: 0.1 percentage point of the share, and a part
// of the balance well above what the stepping leaves uncertain.
const (
	shareMoves   = 0.001
	balanceMoves = 2e-5
)

// Verdict tells whether the change moves the balance as wanted. At entry the
// share decides, unless the balance moves the other way: the share is about left
// and right alone, and the balance also feels the axle's whole load. At exit and
// under braking the balance decides.
func (e Effect) Verdict(wanted Direction) Verdict {
	toward := float64(wanted)
	share := sign(toward*float64(e.Share()), shareMoves)
	balance := sign(-toward*float64(e.Balance()), balanceMoves)
	decides := balance
	if e.Before.Phase == Entry {
		decides = share
		if balance == -share {
			decides = 0
		}
	}
	switch decides {
	case +1:
		return Agrees
	case -1:
		return Disagrees
	}
	return Neutral
}

// sign is the direction of a change, 0 for one no greater than the threshold.
func sign(change, threshold float64) int {
	switch {
	case change > threshold:
		return +1
	case change < -threshold:
		return -1
	}
	return 0
}
