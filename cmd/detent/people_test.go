package main

import (
	"fmt"
	"log/slog"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"detent/bot"
	"detent/bot/discord"
	"detent/bot/discord/discordtest"
	"detent/tuning"
)

// hand is a member's hand on a phone. It counts what the way to an answer costs:
// to send a line is two taps after the slash and two letters that find its
// command, to open a menu and to choose one tap each, and a value that is
// neither chosen nor pressed is typed.
type hand struct {
	*testing.T
	*discordtest.Member
	taps, typed int
	shown       *discordtest.Reply
}

// sends types a line. Menus are what the command offers as choices.
func (h *hand) sends(line string, menus ...string) *hand {
	h.Helper()
	h.taps += 2 + 2*len(menus)
	h.typed += 3
	typed := line
	for _, m := range menus {
		typed = strings.Replace(typed, " "+m, "", 1)
	}
	if _, values, ok := strings.Cut(typed, ":"); ok {
		h.typed += utf8.RuneCountInString(values)
	}
	h.shown = h.Type(line)
	return h
}

// presses presses a button of what was shown last, by the beginning of its label.
func (h *hand) presses(label string) *hand {
	h.Helper()
	h.taps++
	h.shown = h.Press(h.shown.Message(), buttonOf(h.T, h.shown, label))
	return h
}

// fills fills in the form that was opened and sends it: one tap a field, and
// one to send.
func (h *hand) fills(values map[string]string) *hand {
	h.Helper()
	h.taps += 1 + len(values)
	for _, v := range values {
		h.typed += utf8.RuneCountInString(v)
	}
	h.shown = h.shown.Form().Fill(values).Submit()
	return h
}

// sees fails unless what was shown last has the words.
func (h *hand) sees(words ...string) *hand {
	h.Helper()
	for _, w := range words {
		if !strings.Contains(h.shown.Text(), w) {
			h.Fatalf("it lacks %q:\n%s", w, h.shown.Text())
		}
	}
	return h
}

// cost fails above the bounds and starts counting again.
func (h *hand) cost(what string, taps, typed int) {
	h.Helper()
	if h.taps > taps || h.typed > typed {
		h.Errorf("%s costs %d taps and %d typed characters, more than %d and %d", what, h.taps, h.typed, taps, typed)
	}
	h.Logf("counted: %s: %d taps, %d characters typed, %d lines shown", what, h.taps, h.typed, shownLines(h.shown.Text()))
	h.taps, h.typed = 0, 0
}

// shownLines is how many lines of 44 columns a text takes.
func shownLines(text string) (n int) {
	for _, line := range strings.Split(text, "\n") {
		n += max(1, (utf8.RuneCountInString(line)+43)/44)
	}
	return n
}

// eachWay runs a test over the gateway and over signed posts.
func eachWay(t *testing.T, test func(*testing.T, workspace)) {
	for name, processes := range map[string]int{"gateway": 0, "posted": 2} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			test(t, openWorkspace(t, processes))
		})
	}
}

// From an empty club to the first start in eight taps and three characters, and
// to a remedy in four more.
func TestFromNothingToTheFirstRemedy(t *testing.T) {
	eachWay(t, func(t *testing.T, w workspace) {
		h := &hand{T: t, Member: w.member}
		h.sends(`/baseline`).sees("no car")
		h.presses("Add a car").sees("Which wheels").presses("Front wheels").sees("Where is the engine").presses("In front").sees("My car")
		h.presses("Two-way").sees("How many clicks").presses("30").sees("Which stop").presses("From full hard").sees("Start My car at front", "FL", "RR")
		h.cost("from nothing to the first start of a two-way", 8, 3)
		h.presses("These are set now").sees("Noted")
		h.taps, h.typed = 0, 0
		h.sends(`/symptom what:understeer`, `what:understeer`).sees("understeer on entry", "FL")
		h.cost("from there to a remedy", 4, 3)
	})
}

// A newcomer with a one-way of twelve clicks, with a number that no button has.
func TestNewcomerWithAOneWay(t *testing.T) {
	eachWay(t, func(t *testing.T, w workspace) {
		h := &hand{T: t, Member: w.member}
		h.sends(`/symptom what:hops`, `what:hops`).presses("Add a car").presses("Rear wheels").presses("In the middle")
		h.presses("Name it").fills(map[string]string{"name": "Grey"}).sees("Grey")
		h.taps, h.typed = 0, 0
		h.sends(`/baseline`).sees("dampers").presses("Dampers").presses("One-way").presses("12").sees("single adjuster")
		h.presses("Rebound only").presses("From full soft").sees("Start Grey", "rebound")
		h.cost("a one-way of 12 clicks", 8, 3)
		h.sends(`/damper fit axle:front ways:one`, `axle:front`, `ways:one`).presses("Another number").fills(map[string]string{"clicks": "9"})
		h.presses("Rebound only").presses("From full soft").sees("Dampers of Grey saved", "Start Grey")
		h.cost("another axle, with a count that no button has", 11, 4)
	})
}

// A four-way of forty clicks with a force table, and the end of the car asked for.
func TestFourWayWithAForceTable(t *testing.T) {
	eachWay(t, func(t *testing.T, w workspace) {
		h := &hand{T: t, Member: w.member}
		h.sends(`/car list`).presses("Add a car").presses("All four").presses("In front").presses("Four-way").presses("40").presses("From full hard").sees("Start My car")
		h.cost("a four-way of 40", 8, 3)
		h.shown = h.Type(`/damper curve axle:front file:front.csv`, forceTable(40))
		h.sees("Force table of the front dampers")
		h.taps, h.typed = 0, 0
		h.sends(`/symptom what:packs-down`, `what:packs-down`).sees("At which end?").presses("Rear").sees("at the rear")
		h.cost("a complaint of one end", 5, 3)
		if h.shown = h.presses("Why").shown; !strings.Contains(h.shown.Text(), "Remedy 1") {
			t.Errorf("why: %s", h.shown.Text())
		}
		h.sends(`/apply`).sees("Noted")
	})
}

// A person who types decimals with a comma is understood, is asked where a number
// can be read in two ways, and gets a refused line back to correct.
func TestDecimalsWithAComma(t *testing.T) {
	eachWay(t, func(t *testing.T, w workspace) {
		h := &hand{T: t, Member: w.member}
		h.sends(`/car add drive:front engine:front name:Blue mass:1,08t front-share:61,5%`).sees("1080 kg")
		h.taps, h.typed = 0, 0
		h.sends(`/car edit mass:1,250`).sees("which do you mean").presses("1250").sees("1250 kg")
		h.cost("a number of two readings", 3, 8)
		h.sends(`/feel grip:7 lap:1:83,4`).presses("Correct it")
		if in := h.shown.Form().Inputs(); len(in) == 0 || in[1].Value != "1:83,4" {
			t.Fatalf("the form has %+v", in)
		}
		h.fills(map[string]string{"lap": "1:23,4"}).sees("1:23.4")
		h.sends(`/clicks set at:front adjuster:rebound to:"12 from hard"`).presses("Dampers").presses("Two-way").presses("24").presses("From full soft")
		h.sends(`/clicks set at:front adjuster:rebound to:"9 from hard"`).sees("Noted", "15 from soft").presses("I turned it now").sees("Turned")
		h.sends(`/log`).sees("record corrected", "by hand")
	})
}

// Two members press in one channel, and neither gets the other's answer.
func TestTwoMembersInOneChannel(t *testing.T) {
	eachWay(t, func(t *testing.T, w workspace) {
		robin, kim := &hand{T: t, Member: w.member}, &hand{T: t, Member: w.member.Guild.Member("kim")}
		for _, h := range []*hand{robin, kim} {
			h.sends(`/baseline`).presses("Add a car").presses("Rear wheels").presses("In front").presses("Two-way").presses("20").presses("From full hard").sees("Start My car")
		}
		refused := robin.sends(`/car edit mass:heavy`).shown
		if !refused.Private() {
			t.Error("a refusal is shown to all")
		}
		for _, h := range []*hand{robin, kim} {
			h.sends(`/symptom what:oversteer where:exit`).presses("Done").sees("Noted")
			h.sends(`/log`)
			if n := strings.Count(h.shown.Text(), "oversteer"); n != 1 {
				t.Errorf("%s has %d changes:\n%s", h.Member.Name, n, h.shown.Text())
			}
		}
		// The draft is robin's, by its number too.
		draft := refused.Message().Components[0].Components[0]
		if line, err := bot.ParseLine(draft.CustomID); draft.Label != "Correct it" || err != nil {
			t.Fatalf("%+v, %v", draft, err)
		} else {
			who := tuning.Who{Club: discord.Place + ":" + w.member.Guild.ID, Person: kim.ID, Role: tuning.MemberRole}
			router := bot.NewRouter(lines, records{w.db}, slog.New(slog.DiscardHandler))
			if form, ok := router.Form(t.Context(), bot.Ask{Line: line, Who: who, At: time.Now()}); ok {
				t.Errorf("kim gets robin's draft: %+v", form)
			}
			who.Person = robin.ID
			if _, ok := router.Form(t.Context(), bot.Ask{Line: line, Who: who, At: time.Now()}); !ok {
				t.Error("robin does not get it")
			}
		}
	})
}

// A coach asks, looks, and suggests, and the student applies it at a press.
func TestACoach(t *testing.T) {
	eachWay(t, func(t *testing.T, w workspace) {
		club := w.member.Guild
		robin, ash := &hand{T: t, Member: w.member}, &hand{T: t, Member: club.Member("ash", discordtest.Roles("coaches"))}
		club.Member("olive", discordtest.Permissions(discordtest.PermManageGuild)).Type(`/club set coach-role:@coaches`)
		robin.sends(`/baseline`).presses("Add a car").presses("Front wheels").presses("In front").presses("Two-way").presses("30").presses("From full hard")
		ash.sends(`/coach ask member:robin`)
		robin.sends(`/coach accept member:ash`)
		ash.taps, ash.typed = 0, 0
		ash.sends(`/coach suggest member:robin at:front adjuster:rebound to:"12 from hard" why:turn-in`, `at:front`, `adjuster:rebound`).sees("Suggested to robin")
		ash.cost("a coach's suggestion", 6, 50)
		robin.sends(`/coach notes`).presses("Done").sees("Noted")
		robin.sends(`/log`).sees("coach's suggestion")
		ash.sends(`/coach students`).sees("robin: no feel yet. Last change").presses("robin").sees("rebound").presses("Suggest")
		ash.fills(map[string]string{"at": "rear", "adjuster": "rebound", "to": "10 from hard", "why": "It comes light on the brakes."}).sees("Suggested to robin: Rear rebound")
		ash.sends(`/coach students`).presses("robin").presses("Look").sees("coach's suggestion").presses("Note")
		ash.fills(map[string]string{"text": "Brake earlier."}).sees("Note left for robin")
	})
}

// An organiser plans a day; a form that was refused comes back filled in.
func TestAnOrganiser(t *testing.T) {
	eachWay(t, func(t *testing.T, w workspace) {
		olive := &hand{T: t, Member: w.member.Guild.Member("olive", discordtest.Permissions(discordtest.PermManageGuild))}
		olive.sends(`/event add name:Spring starts:soon ends:later`).sees("starts takes a date")
		olive.presses("Correct it")
		form := olive.shown.Form()
		if in := form.Inputs(); len(in) < 3 || in[0].Value != "Spring" || in[1].Value != "soon" {
			t.Fatalf("the form has %+v", in)
		}
		year := time.Now().Year() + 1
		olive.fills(map[string]string{"starts": fmt.Sprintf("%d-05-16 09:00", year), "ends": fmt.Sprintf("%d-05-16 17:00", year)}).sees("Spring")
		robin := &hand{T: t, Member: w.member}
		robin.sends(`/event enter`).sees("no car").presses("Add a car").presses("Front wheels").presses("In front")
		robin.taps, robin.typed = 0, 0
		robin.sends(`/event enter`).sees("is in for Spring")
		robin.cost("entering the next event", 2, 3)
		olive.sends(`/event show name:Spring`).presses("Who is in").sees("1 car is in", "robin: My car, dampers not known")
		olive.sends(`/event show name:Spring`).presses("Plan it again").fills(map[string]string{"starts": fmt.Sprintf("%d-06-13 10:00", year)}).sees("Spring 13 Jun is planned", "10:00 to 18:00")
	})
}
