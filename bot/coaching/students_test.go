package coaching_test

import (
	"strings"
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
	"detent/tuning/learn"
)

func TestStudents(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	if r := kim.Does(`/coach students`); r.Title != "No students yet" {
		t.Errorf("%q", r.Title)
	}
	kim.Does(`/coach ask member:robin`)
	if r := kim.Does(`/coach students`); r.Text != "robin: has not accepted yet" || len(r.Actions) != 0 {
		t.Errorf("%q offers %+v", r.Text, r.Actions)
	}
	kim.Refused(tuning.Forbidden, "robin is not your student", `/coach students member:robin`)
	robin.Does(`/coach accept member:kim`)
	robin.Refused(tuning.Forbidden, "coaches", `/coach students`)
	wall.of.History.Changes = []tuning.Change{{At: bottest.Morning, By: "robin", Reason: tuning.ByHand, Turned: true}}
	wall.feels = []tuning.Feel{{At: bottest.Morning, Grip: 7, Notes: "turns in now"}}
	key := tuning.RecipesFor(wall.of.Car, tuning.Complaint{What: tuning.Understeer}, tuning.History{})[0]
	wall.learned = learn.Evidence{Own: map[learn.Key]learn.Sums{key: {A: 2.5, B: 2.25, Tries: 2, Helped: 2}}}
	looked := kim.Does(kim.Does(`/coach students`).Actions[0].Line())
	want := []string{"16 May 09:00: confirmed where it stands (by hand)", "16 May 09:00: grip 7, “turns in now”",
		"Learned: understeer on entry: rear rebound 3 stiffer helped 2 of 2 times, about half a mark better, give or take half."}
	if looked.Title != "robin, Blue hatch" || strings.Join(looked.Notes, "\n") != strings.Join(want, "\n") {
		t.Errorf("%q\n%q", looked.Title, looked.Notes)
	}
	if len(wall.looks) != 1 || wall.looks[0].What != "Blue hatch: clicks, log and feel" {
		t.Errorf("the look is kept as %+v", wall.looks)
	}
}
