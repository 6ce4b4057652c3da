package clubroom

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"detent/bot/bottest"
	"detent/tuning"
	"detent/tuning/calendar"
)

// minutes is a record of a club's and a member's settings, in memory.
type minutes struct {
	bottest.Settings
	events []tuning.Event
	tables map[string][]map[string]any
	erased string
	due    map[string]int
}

func newMinutes(t *testing.T) (book *minutes, olga, robin bottest.Person) {
	book = &minutes{Settings: bottest.NewSettings(), due: map[string]int{}}
	robin = bottest.Person{T: t, Commands: Commands(), Book: book}
	olga = robin
	olga.Role = tuning.OrganiserRole
	return book, olga, robin
}

func (m *minutes) SaveClub(_ context.Context, club tuning.Club) error { m.HomeClub = club; return nil }
func (m *minutes) SaveMember(_ context.Context, member tuning.Member) error {
	m.Asker = member
	return nil
}
func (m *minutes) Export(context.Context, string) (map[string][]map[string]any, error) {
	return m.tables, nil
}
func (m *minutes) Erase(_ context.Context, person string) error              { m.erased = person; return nil }
func (m *minutes) Events(context.Context, time.Time) ([]tuning.Event, error) { return m.events, nil }
func (m *minutes) Entrants(context.Context, tuning.Event) ([]tuning.Entrant, error) {
	return []tuning.Entrant{{Person: "robin", Reminded: true}}, nil
}
func (m *minutes) Schedule(_ context.Context, _ int64, person string, due []calendar.Due) error {
	m.due[person] = len(due)
	return nil
}

func TestSetClub(t *testing.T) {
	book, olga, robin := newMinutes(t)
	robin.Refused(tuning.Forbidden, "organisers", `/club set zone:UTC`)
	olga.Refused(tuning.Invalid, "Say what to change", `/club set`)
	olga.Refused(tuning.Invalid, "did you mean Europe/Berlin?", `/club set zone:berlin`)
	want := book.HomeClub
	want.Channel, want.QuietFrom, want.RemindAfter, want.Sizes.StepMany = "paddock", 0, 90*time.Minute, 4
	olga.Does(`/club set channel:paddock quiet-from:00:00 remind-after:90m step-many:4`)
	if diff := cmp.Diff(want, book.HomeClub); diff != "" {
		t.Error(diff)
	}
	if len(book.due) != 0 {
		t.Errorf("without events there is something due: %v", book.due)
	}
	olga.Does(`/club set channel:""`)
	if book.HomeClub.Channel != "" {
		t.Error("a channel cannot be taken away again")
	}
}

// When the club's hours change, what is due moves with them, and events keep
// their moments.
func TestSetClubZone(t *testing.T) {
	book, olga, _ := newMinutes(t)
	starts := bottest.Morning.AddDate(0, 0, 7)
	book.events = []tuning.Event{{ID: 1, Name: "Spring day", Starts: starts, Ends: starts.Add(8 * time.Hour)}}
	r := olga.Does(`/club set zone:europe/berlin`)
	if book.HomeClub.Zone != "Europe/Berlin" || book.due["robin"] == 0 {
		t.Errorf("%q, due %v", book.HomeClub.Zone, book.due)
	}
	if len(r.Notes) != 1 || !strings.Contains(r.Notes[0], "Spring day keeps its moment, which now reads Sat 23 May 2026, 11:00") {
		t.Errorf("%q", r.Notes)
	}
	if got := olga.Suggests(`/club set`, "zone", "europe/ber"); len(got) != 1 || got[0].Value != "Europe/Berlin" {
		t.Errorf("offered are %+v", got)
	}
}
