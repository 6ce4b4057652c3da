package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"detent/bot"
	"detent/store/storetest"
)

func TestMain(m *testing.M) {
	code := m.Run()
	storetest.Leave()
	for _, do := range atTheEnd {
		do()
	}
	os.Exit(code)
}

// atTheEnd runs when all tests are over.
var atTheEnd []func()

// paddock is a club on a database of its own, asked through the whole program.
type paddock struct {
	testing.TB
	args []string // before each line
}

func newPaddock(t *testing.T) paddock {
	t.Setenv("DETENT_DATABASE_URL", storetest.URL(t))
	t.Setenv("DETENT_DATA", t.TempDir())
	return paddock{t, []string{"--at", "2026-05-16T10:00:00Z"}}
}

// as is the same paddock with other flags before each line.
func (p paddock) as(args ...string) paddock {
	p.args = append(append([]string(nil), p.args...), args...)
	return p
}

// execute runs the program as a person would and returns what it printed and
// its exit status.
func execute(t testing.TB, args ...string) (out, errs string, code int) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(t.Context(), args, os.Stdin, &o, &e)
	return o.String(), e.String(), code
}

// ask asks lines and returns the replies, whatever they say.
func (p paddock) ask(lines ...string) []bot.Reply {
	p.Helper()
	args := append(append([]string{"ask", "--json"}, p.args...), lines...)
	out, errs, code := execute(p, args...)
	if errs != "" && !strings.Contains(errs, `"ref"`) {
		p.Fatalf("%q: %s", lines, errs)
	}
	var replies []bot.Reply
	for line := range strings.Lines(out) {
		var r bot.Reply
		if err := json.Unmarshal([]byte(line), &r); err != nil {
			p.Fatalf("%q answered %q: %v", lines, line, err)
		}
		replies = append(replies, r)
	}
	if len(replies) != len(lines) {
		p.Fatalf("%d lines got %d replies: %s", len(lines), len(replies), out)
	}
	if want := map[bool]int{false: exitAnswered, true: exitProblem}[replies[len(replies)-1].Problem != nil]; code != want {
		p.Fatalf("%q left with status %d, want %d", lines, code, want)
	}
	return replies
}

// does asks lines that must be answered without a problem and returns the last
// reply.
func (p paddock) does(lines ...string) bot.Reply {
	p.Helper()
	replies := p.ask(lines...)
	for i, r := range replies {
		if r.Problem != nil {
			p.Fatalf("%s: %s", lines[i], r.Problem.Say)
		}
	}
	return replies[len(replies)-1]
}

// refuses asks a line that must carry a problem of a kind whose sentence holds
// some words.
func (p paddock) refuses(kind, words, line string) bot.Reply {
	p.Helper()
	r := p.ask(line)[0]
	switch {
	case r.Problem == nil:
		p.Errorf("%.80s was answered %q, want %s %q", line, r.Title, kind, words)
	case string(r.Problem.Kind) != kind || !strings.Contains(r.Problem.Say, words):
		p.Errorf("%.80s: %s %q, want %s with %q", line, r.Problem.Kind, r.Problem.Say, kind, words)
	case strings.Contains(r.Problem.Say, "pq:") || strings.Contains(r.Problem.Say, "goroutine"):
		p.Errorf("%.80s shows its insides: %q", line, r.Problem.Say)
	}
	return r
}

// blueHatch adds the car most tests turn: front driven, two-way, 30 clicks
// counted from hard at both ends.
func (p paddock) blueHatch() paddock {
	p.Helper()
	p.does(`/car add name:"Blue hatch" drive:front engine:front`, `/damper fit axle:both ways:two clicks:30 count:hard`)
	return p
}

// at finds one adjuster of one corner in a reply.
func at(t testing.TB, corners []bot.Corner, corner, adjuster string) bot.Corner {
	t.Helper()
	for _, c := range corners {
		if c.Corner == corner && c.Adjuster == adjuster {
			return c
		}
	}
	t.Fatalf("no %s %s in %+v", corner, adjuster, corners)
	return bot.Corner{}
}

// write puts a file in a folder of the test's own.
func write(t testing.TB, name, content string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
