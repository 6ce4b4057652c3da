package remind_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot/remind"
)

// told remembers what was told to whom.
type told map[string]bool

func (n told) First(_ context.Context, _ time.Time, club, person, what string) (bool, error) {
	key := club + person + what
	first := !n[key]
	n[key] = true
	return first, nil
}

// TestBarredChannel has a channel that nothing can be posted in: the organiser
// who made the event is told once what is missing, what was due is tried again,
// and it is posted when the channel is mended.
func TestBarredChannel(t *testing.T) {
	w, club, _ := springDay(t)
	w.heart.Notices = told{}
	w.admin.MustExec(`update events set organiser = 'person-ash'`)
	w.post.fails["person-sam"] = remind.ErrClosed
	w.post.fails[club.Channel] = &remind.Barred{Channel: "1152921504606846977", Missing: []string{"Send Messages", "Attach Files"}}
	w.goTo(club, "2027-05-07 19:00")
	mail := w.post.take()
	if len(mail) != 1 || mail[0].to != "person-ash" {
		t.Fatalf("told: %+v", mail)
	}
	for _, words := range []string{"#1152921504606846977", "Send Messages, Attach Files", "/club set"} {
		if !strings.Contains(mail[0].reply.Text, words) {
			t.Errorf("it lacks %q: %s", words, mail[0].reply.Text)
		}
	}
	if !strings.Contains(mail[0].reply.Title, "Spring day") || len(mail[0].nonce) > 25 {
		t.Errorf("titled %q, named %q", mail[0].reply.Title, mail[0].nonce)
	}
	tried := w.post.tried
	w.goTo(club, "2027-05-07 19:10")
	if w.wantMail(); w.post.tried <= tried {
		t.Error("it is not tried again")
	}
	delete(w.post.fails, club.Channel)
	w.goTo(club, "2027-05-07 19:40")
	w.wantMail(club.Channel + ": Sam, Spring day starts on Saturday 8 May at 09:00")
	if rows := w.rows(); !slices.Contains(rows, "check-before person-sam sent in the club's channel") {
		t.Errorf("the timetable says %q", rows)
	}
}

// TestBarredForOtherReasons tells of a channel that is gone and of one that the
// platform bars without a word, and of each again when it is another.
func TestBarredForOtherReasons(t *testing.T) {
	w, club, _ := springDay(t)
	w.heart.Notices = told{}
	w.admin.MustExec(`update events set organiser = 'person-ash'`)
	w.post.fails["person-sam"] = remind.ErrClosed
	for _, c := range []struct {
		at     string
		barred *remind.Barred
		words  string
	}{
		{"2027-05-07 19:00", &remind.Barred{Channel: "7", Gone: true}, "is gone"},
		{"2027-05-07 19:30", &remind.Barred{Channel: "7"}, "not allowed to post in #7"},
	} {
		w.post.fails[club.Channel] = c.barred
		w.goTo(club, c.at)
		if mail := w.post.take(); len(mail) != 1 || !strings.Contains(mail[0].reply.Text, c.words) {
			t.Errorf("at %s it tells %+v", c.at, mail)
		}
	}
}

// TestNobodyToTell goes on where no organiser is known.
func TestNobodyToTell(t *testing.T) {
	w, club, _ := springDay(t)
	w.heart.Notices = told{}
	w.post.fails["person-sam"] = remind.ErrClosed
	w.post.fails[club.Channel] = &remind.Barred{Channel: "7", Gone: true}
	w.goTo(club, "2027-05-07 19:00")
	w.wantMail()
	if rows := w.rows(); !strings.HasPrefix(rows[0], "check-before person-sam open") {
		t.Errorf("the timetable says %q", rows)
	}
}
