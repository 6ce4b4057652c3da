package season_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"detent/bot/bottest"
	"detent/tuning"
)

// in has people in the day in June, each with a car.
func (y *clubYear) in(entrants ...tuning.Entrant) {
	for i, e := range entrants {
		e.Event, e.Car.ID = 1, int64(i+1)
		y.entrants[1] = append(y.entrants[1], e)
	}
}

// Those who are in and take messages are told, each once; the organiser reads
// how many those are and how many they are not.
func TestTell(t *testing.T) {
	year, olga, robin := newYear(t)
	robin.Refused(tuning.Forbidden, "organisers", `/event tell text:"Bring water."`)
	olga.Refused(tuning.Conflict, "Nobody is in June day yet", `/event tell text:"Bring water."`)
	year.in(tuning.Entrant{Person: "robin", Reminded: true}, tuning.Entrant{Person: "robin", Reminded: false}, tuning.Entrant{Person: "sam", Reminded: true, Muted: true},
		tuning.Entrant{Person: "lee", Reminded: true, NoDirect: true}, tuning.Entrant{Person: "ash"}, tuning.Entrant{Person: "max", Reminded: true, Car: tuning.Car{Retired: true}})
	r := olga.Does(`/event tell text:" Gate opens at 8,  use the north one. " name:"June day"`)
	want := "It goes out now, with your name.\n1 of them takes no direct messages just now and may miss it.\n2 others want no messages: tell them yourself."
	if r.Title != "Message to 2 people in June day" || r.Text != want || !r.Private {
		t.Errorf("%q %q", r.Title, r.Text)
	}
	if len(year.told) != 1 || year.told[0] != (tuning.EventMessage{ID: 1, Event: 1, Sender: "olga", At: bottest.Morning, Text: "Gate opens at 8, use the north one."}) {
		t.Errorf("kept is %+v", year.told)
	}
	if len(year.mail) != 2 || year.mail[0].Person != "robin" || year.mail[1].Person != "lee" || year.mail[0].About != 1 || year.mail[0].Event != 1 {
		t.Errorf("sent are %+v", year.mail)
	}
}

func TestWhatCannotBeTold(t *testing.T) {
	year, olga, _ := newYear(t)
	year.in(tuning.Entrant{Person: "robin", Reminded: true})
	olga.Refused(tuning.Invalid, "Say in text what", `/event tell text:"  "`)
	olga.Refused(tuning.Limit, "Keep text under 400", `/event tell text:"`+strings.Repeat("x", 401)+`"`)
	for range 2 {
		olga.Does(`/event tell text:"Bring water."`)
	}
	olga.Refused(tuning.Limit, "have had 2 messages today: the next can go from Sun 17 May 2026, 00:00.", `/event tell text:"Bring water."`)
	olga.At, year.now = bottest.Morning.Add(15*time.Hour), bottest.Morning.Add(15*time.Hour) // the next day
	if r := olga.Does(`/event tell text:"And a hat."`); r.Text != "It goes out on Sun 17 May 2026, 08:00, after the quiet hours, with your name." {
		t.Errorf("at midnight: %q", r.Text)
	}
	year.entrants[1][0].Muted = true
	olga.Refused(tuning.Conflict, "Nobody who is in June day takes messages", `/event tell text:"Bring water."`)
	year.events[0].Cancelled = true
	olga.Refused(tuning.Conflict, "June day is cancelled", `/event tell text:"Bring water."`)
	year.events[0].Cancelled, olga.At = false, year.events[0].Ends
	olga.Refused(tuning.Conflict, "June day was over", `/event tell text:"Bring water."`)
	if len(year.told) != 3 || len(year.mail) != 3 {
		t.Errorf("%d are kept, %d sent", len(year.told), len(year.mail))
	}
}

// What is told late in the evening and what is told after midnight wait for the
// same morning, and count as one day's.
func TestQuietHoursDoNotDoubleTheDay(t *testing.T) {
	year, olga, _ := newYear(t)
	year.in(tuning.Entrant{Person: "robin", Reminded: true})
	late := time.Date(2026, time.May, 16, 22, 30, 0, 0, time.UTC)
	olga.At, year.now = late, late
	for range 2 {
		olga.Does(`/event tell text:"Bring water."`)
	}
	for _, at := range []time.Time{late, late.Add(2 * time.Hour)} {
		olga.At, year.now = at, at
		olga.Refused(tuning.Limit, "get 2 messages after the quiet hours already: write the next from Mon 18 May 2026, 00:00.", `/event tell text:"And a hat."`)
	}
	olga.At = late.Add(12 * time.Hour)
	olga.Refused(tuning.Limit, "have had 2 messages today: the next can go from Mon 18 May 2026, 00:00.", `/event tell text:"And a hat."`)
}

// Two events are told of apart.
func TestTwoADayAnEvent(t *testing.T) {
	year, olga, _ := newYear(t)
	olga.Does(`/event add name:"July day" starts:"2026-07-13 09:00" ends:"2026-07-13 17:00"`)
	for event := range int64(2) {
		year.entrants[event+1] = []tuning.Entrant{{Person: "robin", Reminded: true}}
		for range 2 {
			olga.Does(fmt.Sprintf(`/event tell text:"Bring water." name:%q`, year.events[event].Name))
		}
	}
	if len(year.mail) != 4 {
		t.Errorf("sent are %+v", year.mail)
	}
}

// Whoever enters reads that the organiser may write to them, unless they want
// no messages anyway.
func TestEnteringTellsOfMessages(t *testing.T) {
	year, _, robin := newYear(t)
	const mayWrite = "The organiser may message you about it; /me set messages:off stops that."
	if in := robin.Does(`/event enter`); !strings.Contains(in.Text, mayWrite) {
		t.Errorf("it says %q", in.Text)
	}
	year.Asker.Muted = true
	if in := robin.Does(`/event enter remind:yes`); strings.Contains(in.Text, mayWrite) {
		t.Errorf("muted, it says %q", in.Text)
	}
}

// In the night before the event a message does not wait, and the organiser reads
// that.
func TestToldInTheNightBefore(t *testing.T) {
	year, olga, _ := newYear(t)
	year.in(tuning.Entrant{Person: "robin", Reminded: true})
	night := year.events[0].Starts.Add(-3 * time.Hour)
	olga.At, year.now = night, night
	year.events[0].Starts = night.Add(time.Hour)
	r := olga.Does(`/event tell text:"Gate opens late."`)
	if want := "It goes out now, in the quiet hours: the event is too near to wait. It has your name."; r.Text != want || !year.mail[0].At.Equal(night) {
		t.Errorf("at %s: %q", night, r.Text)
	}
}
