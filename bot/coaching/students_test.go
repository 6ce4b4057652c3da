package coaching_test

import (
	"fmt"
	"strings"
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
)

func TestStudents(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	if r := kim.Does(`/coach students`); r.Title != "No students yet" {
		t.Errorf("%q", r.Title)
	}
	kim.Does(`/coach ask member:robin`)
	if r := kim.Does(`/coach students`); r.Message().Text != "robin: has not accepted yet" || len(r.Actions) != 0 || len(wall.looks) != 0 {
		t.Errorf("%q offers %+v, and is %d looks", r.Message().Text, r.Actions, len(wall.looks))
	}
	kim.Refused(tuning.Forbidden, "robin is not your student", `/coach students member:robin`)
	robin.Does(`/coach accept member:kim`)
	robin.Refused(tuning.Forbidden, "coaches", `/coach students`)
	if r := kim.Does(`/coach students`); r.Text != "robin: no feel yet." {
		t.Errorf("before anything happened: %q", r.Text)
	}

	wall.said = tuning.Complaint{What: tuning.Understeer, Where: tuning.Entry}
	wall.next = tuning.Event{ID: 1, Name: "Spring day", Starts: bottest.Morning.AddDate(0, 0, 7)}
	wall.of.History.Changes = []tuning.Change{{ID: 4, At: bottest.Morning.AddDate(0, 0, -4), Reason: tuning.ByHand, Turned: true, Moves: []tuning.Move{
		{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 14, To: 16}, {Corner: tuning.RR, Adjuster: tuning.Rebound, From: 14, To: 16}}}}
	for _, grip := range []int{8, 7, 6} {
		wall.feels = append(wall.feels, tuning.Feel{At: bottest.Morning, Grip: grip})
	}
	r := kim.Does(`/coach students`)
	want := "robin: grip 8 on 16 May, rising. Understeer on entry since 16 May, not better yet. Last change 12 May: rear rebound 2 stiffer, both sides. Next: Spring day, 23 May."
	if r.Title != "1 student" || r.Text != want {
		t.Errorf("%q\n%q\nwant\n%q", r.Title, r.Text, want)
	}
	if m := r.Message(); len(m.Actions) != 1 || m.Actions[0].Label != "robin" || m.Actions[0].Line() != "/coach students member:robin" {
		t.Errorf("it offers %+v", m.Actions)
	}
	if n := len(wall.looks); n != 2 || wall.looks[n-1].What != "the list of students: last feel, complaint, change and event" {
		t.Errorf("the looks are kept as %+v", wall.looks)
	}
}

// Sixty students are pages, with a button for each student that a page shows.
func TestManyStudents(t *testing.T) {
	wall, kim, _ := newPitwall(t)
	for i := range 60 {
		wall.ties = append(wall.ties, tuning.Coaching{Coach: "kim", Student: fmt.Sprintf("student %02d", i), Accepted: bottest.Morning})
	}
	seen := map[string]bool{}
	line, pages := `/coach students`, 0
	for ; line != "" && pages < 20; pages++ {
		m := kim.Does(line).Message()
		line = ""
		for _, a := range m.Actions {
			if a.Label == "More" {
				line = a.Line()
				continue
			}
			if seen[a.Label] = true; !strings.Contains(m.Text, a.Label+":") {
				t.Errorf("%s has a button and no line:\n%s", a.Label, m.Text)
			}
		}
	}
	if len(seen) != 60 || line != "" {
		t.Errorf("%d students in %d pages, then %q", len(seen), pages, line)
	}
}
