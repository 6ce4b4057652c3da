package tuning

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The lines below are the trade's remedies, common practice with no published
// source, the weaker ones from memory.
func TestCard(t *testing.T) {
	card := Card([]Drive{FrontDrive, RearDrive})
	both, frontOnly, rearOnly := []Drive{FrontDrive, RearDrive}, []Drive{FrontDrive}, []Drive{RearDrive}
	sure := func(part Part, job Job, turn Turn, far Far) CardTry {
		return CardTry{part, job, turn, far, CommonPractice}
	}
	less := func(part Part, job Job, turn Turn, far Far) CardTry {
		return CardTry{part, job, turn, far, WeakerPractice}
	}
	for _, want := range []CardLine{
		{Oversteer, Entry, both, "", []CardTry{sure(FrontPart, AnyRebound, Stiffer, FarStep), less(RearPart, AnyRebound, Softer, FarStep)}},
		{Understeer, Exit, frontOnly, "", []CardTry{sure(RearPart, AnyBump, Stiffer, FarStep), sure(FrontPart, AnyRebound, Softer, FarSlight)}},
		{Understeer, Exit, rearOnly, "", []CardTry{sure(FrontPart, AnyRebound, Softer, FarSlight), sure(RearPart, AnyBump, Stiffer, FarStep)}},
		{Hops, Anywhere, both, "", []CardTry{sure(WholeCar, AnyBump, Softer, FarBackOff), less(WholeCar, AnyRebound, Softer, FarSlight)}},
		{Kerbs, Anywhere, both, "", []CardTry{sure(WholeCar, FastBump, Softer, FarStep),
			less(WholeCar, FastRebound, Softer, FarStep)}},
		{Nervous, Anywhere, both, CheckMiddle, []CardTry{less(FrontPart, AnyBump, Softer, FarSlight)}},
		{Wheelspin, Anywhere, frontOnly, "", []CardTry{less(FrontPart, AnyRebound, Softer, FarStep)}},
		{Wheelspin, Anywhere, rearOnly, "", []CardTry{sure(RearPart, AnyBump, Softer, FarStep)}},
		{Bottoms, Anywhere, both, Bottoms.BeforeClicks(), []CardTry{less("", FastBump, Stiffer, FarStep)}},
		{OneSided, Anywhere, both, OneSided.BeforeClicks(), nil},
	} {
		i := slices.IndexFunc(card, func(l CardLine) bool {
			return l.What == want.What && l.Where == want.Where && slices.Equal(l.Drives, want.Drives)
		})
		if i < 0 {
			t.Errorf("the card has no line for %s %s of %v", want.What, want.Where, want.Drives)
			continue
		}
		if diff := cmp.Diff(want, card[i]); diff != "" {
			t.Errorf("want -, got +:\n%s", diff)
		}
	}
	for _, known := range Whats {
		if !slices.ContainsFunc(card, func(l CardLine) bool { return l.What == known.What }) {
			t.Errorf("the card leaves out %s", known.What)
		}
	}
}

func TestCardOfOneDrive(t *testing.T) {
	for _, drive := range []Drive{FrontDrive, RearDrive, FourDrive} {
		if n := len(Card([]Drive{drive})); n != len(Whats)+2 { // two complaints have a line for the exit
			t.Errorf("the card of %s drive has %d lines", drive, n)
		}
	}
}
