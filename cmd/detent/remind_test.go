package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord"
	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

// due runs `detent remind` once at a time and returns what it prints.
func (p paddock) due(at string) (printed []delivery, errs string) {
	p.Helper()
	out, errs, code := execute(p, "remind", "--once", "--json", "--at", at)
	if code != exitAnswered {
		p.Fatalf("remind at %s left with status %d: %s", at, code, errs)
	}
	for line := range strings.Lines(out) {
		var d delivery
		if err := json.Unmarshal([]byte(line), &d); err != nil {
			p.Fatalf("remind printed %q: %v", line, err)
		}
		printed = append(printed, d)
	}
	return printed, errs
}

func TestRemindPrintsWhatIsDue(t *testing.T) {
	p := newPaddock(t).blueHatch()
	p.as("--as", "Ash", "--role", "organiser").does(
		`/event add name:"Spring day" starts:"2026-05-30 09:00" ends:"2026-05-30 17:00" guide-at:"2026-05-28 12:00"`,
		`/club set channel:general`)
	p.does(`/event enter name:"Spring day"`)

	if printed, _ := p.due("2026-05-28T11:59:00Z"); len(printed) != 0 {
		t.Errorf("before anything is due it prints %+v", printed)
	}
	printed, _ := p.due("2026-05-28T12:00:00Z")
	if len(printed) != 1 || printed[0].Channel != "general" || printed[0].Title != "Guide for Spring day" || len(printed[0].Files) != 1 {
		t.Errorf("the guide is printed as %+v", printed)
	}
	printed, _ = p.due("2026-05-29T19:00:00Z")
	if len(printed) != 1 || printed[0].To != "you" || printed[0].Title != "Spring day starts on Saturday 30 May at 09:00" {
		t.Errorf("the evening before it prints %+v", printed)
	}
	out, _, _ := execute(t, "remind", "--once", "--at", "2026-05-30T20:00:00Z")
	for _, words := range []string{"── 2026-05-30T20:00:00Z, to you of paddock", "How did the car feel at Spring day?", `/feel event:#1 car:"Blue hatch"`} {
		if !strings.Contains(out, words) {
			t.Errorf("after the event it prints no %q:\n%s", words, out)
		}
	}
	if printed, _ := p.due("2026-05-30T20:01:00Z"); len(printed) != 0 {
		t.Errorf("it asks twice: %+v", printed)
	}
	p.as("--at", "2026-05-30T20:30:00Z").does(`/feel grip:7`)
	printed, errs := p.due("2026-05-31T20:00:00Z")
	if len(printed) != 0 || !strings.Contains(errs, "they have answered") {
		t.Errorf("whoever answered is asked again: %+v\n%s", printed, errs)
	}
}

// A rehearsal sends and settles as if it were the time; a dry run shows the
// same and changes nothing.
func TestRemindDry(t *testing.T) {
	p := newPaddock(t).blueHatch()
	p.as("--as", "Ash", "--role", "organiser").does(
		`/event add name:"Spring day" starts:"2026-05-30 09:00" ends:"2026-05-30 17:00" guide-at:"2026-05-28 12:00"`,
		`/club set channel:general`)
	p.does(`/event enter name:"Spring day"`)
	const at = "2026-05-29T19:00:00Z"
	run := func(args ...string) string {
		t.Helper()
		out, errs, code := execute(t, append([]string{"remind", "--at", at}, args...)...)
		if code != exitAnswered {
			t.Fatalf("%q left with status %d: %s", args, code, errs)
		}
		return out
	}
	sorted := func(out string) []string { return slices.Sorted(strings.Lines(out)) }
	dry := run("--dry")
	if !strings.Contains(dry, "Guide for Spring day") || !strings.Contains(dry, "Spring day starts on Saturday 30 May") ||
		!strings.Contains(dry, "File: guide") {
		t.Errorf("dry, it prints\n%s", dry)
	}
	if again := run("--dry", "--once"); !slices.Equal(sorted(again), sorted(dry)) {
		t.Errorf("dry once more, it prints\n%s", again)
	}
	if kept, err := os.ReadDir(filepath.Join(os.Getenv("DETENT_DATA"), "files")); err == nil && len(kept) > 0 {
		t.Errorf("dry, it keeps %v", kept)
	}
	if out := run("--once"); strings.Count(out, "── ") != 2 {
		t.Errorf("in earnest it prints\n%s", out)
	}
	if out := run("--once") + run("--dry"); out != "" {
		t.Errorf("twice it prints\n%s", out)
	}
}

// fullDisk is a writer that takes nothing.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

func TestRemindThatCannotPrint(t *testing.T) {
	p := newPaddock(t).blueHatch()
	p.as("--as", "Ash", "--role", "organiser").does(`/event add name:"Spring day" starts:"2026-05-30 09:00" ends:"2026-05-30 17:00"`)
	p.does(`/event enter name:"Spring day"`)
	for minute, once := range [][]string{{"--once"}, {"--dry"}, {}} {
		var errs strings.Builder
		at := fmt.Sprintf("2026-05-29T19:0%d:00Z", 2*minute) // when the lease of the one before has run out
		code := run(t.Context(), append([]string{"remind", "--at", at}, once...), os.Stdin, fullDisk{}, &errs)
		if code != exitProblem || !strings.Contains(errs.String(), "detent: a message could not be printed and falls due again in a minute: no space left") {
			t.Errorf("%q left with status %d: %s", once, code, errs.String())
		}
	}
	if printed, _ := p.due("2026-05-29T19:10:00Z"); len(printed) != 1 {
		t.Errorf("after that it prints %+v", printed)
	}
}

func TestATimeThatNoCalendarHas(t *testing.T) {
	newPaddock(t)
	for _, args := range [][]string{{"remind", "--once"}, {"ask", "/help"}, {"console"}} {
		for _, at := range []string{"0000-01-01T00:00:00Z", "9999-12-31T23:59:59Z"} {
			_, errs, code := execute(t, append(args, "--at", at)...)
			if code != exitWrongUse || !strings.Contains(errs, "--at is out of range") {
				t.Errorf("%q at %s left with %d: %s", args, at, code, errs)
			}
		}
	}
}

// One press on a question in the workspace opens the form, and what is filled in
// belongs to the event.
func TestRemindInTheWorkspace(t *testing.T) {
	w := openWorkspace(t, 0)
	robin := w.member
	robin.Type(`/car add name:"Blue hatch" drive:front engine:front`)
	who := tuning.Who{Club: discord.Place + ":" + robin.Guild.ID, Person: robin.ID, Name: robin.Name}
	now := time.Now()
	event := tuning.Event{Name: "Spring day", Starts: now.Add(-8 * time.Hour), Ends: now.Add(-4 * time.Hour)}
	ask := calendar.Due{Kind: calendar.AskFeel, At: now.Add(-time.Hour), Until: now.Add(10 * time.Hour)}
	_, err := w.db.Once(t.Context(), who, now, "set up", func(b *store.Book) ([]byte, error) {
		return nil, prepare(t.Context(), b, &event, who, ask)
	})
	if err != nil {
		t.Fatal(err)
	}

	log := slog.New(slog.NewJSONHandler(io.Discard, nil))
	heart := heartbeat(w.db, sender{w.door("")}, time.Now, log)
	if err := heart.Drain(t.Context()); err != nil || len(robin.Inbox().Messages()) != 0 {
		t.Errorf("whoever serves the terminal writes into the workspace: %v", err)
	}
	heart.Place = discord.Place
	for range 2 {
		if err := heart.Drain(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
	inbox := robin.Inbox().Messages()
	if len(inbox) != 1 || !strings.Contains(inbox[0].Text(), "How did the car feel at Spring day?") {
		t.Fatalf("in the inbox: %+v", inbox)
	}
	form := robin.Directly().Press(inbox[0], "Say how Blue hatch felt").Form()
	if answer := form.Fill(map[string]string{"grip": "7"}).Submit(); !strings.Contains(answer.Text(), "grip 7 of 10") {
		t.Errorf("filled in, it says %s", answer.Text())
	}
	err = w.db.Read(t.Context(), who, now, func(b *store.Book) error {
		entrants, err := b.Entrants(t.Context(), event)
		if !slices.ContainsFunc(entrants, func(e tuning.Entrant) bool { return e.Answered }) {
			t.Errorf("the answer does not belong to the event: %+v", entrants)
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}

// prepare has a person's only car entered in an event, with something due, in
// a club that is never quiet.
func prepare(ctx context.Context, b *store.Book, event *tuning.Event, who tuning.Who, due calendar.Due) error {
	club := tuning.DefaultClub(who.Club)
	club.QuietFrom, club.QuietTo = 0, 0
	if err := b.SaveClub(ctx, club); err != nil {
		return err
	}
	car, err := b.Car(ctx, who.Person, "")
	if err != nil {
		return err
	}
	if *event, err = b.SaveEvent(ctx, *event); err != nil {
		return err
	}
	if err := b.Enter(ctx, *event, tuning.Entrant{Car: car, Reminded: true}); err != nil {
		return err
	}
	return b.Schedule(ctx, event.ID, who.Person, []calendar.Due{due})
}

// What the platform refuses for good must not be tried again.
func TestWhatTheWorkspaceRefuses(t *testing.T) {
	w := openWorkspace(t, 0)
	club := discord.Place + ":" + w.member.Guild.ID
	s := sender{w.door("")}
	message := bot.Reply{Title: "How did the car feel?"}
	w.member.CloseDirect(50007)
	if err := s.Direct(t.Context(), club, w.member.ID, message, "n1"); fmt.Sprint(err) != "they take no direct messages" {
		t.Errorf("closed direct messages: %v", err)
	}
	channel := w.member.Guild.Channel("general").ReadOnly()
	if err := s.Post(t.Context(), channel.ID, message, "n2"); fmt.Sprint(err) != "permissions are missing in the club's channel: Send Messages" {
		t.Errorf("a channel that is only read: %v", err)
	}
	channel.Open()
	if err := s.Post(t.Context(), channel.ID, message, "n3", w.member.ID); err != nil {
		t.Error(err)
	}
	if got := channel.Messages(); len(got) != 1 || !slices.Equal(got[0].Pings, []string{w.member.ID}) {
		t.Errorf("posted %+v", got)
	}
}
