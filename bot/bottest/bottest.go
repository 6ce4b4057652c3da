// Package bottest asks a room's commands without a database: a test gives the
// commands and a small fake of the record, and reads the replies.
package bottest

import (
	"context"
	"log/slog"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/tuning"
)

// Settings are the club's and the asking member's settings, the part of the
// record that every ask reads. A fake of the record embeds them and adds the
// methods its room needs; any other panics, for there is no book behind it.
type Settings struct {
	bot.Book
	HomeClub tuning.Club
	Asker    tuning.Member
}

// NewSettings are a club and a member who have set nothing yet.
func NewSettings() Settings {
	return Settings{HomeClub: tuning.DefaultClub("hill"), Asker: tuning.Member{Person: "robin", Name: "Robin", Reminders: true}}
}

// Club returns the club's settings.
func (s *Settings) Club(context.Context) (tuning.Club, error) { return s.HomeClub, nil }

// Member returns the asker, whoever is asked for.
func (s *Settings) Member(context.Context, string) (tuning.Member, error) { return s.Asker, nil }

// NoteCautions notes the asker's day.
func (s *Settings) NoteCautions(_ context.Context, _, day string) error {
	s.Asker.Cautioned = day
	return nil
}

// Morning is when a Person asks unless they say otherwise.
var Morning = time.Date(2026, time.May, 16, 9, 0, 0, 0, time.UTC)

// Person asks lines of a room about a book.
type Person struct {
	T        testing.TB
	Commands []bot.Command
	Book     bot.Book
	Key      string      // "" is robin
	Role     tuning.Role // "" is a member
	At       time.Time   // zero is Morning
}

// Ask asks one line through the router.
func (p Person) Ask(text string) bot.Reply {
	p.T.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		p.T.Fatal(err)
	}
	return p.router().Answer(p.T.Context(), bot.Ask{Line: line, At: p.at(), Who: p.who()})
}

// Does asks a line that must be answered.
func (p Person) Does(text string) bot.Reply {
	p.T.Helper()
	reply := p.Ask(text)
	if reply.Problem != nil {
		p.T.Fatalf("%s: %s", text, reply.Problem.Say)
	}
	return reply
}

// Refused asks a line that must be refused, with some words in the refusal.
func (p Person) Refused(kind tuning.Kind, words, text string) {
	p.T.Helper()
	reply := p.Ask(text)
	if reply.Problem == nil || reply.Problem.Kind != kind || !strings.Contains(reply.Problem.Say, words) {
		p.T.Errorf("%s: %q (%+v), want %s with %q", text, reply.Title, reply.Problem, kind, words)
	}
}

// Suggests is what is offered for an option that is being typed.
func (p Person) Suggests(text, option, typed string) []bot.Suggestion {
	p.T.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		p.T.Fatal(err)
	}
	return p.router().Suggest(p.T.Context(), bot.Ask{Line: line, At: p.at(), Who: p.who()}, option, typed)
}

func (p Person) router() *bot.Router {
	return bot.NewRouter(bot.NewCatalogue(p.Commands), shelf{p.Book}, slog.New(slog.DiscardHandler))
}

func (p Person) at() time.Time {
	if p.At.IsZero() {
		return Morning
	}
	return p.At
}

func (p Person) who() tuning.Who {
	who := tuning.Who{Club: "hill", Person: "robin", Name: "Robin", Role: tuning.MemberRole}
	if p.Key != "" {
		who.Person, who.Name = p.Key, p.Key
	}
	if p.Role != "" {
		who.Role = p.Role
	}
	return who
}

// shelf has one book and keeps no replies.
type shelf struct{ book bot.Book }

func (s shelf) Read(_ context.Context, _ tuning.Who, _ time.Time, fn func(bot.Book) error) error {
	return fn(s.book)
}

func (s shelf) Once(_ context.Context, _ tuning.Who, _ time.Time, _ string, fn func(bot.Book) (bot.Reply, error)) (bot.Reply, error) {
	return fn(s.book)
}
