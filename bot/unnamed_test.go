package bot

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestValuesWithoutNames(t *testing.T) {
	catalogue := NewCatalogue([]Command{
		Declare(Command{Name: "symptom", Help: "Help"}, noAnswer[struct {
			What  string `name:"what" help:"what" required:"yes" choices:"understeer,hops"`
			Where string `name:"where" help:"where" choices:"entry,exit"`
			CarOption
		}]),
		Declare(Command{Name: "car add", Help: "Add"}, noAnswer[CarOption]),
		Declare(Command{Name: "feel", Help: "Feel"}, noAnswer[feelTried]),
	})
	for typed, want := range map[string]string{
		"/symptom understeer exit":       "/symptom what:understeer where:exit",
		"/symptom exit Understeer":       "/symptom where:exit what:understeer",
		"/symptom pushes car:x":          "/symptom car:x what:pushes",
		"/feel 7":                        "/feel grip:7",
		"/feel 11":                       "",
		"/symptom understeer understeer": "",
		"/car add blue":                  "",
		"/symptom understeer sideways":   "",
	} {
		line, err := ParseLine(typed)
		if err != nil {
			t.Fatal(err)
		}
		_, err = catalogue.Find(line)
		p, ok := ProblemOf(err)
		if !ok || p.Kind != tuning.Invalid || !strings.Contains(p.Say, "name:value") {
			t.Errorf("%s: %v", typed, err)
			continue
		}
		offered := ""
		if len(p.Actions) > 0 {
			offered = p.Actions[0].Ask
		}
		if offered != want {
			t.Errorf("%s offers %q, want %q", typed, offered, want)
		}
	}
}
