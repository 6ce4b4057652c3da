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
	sure := func(say string) CardTry { return CardTry{say, CommonPractice} }
	less := func(say string) CardTry { return CardTry{say, WeakerPractice} }
	for _, want := range []CardLine{
		{Oversteer, Entry, both, "", []CardTry{sure("front rebound stiffer"), less("rear rebound softer")}},
		{Understeer, Exit, frontOnly, "", []CardTry{sure("rear bump stiffer"), sure("front rebound slightly softer")}},
		{Understeer, Exit, rearOnly, "", []CardTry{sure("front rebound slightly softer"), sure("rear bump stiffer")}},
		{Hops, Anywhere, both, "", []CardTry{sure("all four bump softer by the back-off"), less("all four rebound slightly softer")}},
		{Kerbs, Anywhere, both, "", []CardTry{sure("all four high-speed bump softer (or bump slightly)"),
			less("all four high-speed rebound softer (where there is one)")}},
		{Nervous, Anywhere, both, "If anything stands above its middle, back to the start", []CardTry{less("front bump slightly softer")}},
		{Wheelspin, Anywhere, frontOnly, "", []CardTry{less("front rebound softer")}},
		{Wheelspin, Anywhere, rearOnly, "", []CardTry{sure("rear bump softer")}},
		{Bottoms, Anywhere, both, Bottoms.BeforeClicks(), []CardTry{less("that end's high-speed bump stiffer (or bump slightly)")}},
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
