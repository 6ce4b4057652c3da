package notebook_test

import (
	"fmt"
	"strings"
	"testing"

	"detent/bot/phone"
	"detent/tuning"
)

func TestSavedClicksAreListed(t *testing.T) {
	box, robin := newShelf(t)
	if r := robin.Does(`/clicks saved`); r.Title != "No clicks of Blue hatch are saved yet" || r.Actions[0].Line() != "/clicks save car:#1" {
		t.Errorf("%q %+v", r.Title, r.Actions)
	}
	box.event = tuning.Event{ID: 5, Place: "Windy Hill", Weather: tuning.Wet}
	box.today = &tuning.Feel{Grip: 7, Notes: "turns in now"}
	for i := range 7 {
		robin.Does(fmt.Sprintf(`/clicks save name:"Try %d"`, i+1))
	}
	r := robin.Does(`/clicks saved`)
	if !strings.HasPrefix(r.Text, "Try 7: 16 May 2026, Windy Hill, wet; grip 7.\nTry 6:") || strings.Count(r.Text, "\n") != 4 {
		t.Errorf("%q", r.Text)
	}
	if got := labels(r); !strings.HasPrefix(got, "Load Try 7, Compare Try 7, Load Try 6, ") || !strings.HasSuffix(got, "Compare Try 3, More") {
		t.Errorf("%q", got)
	}
	if r.Actions[0].Line() != "/clicks load name:#7 car:#1" || r.Actions[1].Line() != "/clicks compare name:#7 car:#1" {
		t.Errorf("%+v", r.Actions[:2])
	}
	r = robin.Does(r.Actions[len(r.Actions)-1].Ask)
	if !strings.HasPrefix(r.Text, "Try 2: ") || labels(r) != "Load Try 2, Compare Try 2, Load Try 1, Compare Try 1" {
		t.Errorf("%q %q", r.Text, labels(r))
	}
	if r := robin.Does(`/clicks saved from:90`); r.Title != "No more saved clicks of Blue hatch" {
		t.Errorf("%q", r.Title)
	}
	// With long names and places fewer have room.
	box.event.Place = strings.Repeat("Windy ", 10)
	for i := range 5 {
		robin.Does(fmt.Sprintf(`/clicks save name:"%s%d"`, strings.Repeat("long name ", 5), i))
	}
	r = robin.Does(`/clicks saved`)
	if lines, runes := r.Message().Measure(); lines > 24 || runes > 1200 || !strings.HasSuffix(labels(r), "More") || strings.Contains(r.Message().Text, "…") {
		t.Errorf("%d lines, %d characters: %q", lines, runes, labels(r))
	}
	if r.View.Size != phone.List {
		t.Errorf("its size is %d", r.View.Size)
	}
}

func TestNamesAreCompleted(t *testing.T) {
	box, robin := newShelf(t)
	robin.Does(`/clicks save name:"Dry fast"`)
	robin.Does(`/clicks save name:Wet`)
	robin.Does(`/clicks save name:Van car:"Red coupe"`)
	for line, want := range map[string]int{`/clicks load`: 2, `/clicks forget`: 2, `/clicks compare`: 2, `/clicks load car:"Red coupe"`: 1, `/clicks load car:Nothing`: 0} {
		if got := robin.Suggests(line, "name", ""); len(got) != want {
			t.Errorf("%s offers %+v", line, got)
		}
	}
	if got := robin.Suggests(`/clicks load`, "name", "dr"); len(got) != 1 || got[0].Value != "Dry fast" || got[0].Label != "Dry fast, 16 May 2026" {
		t.Errorf("dr offers %+v", got)
	}
	if got := robin.Suggests(`/clicks compare name:Wet`, "with", ""); len(got) != 3 || got[0].Value != "today" {
		t.Errorf("with offers %+v", got)
	}
	if len(box.kept) != 3 {
		t.Errorf("%d are kept", len(box.kept))
	}
}
