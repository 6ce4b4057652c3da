package bot

import (
	"context"
	"strings"
	"testing"

	"detent/tuning"
)

func noAnswer[O any](context.Context, Call, Book, O) (Reply, error) { return Reply{}, nil }

func noOffer[O any](context.Context, Call, Book, O, string) ([]Suggestion, error) { return nil, nil }

type feelTried struct {
	Grip  int    `name:"grip" help:"a mark" required:"yes" min:"1" max:"10"`
	Notes string `name:"notes" help:"words"`
	CarOption
}

// small is a catalogue of a few lines.
func small() *Catalogue {
	return NewCatalogue(
		[]Command{Declare(Command{Name: "car add", Help: "Add"}, noAnswer[CarOption]), Declare(Command{Name: "car list", Help: "List"}, noAnswer[struct{}])},
		[]Command{Declare(Command{Name: "feel", Help: "Feel", Form: []string{"grip", "notes"}}, noAnswer[feelTried]),
			Declare(Command{Name: "curve", Help: "Curve"}, noAnswer[struct {
				File string `name:"file" help:"a table" kind:"upload"`
			}])})
}

func TestFind(t *testing.T) {
	if c, err := small().Find(Line{Words: []string{"car", "list"}}); err != nil || c.Name != "car list" {
		t.Errorf("%q, %v", c.Name, err)
	}
	for typed, words := range map[string]string{
		"":        "Say what you need",
		"car":     "/car needs a second word: add or list.",
		"car lst": "/car cannot lst (did you mean list?); it can add or list.",
		"fel":     "I do not know /fel (did you mean feel?)",
	} {
		if _, err := small().Find(Line{Words: strings.Fields(typed)}); tuning.KindOf(err) != tuning.Invalid || !strings.Contains(err.Error(), words) {
			t.Errorf("%q: %v, want %q", typed, err, words)
		}
	}
}

func TestCompleteLines(t *testing.T) {
	for line, want := range map[string]bool{"/car list": true, "/feel": false, "/feel grip:7": true, "/feel notes:x": false, "/fly": false, "feel": false} {
		if small().Complete(line) != want {
			t.Errorf("%s is complete: %v", line, !want)
		}
	}
}

func TestFormFor(t *testing.T) {
	line := func(text string) Line {
		l, err := ParseLine(text)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	form, ok := small().FormFor(line("/feel car:x"))
	if !ok || form.Title != "Feel" || len(form.Fields) != 2 || form.Fields[0].Name != "grip" {
		t.Errorf("%+v, %v", form, ok)
	}
	for _, text := range []string{"/feel grip:7", "/car list", "/fly"} {
		if form, ok := small().FormFor(line(text)); ok {
			t.Errorf("%s opens %+v", text, form)
		}
	}
}

func TestTakesFile(t *testing.T) {
	for _, c := range []struct {
		words, option string
		want          bool
	}{{"curve", "file", true}, {"curve", "car", false}, {"feel", "notes", false}, {"fly", "file", false}} {
		if got := small().TakesFile(Line{Words: []string{c.words}}, c.option); got != c.want {
			t.Errorf("%s of /%s is a file: %v", c.option, c.words, got)
		}
	}
}

func TestToType(t *testing.T) {
	for line, want := range map[string]string{"/feel": "/feel grip:…", "/feel notes:?": "/feel notes:…", "/feel grip:7": "", "/car list": "", "/fly": "", "fly": ""} {
		if got, ok := small().ToType(line); got != want || ok != (want != "") {
			t.Errorf("%s is typed as %q, %v", line, got, ok)
		}
	}
}
