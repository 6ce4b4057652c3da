package bot_test

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/tuning"
)

// ledger is records that hold one book and count how they are opened.
type ledger struct {
	bot.Book
	reads, writes int
}

func (l *ledger) Club(context.Context) (tuning.Club, error) {
	club := tuning.DefaultClub("hill")
	club.CoachRole = "teachers"
	return club, nil
}

func (l *ledger) Member(context.Context, string) (tuning.Member, error) {
	return tuning.Member{Units: tuning.Imperial}, nil
}

func (l *ledger) Read(_ context.Context, _ tuning.Who, _ time.Time, fn func(bot.Book) error) error {
	l.reads++
	return fn(l)
}

func (l *ledger) Once(_ context.Context, _ tuning.Who, _ time.Time, _ string, fn func(bot.Book) (bot.Reply, error)) (bot.Reply, error) {
	l.writes++
	return fn(l)
}

type gripOption struct {
	Grip int `name:"grip" help:"a mark" min:"1" max:"10"`
}

// testLines are a line of each sort.
func testLines() *bot.Catalogue {
	answer := func(_ context.Context, call bot.Call, _ bot.Book, o gripOption) (bot.Reply, error) {
		switch o.Grip {
		case 8:
			return bot.Reply{}, bot.Problemf(tuning.Conflict, "The clicks have moved.")
		case 9:
			return bot.Reply{}, errors.New("the disk is full")
		case 10:
			panic("a bug")
		}
		return bot.Reply{Title: map[bool]string{true: "imperial", false: "metric"}[call.Imperial()]}, nil
	}
	return bot.NewCatalogue([]bot.Command{
		bot.Declare(bot.Command{Name: "look", Help: "Look"}, answer),
		bot.Declare(bot.Command{Name: "note", Help: "Note", Private: true, Writes: true}, answer),
		bot.Declare(bot.Command{Name: "teach", Help: "Teach", Role: tuning.CoachRole}, answer),
		bot.Declare(bot.Command{Name: "plan", Help: "Plan", Role: tuning.OrganiserRole}, answer),
	})
}

func TestRouter(t *testing.T) {
	for _, c := range []struct {
		line          string
		role          tuning.Role
		title         string
		kind          tuning.Kind
		private       bool
		reads, writes int
	}{
		{"/look", tuning.MemberRole, "imperial", "", false, 1, 0},
		{"/note", tuning.MemberRole, "imperial", "", true, 0, 1},
		{"/plan", tuning.OrganiserRole, "imperial", "", false, 1, 0},
		{"/plan", tuning.CoachRole, "/plan is for the club's organisers", tuning.Forbidden, true, 0, 0},
		{"/look grip:8", tuning.MemberRole, "The clicks have moved.", tuning.Conflict, true, 1, 0},
		{"/look grip:11", tuning.MemberRole, "grip takes a whole number", tuning.Invalid, true, 1, 0},
		{"/lok", tuning.MemberRole, "did you mean look?", tuning.Invalid, true, 0, 0},
	} {
		book := &ledger{}
		line, err := bot.ParseLine(c.line)
		if err != nil {
			t.Fatal(err)
		}
		reply := bot.NewRouter(testLines(), book, slog.New(slog.DiscardHandler)).Answer(t.Context(), bot.Ask{Line: line, Who: tuning.Who{Role: c.role}})
		kind := tuning.Kind("")
		if reply.Problem != nil {
			kind = reply.Problem.Kind
		}
		if !strings.Contains(reply.Title, c.title) || kind != c.kind || reply.Private != c.private || book.reads != c.reads || book.writes != c.writes {
			t.Errorf("%s: %q (%s), private %v, %d reads, %d writes", c.line, reply.Title, kind, reply.Private, book.reads, book.writes)
		}
	}
}

// What is ours to mend goes to the log under the reference that the person
// reads, and the person reads nothing of its cause.
func TestRouterApologises(t *testing.T) {
	for line, cause := range map[string]string{"/look grip:9": "the disk is full", "/look grip:10": "a bug"} {
		var log bytes.Buffer
		parsed, err := bot.ParseLine(line)
		if err != nil {
			t.Fatal(err)
		}
		reply := bot.NewRouter(testLines(), &ledger{}, slog.New(slog.NewTextHandler(&log, nil))).Answer(t.Context(), bot.Ask{Line: parsed})
		if reply.Problem == nil || reply.Problem.Kind != tuning.Internal || !reply.Private || reply.Problem.Ref == "" {
			t.Fatalf("%s: %+v", line, reply)
		}
		if strings.Contains(reply.Title, cause) || !strings.Contains(reply.Title, reply.Problem.Ref) {
			t.Errorf("%s: the person reads %q", line, reply.Title)
		}
		if !strings.Contains(log.String(), cause) || !strings.Contains(log.String(), reply.Problem.Ref) {
			t.Errorf("%s: the log says %s", line, &log)
		}
	}
}

// The club says which of a person's roles makes a coach, so the book is opened
// before that is known; not for somebody with no role at all.
func TestRouterKnowsCoaches(t *testing.T) {
	for _, c := range []struct {
		line  string
		who   tuning.Who
		may   bool
		reads int
	}{
		{"/teach", tuning.Who{Role: tuning.MemberRole, Roles: []string{"drivers", "teachers"}}, true, 1},
		{"/teach", tuning.Who{Role: tuning.MemberRole, Roles: []string{"drivers"}}, false, 1},
		{"/teach", tuning.Who{Role: tuning.MemberRole}, false, 0},
		{"/teach", tuning.Who{Role: tuning.OrganiserRole}, true, 1},
		{"/plan", tuning.Who{Role: tuning.MemberRole, Roles: []string{"teachers"}}, false, 0},
	} {
		book := &ledger{}
		line, err := bot.ParseLine(c.line)
		if err != nil {
			t.Fatal(err)
		}
		reply := bot.NewRouter(testLines(), book, slog.New(slog.DiscardHandler)).Answer(t.Context(), bot.Ask{Line: line, Who: c.who})
		may := reply.Problem == nil
		if !may && reply.Problem.Kind != tuning.Forbidden || may != c.may || book.reads != c.reads {
			t.Errorf("%s by %+v: %q after %d reads", c.line, c.who, reply.Title, book.reads)
		}
	}
}
