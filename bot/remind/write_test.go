package remind_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"detent/bot/remind"
	"detent/tuning"
)

// remembering is a place that remembers every car alike.
type remembering struct {
	lines []string
	err   error
}

func (r remembering) Memory(_ context.Context, _ tuning.Club, _ tuning.Event, car tuning.Car) ([]string, error) {
	return append([]string(nil), r.lines...), r.err
}

// What worked at a place before is told with the check before the event, to the
// person alone, and leaves the message within its bounds.
func TestTheCheckTellsWhatWorked(t *testing.T) {
	const best = "Windy Hill in the dry: grip 8 was best."
	w, club, _ := springDay(t)
	w.heart.Memories = remembering{lines: []string{best, strings.Repeat("It was left there with other clicks. ", 30)}}
	w.goTo(club, "2027-05-07 19:00")
	mail := w.post.take()
	if len(mail) != 1 {
		t.Fatalf("arrived: %+v", mail)
	}
	r := mail[0].reply
	if !strings.HasSuffix(r.Text, best) || r.Actions[1].Label != "What worked with Blue hatch" || !strings.HasPrefix(r.Actions[1].Ask, "/event place name:") {
		t.Errorf("it says\n%s\n%+v", r.Text, r.Actions)
	}
	if lines, runes := r.Message().Measure(); lines > 20 || runes > 900 || strings.Contains(r.Message().Text, "…") {
		t.Errorf("%d lines and %d characters:\n%s", lines, runes, r.Message().Words())
	}
}

func TestTwoCarsRememberApart(t *testing.T) {
	w, club, event := springDay(t)
	w.enter(club, event, "sam", "Grey coupe")
	w.heart.Memories = remembering{lines: []string{"Windy Hill: grip 8 was best."}}
	w.goTo(club, "2027-05-07 19:00")
	if r := w.post.take()[0].reply; !strings.Contains(r.Text, "Blue hatch, Windy Hill: grip 8") || !strings.Contains(r.Text, "Grey coupe, Windy Hill: grip 8") {
		t.Errorf("it says\n%s", r.Text)
	}
}

// In the channel, where others read, nothing of it is told.
func TestTheChannelIsNotToldWhatWorked(t *testing.T) {
	w, club, _ := springDay(t)
	w.heart.Memories = remembering{lines: []string{"Windy Hill: grip 8 was best."}}
	w.post.fails["person-sam"] = remind.ErrClosed
	w.goTo(club, "2027-05-07 19:00")
	mail := w.post.take()
	if len(mail) != 1 || mail[0].to != club.Channel || strings.Contains(mail[0].reply.Message().Words(), "grip 8") || len(mail[0].reply.Actions) != 0 {
		t.Errorf("arrived: %+v", mail)
	}
}

// A place that cannot be read puts the check off; it comes when it can.
func TestTheCheckWaitsForThePlace(t *testing.T) {
	w, club, _ := springDay(t)
	w.heart.Memories = remembering{err: errors.New("the record is away")}
	w.goTo(club, "2027-05-07 19:00")
	w.wantMail()
	w.heart.Memories = remembering{}
	w.goTo(club, "2027-05-07 19:05")
	w.wantMail(checkSam)
}
