package main

import (
	"slices"
	"strings"
	"testing"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

// TestEveryComplaintIsOfferedAndSaid holds each complaint to what people see of
// it: it can be chosen, it is said in words, and the card has a line for it.
func TestEveryComplaintIsOfferedAndSaid(t *testing.T) {
	symptom, err := lines.Find(bot.Line{Words: []string{"symptom"}})
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(symptom.Options, func(o bot.Option) bool { return o.Name == "what" })
	card := tuning.Card([]tuning.Drive{tuning.FrontDrive, tuning.RearDrive, tuning.FourDrive})
	for _, w := range tuning.Whats {
		if !slices.Contains(symptom.Options[i].Choices, string(w.What)) {
			t.Errorf("/symptom does not take %s", w.What)
		}
		if said := say.Complaint(tuning.Complaint{What: w.What}); said == "" || said != strings.TrimSpace(said) {
			t.Errorf("%s is said as %q", w.What, said)
		}
		for _, l := range card {
			if l.What == w.What && l.First == "" && len(l.Try) == 0 {
				t.Errorf("the card has an empty line for %s", w.What)
			}
		}
		if !slices.ContainsFunc(card, func(l tuning.CardLine) bool { return l.What == w.What }) {
			t.Errorf("the card leaves out %s", w.What)
		}
	}
}
