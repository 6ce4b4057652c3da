package main

import (
	"io"
	"log/slog"
	"strings"
	"testing"
	"time"

	"detent/bot/discord"
	"detent/bot/discord/discordtest"
	"detent/store"
	"detent/tuning"
)

// TestOrganiserIsToldOnce has the guide of an event fall due where the bot may
// not post: the organiser is told once by whichever process it is, and the guide
// comes when the channel is mended.
func TestOrganiserIsToldOnce(t *testing.T) {
	t.Parallel()
	w := openWorkspace(t, 0)
	olive := w.member.Guild.Member("olive", discordtest.Permissions(discordtest.PermManageGuild))
	olive.Type(`/club set channel:#general zone:Europe/Berlin`)
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	in := time.Now().In(berlin).AddDate(0, 0, 30)
	day, noon := in.Format(time.DateOnly), time.Date(in.Year(), in.Month(), in.Day()-1, 12, 0, 0, 0, berlin)
	added := olive.Type(`/event add name:"Spring day" starts:"` + day + ` 09:00" ends:"` + day + ` 17:00" guide-at:"` + noon.Format("2006-01-02 15:04") + `"`)
	if !strings.Contains(added.Text(), "Spring day") {
		t.Fatal(added.Text())
	}
	w.member.Type(`/car add name:"Blue hatch" drive:front engine:front`)
	w.member.Type(`/event enter name:"Spring day"`)

	general := w.member.Guild.Channel("general").ReadOnly()
	now := noon
	beat := func() {
		t.Helper()
		heart := heartbeat(w.db, sender{w.door("")}, func() time.Time { return now }, slog.New(slog.NewJSONHandler(io.Discard, nil)))
		heart.Place = discord.Place
		if err := heart.Drain(t.Context()); err != nil {
			t.Fatal(err)
		}
		now = now.Add(time.Minute)
	}
	for range 3 { // each a process of its own
		beat()
	}
	inbox := olive.Inbox().Messages()
	if len(inbox) != 1 || !strings.Contains(inbox[0].Text(), "I cannot post about Spring day") || !strings.Contains(inbox[0].Text(), "I lack: Send Messages") {
		t.Fatalf("the organiser is told %+v", inbox)
	}
	if got := w.Requests(discordtest.PostMessage); len(got) != 1 {
		t.Errorf("%d messages are sent, one of them to the organiser", len(got))
	}
	general.Open()
	before := len(general.Messages())
	now = now.Add(time.Hour)
	beat()
	if got := general.Messages(); len(got) != before+1 || !strings.Contains(got[before].Text(), "Guide for Spring day") {
		t.Errorf("once it is mended there is %+v", got)
	}
}

// TestNoticesGoToMembersAlone tells nobody who has left or takes no direct
// messages, and changes nothing about them.
func TestNoticesGoToMembersAlone(t *testing.T) {
	t.Parallel()
	w := openWorkspace(t, 0)
	w.member.Type("/help")
	w.member.Type(`/me set reminders:on`)
	club := discord.Place + ":" + w.member.Guild.ID
	told := func(person, what string) bool {
		t.Helper()
		first, err := notices{w.db}.First(t.Context(), time.Now(), club, person, what)
		if err != nil {
			t.Error(err)
		}
		return first
	}
	if told("nobody", "x") {
		t.Error("nobody is told")
	}
	if !told(w.member.ID, "x") || told(w.member.ID, "x") || !told(w.member.ID, "y") {
		t.Error("a member is not told each thing once")
	}
	if err := w.db.CloseDirect(t.Context(), time.Now(), club, w.member.ID); err != nil {
		t.Fatal(err)
	}
	if told(w.member.ID, "z") {
		t.Error("who takes no direct messages is told")
	}
	err := w.db.Read(t.Context(), tuning.Who{Club: club, Person: w.member.ID}, time.Now(), func(b *store.Book) error {
		m, err := b.Member(t.Context(), w.member.ID)
		if !m.NoDirect {
			t.Error("it lets direct messages to them in again")
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}
