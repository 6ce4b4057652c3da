package coaching_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"detent/bot"
	"detent/tuning"
)

func TestSuggest(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	agree(kim, robin)
	made := kim.Does(`/coach suggest member:robin at:rear adjuster:rebound to:14 why:"Half of that is enough."`)
	if made.Title != "Suggested to robin: Rear rebound 2 stiffer, both sides: 16 → 14 from hard" {
		t.Errorf("%q", made.Title)
	}
	want := []tuning.Move{{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 14, To: 16}, {Corner: tuning.RR, Adjuster: tuning.Rebound, From: 14, To: 16}}
	if diff := cmp.Diff(want, wall.suggestions[0].Advice.Remedies[0].Moves); diff != "" {
		t.Error(diff)
	}
	notes := robin.Does(`/coach notes`)
	if notes.Text != "kim suggests for Blue hatch: Rear rebound 2 stiffer, both sides: 16 → 14 from hard. “Half of that is enough.”" {
		t.Errorf("%q", notes.Text)
	}
	if lines := []string{notes.Actions[0].Line(), notes.Actions[1].Line()}; lines[0] != "/apply advice:1 remedy:1" || lines[1] != "/coach decline advice:1" {
		t.Errorf("%q", lines)
	}
	robin.Does(notes.Actions[1].Line())
	if len(wall.declined) != 1 || wall.declined[0] != 1 {
		t.Errorf("declined are %v", wall.declined)
	}
}

// Even a refusal tells the coach something of the car, so the look is kept.
func TestASuggestionRefusedIsALook(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	agree(kim, robin)
	for _, line := range []string{
		`/coach suggest member:robin at:rear adjuster:rebound to:16 why:x`, // it stands there
		`/coach suggest member:robin at:rear adjuster:low-bump to:3 why:x`,
		`/coach suggest member:robin at:rear adjuster:bump to:99 why:x`,
	} {
		kim.Refused(tuning.Invalid, "", line)
	}
	if len(wall.looks) != 3 || len(wall.suggestions) != 0 {
		t.Errorf("%d looks, %d suggestions", len(wall.looks), len(wall.suggestions))
	}
}

// The coach's own cars and clicks are not offered for a student's.
func TestSuggestOffersNothingOfTheCoachs(t *testing.T) {
	_, kim, _ := newPitwall(t)
	for _, option := range []string{"car", "to"} {
		if got := kim.Suggests(`/coach suggest member:robin at:rear adjuster:rebound`, option, ""); len(got) != 0 {
			t.Errorf("%s offers %+v", option, got)
		}
	}
	if got := kim.Suggests(`/coach suggest`, "member", "robin"); len(got) != 1 || got[0] != (bot.Suggestion{Value: "robin", Label: "robin"}) {
		t.Errorf("%+v", got)
	}
}
