package garage

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

// reasons are what an answer's one line may be about, the weightiest first. Each
// gives its sentence, "" where it does not apply, and what can be pressed about
// it. A fault comes before all of them, and replaces the answer.
var reasons = []func(situation) (line string, button bot.Action){
	situation.unequalSides,
	situation.fixFailed,
	situation.littleLeft,
	situation.unconfirmed,
	situation.checksDue,
	situation.coachWrote,
	situation.recordOrders,
	situation.judgementNotes,
}

// line is the first line that applies, and the buttons that go with it. The
// checks keep their button unless they were shown at this event and nothing has
// failed since.
func (s situation) line() (line string, actions []bot.Action) {
	for _, reason := range reasons {
		said, button := reason(s)
		if said == "" || len([]rune(said)) > bot.LineLength {
			continue
		}
		if line = said; button.Ask != "" {
			actions = append(actions, button)
		}
		break
	}
	if h := s.c.History; s.checks() && (h.FixFailed() || h.ChecksToShow()) && !slices.Contains(actions, checksButton) {
		actions = append(actions, checksButton)
	}
	return line, actions
}

// checks tells whether the general checks come before the clicks.
func (s situation) checks() bool { return len(s.advice.First) >= len(tuning.Checks) }

// fact finds a fact of the advice.
func (s situation) fact(kind tuning.FactKind) (tuning.Fact, bool) {
	i := slices.IndexFunc(s.advice.Facts, func(f tuning.Fact) bool { return f.Kind == kind })
	if i < 0 {
		return tuning.Fact{}, false
	}
	return s.advice.Facts[i], true
}

func (s situation) sayFact(f tuning.Fact) string {
	return say.Facts(s.c.Car, []tuning.Fact{f}, s.zone)[0]
}

func (s situation) unequalSides() (string, bot.Action) {
	f, ok := s.fact(tuning.UnequalSides)
	if !ok {
		return "", bot.Action{}
	}
	return s.sayFact(f), bot.Button("Make them equal", bot.ApplyLine(s.advice.ID, s.offered+1))
}

func (s situation) fixFailed() (string, bot.Action) {
	if f, ok := s.fact(tuning.FeltWorse); ok {
		return strings.TrimSuffix(s.sayFact(f), ".") + ": checks first.", checksButton
	}
	if s.checks() && s.c.History.FixFailed() {
		return "The last change did not help: go through the checks first.", checksButton
	}
	return "", bot.Action{}
}

func (s situation) littleLeft() (string, bot.Action) {
	if f, ok := s.fact(tuning.LittleLeft); ok {
		return s.sayFact(f), bot.Action{}
	}
	return "", bot.Action{}
}

func (s situation) unconfirmed() (string, bot.Action) {
	if !s.c.History.Unrecorded {
		return "", bot.Action{}
	}
	return "I assume the clicks are at the start. Different? Tell me.", bot.Button("Where they stand", "/clicks show", bot.OfCar(s.c.Car))
}

func (s situation) checksDue() (string, bot.Action) {
	if !s.checks() || !s.c.History.ChecksToShow() {
		return "", bot.Action{}
	}
	return say.ChecksLine, checksButton
}

func (s situation) coachWrote() (string, bot.Action) {
	return coachLine(s.unseen, s.zone)
}

// coachLine is the line about what a coach wrote or suggested and the driver
// has not read.
func coachLine(unseen tuning.Unseen, zone *time.Location) (string, bot.Action) {
	if unseen.CoachName == "" {
		return "", bot.Action{}
	}
	coach, day, read := phone.Clip(unseen.CoachName, phone.NameColumns), unseen.At.In(zone).Format("2 Jan"), bot.Button("Read it", "/coach notes")
	if unseen.Car == "" {
		return fmt.Sprintf("%s left you a note on %s.", coach, day), read
	}
	return fmt.Sprintf("%s suggested a change of %s on %s.", coach, phone.Clip(unseen.Car, phone.NameColumns), day), read
}

func (s situation) recordOrders() (string, bot.Action) {
	return s.order, bot.Action{}
}

// judgementNotes is the first thing that the judgement notes and that is short
// enough: an adjuster at its stop, a remedy that shrank.
func (s situation) judgementNotes() (string, bot.Action) {
	for _, note := range s.notes() {
		if len([]rune(note)) <= bot.LineLength {
			return note, bot.Action{}
		}
	}
	return "", bot.Action{}
}
