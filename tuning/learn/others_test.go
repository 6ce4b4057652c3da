package learn

import (
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

// Cars of the owner count for the estimate, and not for whether enough people
// know a remedy to speak of it.
func TestOthers(t *testing.T) {
	one := Sums{A: 1, B: 0.5, Tries: 2, Helped: 1}
	cars := []CarTries{{"sam", one}, {"ann", one}, {"ben", one}, {"eve", Sums{}}}
	o := OthersOf("sam", cars)
	if o.Cars != 3 || o.Strangers != 2 || o.People != 2 || o.Tries != 6 || o.Helped != 3 || o.Told() != (ClubTries{}) {
		t.Errorf("of two strangers: %+v", o)
	}
	tuningtest.Within(t, "A", o.A, 3/1.2025, 1e-15)
	tuningtest.Within(t, "B", o.B, 1.5/1.2025, 1e-15)
	if got := OthersOf("sam", append(cars, CarTries{"ann", one})).Told(); got != (ClubTries{}) {
		t.Errorf("of three cars of two strangers is told %+v", got)
	}
	if got := OthersOf("sam", append(cars, CarTries{"cat", one})).Told(); got != (ClubTries{4, 8, 4}) {
		t.Errorf("of three strangers is told %+v", got)
	}
	if got, want := o.Club(true), ClubOf(true, []Sums{one, one, one}); got != want {
		t.Errorf("the club is %+v, want %+v", got, want)
	}
}

// Both axles that get dampers at one moment are one refit.
func TestRefitsAtOneMoment(t *testing.T) {
	front := because(1, tuning.ByFitting, moves(tuning.Front, tuning.Rebound, -1, 11))
	rear := because(2, tuning.ByFitting, moves(tuning.Rear, tuning.Rebound, -1, 11))
	front.At, rear.At = now, now
	if refits := (Record{Entries: []Entry{front, rear, Refitted{now.Add(time.Hour)}}}).Refits(); len(refits) != 2 {
		t.Errorf("the refits are %v", refits)
	}
}

func TestEffectsAreSurestFirst(t *testing.T) {
	k := knowing()
	effects := k.Evidence.Effects(hatch, tuning.History{}, tuning.DefaultSizes)
	if len(effects) != 2 || effects[0].Estimate.Variance > effects[1].Estimate.Variance || len(effects[0].Told.Turns) != 1 {
		t.Errorf("the effects are %+v", effects)
	}
	if bare := k.Evidence.Effects(tuning.Car{Drive: tuning.FrontDrive}, tuning.History{}, tuning.DefaultSizes); len(bare) != 2 || len(bare[0].Told.Turns) != 0 {
		t.Errorf("without dampers they are %+v", bare)
	}
}

func TestTogether(t *testing.T) {
	keys := tuning.RecipesFor(hatch, pushy, tuning.History{})
	try := func(car int64, owner string, key Key, helped bool) Try {
		return Try{Car: car, Owner: owner, Key: key, Fraction: 1, Reading: Reading{Moved: 0.9, Variance: 0.8, Helped: helped}}
	}
	all := TogetherOf([]Try{try(1, "a", keys[0], true), try(1, "a", keys[1], true), try(2, "b", keys[1], true), try(3, "c", keys[1], false)})
	if len(all) != 2 || all[0].Key != keys[1] || all[0].Tries != 3 || all[0].Helped != 2 || all[0].Club.Cars != 3 || all[1].Club.Cars != 0 {
		t.Errorf("together they are %+v", all)
	}
}
