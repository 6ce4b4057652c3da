package console

import (
	"context"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/clubroom"
	"detent/bot/coaching"
	"detent/bot/garage"
	"detent/bot/season"
	"detent/tuning"
)

// lines are all that can be asked.
var lines = bot.NewCatalogue(garage.Commands(), season.Commands(), coaching.Commands(), clubroom.Commands())

// echo answers each ask with what it was asked.
type echo struct{ asks []bot.Ask }

func (e *echo) Answer(_ context.Context, ask bot.Ask) bot.Reply {
	e.asks = append(e.asks, ask)
	return bot.Reply{Title: strings.Join(ask.Line.Words, " "), Picture: &bot.Picture{Alt: "a line", Type: "image/png", PNG: []byte("png")}}
}

// Suggest offers a few cars, and otherwise what the catalogue itself tells.
func (e *echo) Suggest(ctx context.Context, ask bot.Ask, option, typed string) (found []bot.Suggestion) {
	if option != "car" {
		return bot.NewRouter(lines, nil, slog.New(slog.DiscardHandler)).Suggest(ctx, ask, option, typed)
	}
	for _, name := range []string{"Blue hatch", "Blue hutch", "Grey"} {
		if strings.HasPrefix(strings.ToLower(name), strings.ToLower(typed)) {
			found = append(found, bot.Suggestion{Value: name, Label: name})
		}
	}
	return found
}

func desk(t *testing.T) (*Desk, *echo, *strings.Builder) {
	e, out := &echo{}, &strings.Builder{}
	return &Desk{Bot: e, Lines: lines, Who: tuning.Who{Club: "Windy Hill", Person: "Robin"}, Files: filepath.Join(t.TempDir(), "files"), Out: out,
		Now: func() time.Time { return time.Date(2026, 5, 16, 10, 0, 0, 0, time.UTC) }}, e, out
}

func TestSessionReadsLinesUntilTheEnd(t *testing.T) {
	d, e, out := desk(t)
	file := filepath.Join(t.TempDir(), "lines")
	if err := os.WriteFile(file, []byte("/car list\n\n  /baseline weather:wet\nnonsense\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	in, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	id := 0
	if err := d.Session(t.Context(), in, func() string { id++; return string(rune('a' + id)) }); err != nil {
		t.Fatal(err)
	}
	if len(e.asks) != 2 || e.asks[0].ID == e.asks[1].ID || e.asks[1].Line.Options[0].Value != "wet" {
		t.Errorf("asked %+v", e.asks)
	}
	if !strings.Contains(out.String(), "Start with a slash") {
		t.Errorf("the line without a slash: %s", out)
	}
}

// A line may be of any length: what is too long is refused, and the lines after
// it are answered.
func TestALineOfAnyLength(t *testing.T) {
	d, e, out := desk(t)
	file := filepath.Join(t.TempDir(), "lines")
	if err := os.WriteFile(file, []byte("/car "+strings.Repeat("x", 1<<20)+"\n/car list\n/feel notes:"+strings.Repeat("y", 7000)+"\n/log"), 0o600); err != nil {
		t.Fatal(err)
	}
	in, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	if err := d.Session(t.Context(), in, func() string { return "a" }); err != nil {
		t.Fatal(err)
	}
	if len(e.asks) != 3 || len(e.asks[1].Line.Options[0].Value) != 7000 || e.asks[2].Line.Words[0] != "log" {
		t.Errorf("asked %d lines", len(e.asks))
	}
	if !strings.Contains(out.String(), "too long") {
		t.Errorf("the long line: %.200s", out)
	}
}

func TestSessionEndsWhenItIsStopped(t *testing.T) {
	d, e, _ := desk(t)
	in, typist, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	defer typist.Close()
	if _, err := typist.WriteString("/car list\n"); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	err = d.Session(ctx, in, func() string { stop(); return "a" }) // and nothing more is typed
	if err != nil || len(e.asks) != 1 {
		t.Errorf("asked %+v, %v", e.asks, err)
	}
}

func TestFilesComeAndGo(t *testing.T) {
	d, e, _ := desk(t)
	table := filepath.Join(t.TempDir(), "t.csv")
	if err := os.WriteFile(table, []byte("click"), 0o600); err != nil {
		t.Fatal(err)
	}
	reply := d.Ask(t.Context(), "1", "/damper curve axle:front file:"+bot.Quote(table))
	if e.asks[0].Files["file"] != "click" {
		t.Errorf("the file's content is %q", e.asks[0].Files)
	}
	if kept, err := os.ReadFile(reply.Picture.File); err != nil || string(kept) != "png" {
		t.Errorf("the picture is kept as %q, %v", kept, err)
	}
	if r := d.Ask(t.Context(), "2", "/damper curve axle:front file:/none.csv"); r.Problem == nil || r.Problem.Kind != tuning.NotFound {
		t.Errorf("a file that is not there: %+v", r)
	}
}

func TestTextIsTheMessage(t *testing.T) {
	reply := bot.Reply{
		Title: "Rear rebound 3 stiffer", Text: "Because.",
		Remedies: []bot.Remedy{{Rank: 1, Say: "Rear rebound 3 stiffer", Confidence: "common practice"},
			{Rank: 2, Say: "Front rebound 3 softer", Why: "Why.", Watch: "this", Confidence: "weaker", Model: &bot.Verdict{Verdict: "agrees", Say: "Yes."}}},
		Corners:  []bot.Corner{{Corner: "FL", Adjuster: "bump", From: 14, To: 17, Range: 30, Shown: "13 from hard"}, {Corner: "FR", Adjuster: "bump", From: 14, To: 17, Range: 30, Shown: "13 from hard"}},
		Cautions: []string{"Hot."}, Actions: []bot.Action{{Label: "Done", Ask: "/apply advice:1"}},
		View: bot.View{Care: bot.Care{Turns: true}},
	}
	want := `Rear rebound 3 stiffer
Because.
from hard     FL     FR  RL  RR
bump       16→13  16→13   -   -
Let it cool; turn gently, never past the stop; first laps easy; closed circuit only.
[Done]  /apply advice:1

`
	if text := Text(reply); text != want {
		t.Errorf("it reads\n%s\nwant\n%s", text, want)
	}
	full := Full(reply)
	for _, words := range []string{strings.TrimSuffix(want, "\n"), "2. Front rebound 3 softer  [weaker]", "Model agrees: Yes.", "Cautions:\n  - Hot.\n"} {
		if !strings.Contains(full, words) {
			t.Errorf("in full it lacks %q:\n%s", words, full)
		}
	}
}
