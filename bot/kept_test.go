package bot

import (
	"context"
	"slices"
	"strings"
	"testing"

	"detent/tuning"
)

// shelfOf is the clicks that were saved of a car.
type shelfOf struct {
	Shelf
	kept []tuning.Kept
}

func (s shelfOf) KeptSetting(_ context.Context, _ tuning.Car, name string, id int64) (tuning.Kept, error) {
	for _, k := range s.kept {
		if name == "" && k.ID == id || strings.EqualFold(k.Name, name) {
			return k, nil
		}
	}
	return tuning.Kept{}, tuning.Gone{What: tuning.KeptThing}
}

func (s shelfOf) KeptSettings(context.Context, tuning.Car, int, int) ([]tuning.Kept, error) {
	return s.kept, nil
}

func TestFindKept(t *testing.T) {
	car := tuning.Car{ID: 3, Name: "Blue hatch"}
	shelf := shelfOf{kept: []tuning.Kept{{ID: 7, Name: "Dry fast"}, {ID: 8, Name: "Wet"}, {ID: 9, Name: "Dry and cold"}}}
	line, err := ParseLine(`/clicks load car:"Blue hatch"`)
	if err != nil {
		t.Fatal(err)
	}
	call := Call{Ask: Ask{Line: line}}
	for name, id := range map[string]int64{"dry FAST": 7, " Wet ": 8, "#9": 9} {
		if k, err := call.FindKept(t.Context(), shelf, car, "name", name); err != nil || k.ID != id {
			t.Errorf("%q finds %d, %v", name, k.ID, err)
		}
	}
	for name, want := range map[string]struct {
		kind   tuning.Kind
		say    string
		labels []string
	}{
		"":         {tuning.Invalid, "Which of the saved clicks?", []string{"Dry fast", "Wet", "Dry and cold"}},
		"Dry fost": {tuning.NotFound, `No clicks of Blue hatch are saved as "Dry fost" (did you mean Dry fast?).`, []string{"Dry fast", "Saved clicks"}},
		"dry":      {tuning.NotFound, `No clicks of Blue hatch are saved as "dry"`, []string{"Dry fast", "Dry and cold", "Saved clicks"}},
	} {
		_, err := call.FindKept(t.Context(), shelf, car, "name", name)
		p, ok := ProblemOf(err)
		if !ok || p.Kind != want.kind || !strings.HasPrefix(p.Say, want.say) {
			t.Errorf("%q: %v, want %+v", name, err, want)
			continue
		}
		var labels []string
		for _, a := range p.Actions {
			labels = append(labels, a.Label)
		}
		if !slices.Equal(labels, want.labels) || p.Actions[0].Line() != "/clicks load name:#7 car:#3" {
			t.Errorf("%q: %q, first %s", name, labels, p.Actions[0].Line())
		}
	}
	_, err = call.FindKept(t.Context(), shelf, car, "name", "#10")
	if p, _ := ProblemOf(err); p == nil || p.Kind != tuning.NotFound || p.Actions[0].Line() != "/clicks saved car:#3" {
		t.Errorf("a number of none: %v", err)
	}
	_, err = call.FindKept(t.Context(), shelfOf{}, car, "name", "Dry")
	if p, _ := ProblemOf(err); p == nil || p.Actions[0].Line() != "/clicks save car:#3" {
		t.Errorf("with nothing saved: %v", err)
	}
}
