package coaching_test

import (
	"strings"
	"testing"
	"time"

	"detent/bot/bottest"
	"detent/tuning/calendar"
)

// What a coach writes and suggests is sent to the student, up to some messages
// a day; the rest waits to be read.
func TestWhatACoachWritesIsSent(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	agree(kim, robin)
	kim.Does(`/coach note member:robin text:"Brake later."`)
	kim.Does(`/coach suggest member:robin at:rear adjuster:rebound to:14 why:"Half of that is enough."`)
	if len(wall.mail) != 2 || wall.mail[0].Kind != calendar.CoachNote || wall.mail[1].Kind != calendar.Suggestion ||
		wall.mail[0].Person != "robin" || wall.mail[0].About != 1 || !wall.mail[0].At.Equal(bottest.Morning) {
		t.Fatalf("sent are %+v", wall.mail)
	}
	for n := 3; n <= 8; n++ {
		left := kim.Does(`/coach note member:robin text:"And once more."`)
		if n > 6 != strings.Contains(left.Text, "enough messages for a day") {
			t.Errorf("after %d: %q", n, left.Text)
		}
	}
	if len(wall.mail) != 6 || len(wall.notes) != 7 {
		t.Errorf("%d are sent of %d notes and a suggestion", len(wall.mail), len(wall.notes))
	}
	kim.At = bottest.Morning.Add(24 * time.Hour)
	kim.Does(`/coach note member:robin text:"A new day."`)
	if len(wall.mail) != 7 {
		t.Errorf("the day after %d are sent", len(wall.mail))
	}
}

// In the evening the message waits for the end of the quiet hours, and counts
// for the day on which it arrives.
func TestWhatACoachWritesInTheEvening(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	agree(kim, robin)
	kim.At = time.Date(2026, time.May, 16, 22, 0, 0, 0, time.UTC)
	for n := range 7 {
		left := kim.Does(`/coach note member:robin text:"Sleep well."`)
		if n < 6 && left.Text != "They get it as a message after the quiet hours, unless they switched those off, and find it under /coach notes." {
			t.Errorf("in the evening: %q", left.Text)
		}
	}
	kim.At = kim.At.Add(11 * time.Hour)
	kim.Does(`/coach note member:robin text:"Good morning."`)
	if len(wall.mail) != 6 || !wall.mail[5].At.Equal(time.Date(2026, time.May, 17, 8, 0, 0, 0, time.UTC)) {
		t.Errorf("sent are %+v", wall.mail)
	}
}

func TestAcceptingSaysHowToStopMessages(t *testing.T) {
	_, kim, robin := newPitwall(t)
	kim.Does(`/coach ask member:robin`)
	if r := robin.Does(`/coach accept member:kim`); !strings.Contains(strings.Join(r.Notes, " "), "/me set messages:off stops that.") {
		t.Errorf("it says %q", r.Notes)
	}
}
