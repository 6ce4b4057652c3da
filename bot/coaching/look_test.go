package coaching_test

import (
	"strings"
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
	"detent/tuning/learn"
)

// The student that is chosen is shown with what a coach can do next; all there
// is to see stands behind Look.
func TestTheChosenStudent(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	agree(kim, robin)
	wall.of.History.Changes = []tuning.Change{{At: bottest.Morning, By: "robin", Reason: tuning.ByHand, Turned: true}}
	wall.feels = []tuning.Feel{{At: bottest.Morning, Grip: 7, Notes: "turns in now"}}
	key := tuning.RecipesFor(wall.of.Car, tuning.Complaint{What: tuning.Understeer}, tuning.History{})[0]
	wall.learned = learn.Evidence{Own: map[learn.Key]learn.Sums{key: {A: 2.5, B: 2.25, Tries: 2, Helped: 2}}}

	chosen := kim.Does(kim.Does(`/coach students`).Actions[0].Line())
	if chosen.Title != "robin, Blue hatch" || chosen.Text != "Grip 7 on 16 May." || len(chosen.Corners) != 8 {
		t.Errorf("%q %q %+v", chosen.Title, chosen.Text, chosen.Corners)
	}
	m := chosen.Message()
	if strings.Contains(m.Text, "turns in now") || len(m.Table) != 8 {
		t.Errorf("it shows %q", m.Words())
	}
	labels := map[string]string{}
	for _, a := range m.Actions {
		labels[a.Label] = a.Line()
	}
	if len(labels) != 3 || labels["Suggest"] != "/coach suggest at:? adjuster:? to:? why:? member:robin" || labels["Note"] != "/coach note text:? member:robin" {
		t.Errorf("it offers %q", labels)
	}

	looked := kim.Does(labels["Look"])
	want := []string{"16 May 09:00: confirmed where it stands (by hand)", "16 May 09:00: grip 7, “turns in now”",
		"Learned: understeer on entry: rear rebound 3 stiffer helped 2 of 2 times, about half a mark better, give or take half."}
	if looked.Title != chosen.Title || strings.Join(looked.Notes, "\n") != strings.Join(want, "\n") {
		t.Errorf("%q\n%q", looked.Title, looked.Notes)
	}
	if m := looked.Message(); !strings.Contains(m.Text, "turns in now") || m.Actions[0].Label != "Suggest" {
		t.Errorf("it shows %q with %+v", m.Text, m.Actions)
	}
	if len(wall.looks) != 3 || wall.looks[1].What != "Blue hatch: clicks, log and feel" {
		t.Errorf("the looks are kept as %+v", wall.looks)
	}
}

// A car that is not the main one is named in the buttons, and the others are
// offered.
func TestTheChosenStudentsOtherCars(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	agree(kim, robin)
	wall.of.Car.Main, wall.others = false, []tuning.Car{{ID: 2, Name: "Grey coupe"}, {ID: 3, Name: "Old one", Retired: true}}
	if r := kim.Does(`/coach students`); r.Text != "robin, Blue hatch: no feel yet." {
		t.Errorf("%q", r.Text)
	}
	var lines []string
	for _, a := range kim.Does(`/coach students member:robin`).Message().Actions {
		lines = append(lines, a.Label+": "+a.Line())
	}
	want := []string{`Look: /coach students part:all car:#1 member:robin`,
		`Suggest: /coach suggest at:? adjuster:? to:? why:? car:#1 member:robin`,
		`Note: /coach note text:? member:robin`, `Grey coupe: /coach students car:#2 member:robin`}
	if strings.Join(lines, "\n") != strings.Join(want, "\n") {
		t.Errorf("%q", lines)
	}
	if r := kim.Does(`/coach students part:all car:#1 member:robin`); r.Title != "robin, Blue hatch" {
		t.Errorf("by its number: %q", r.Title)
	}
	kim.Refused(tuning.NotFound, `robin has no car called "#9".`, `/coach students car:#9 member:robin`)
	wall.of.Car = tuning.Car{}
	kim.Refused(tuning.NotFound, "robin has no car here yet", `/coach students member:robin`)
}
