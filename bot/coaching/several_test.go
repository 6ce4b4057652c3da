package coaching_test

import (
	"strings"
	"testing"

	"detent/bot/bottest"
	"detent/tuning"
)

// newClass makes Robin and Sam Kim's students.
func newClass(t *testing.T) (wall *pitwall, kim bottest.Person) {
	wall, kim, robin := newPitwall(t)
	sam := robin
	sam.Key = "sam"
	agree(kim, robin)
	kim.Does(`/coach ask member:sam`)
	sam.Does(`/coach accept member:kim`)
	return wall, kim
}

func TestANoteForSeveral(t *testing.T) {
	wall, kim := newClass(t)
	left := kim.Does(`/coach note member:robin and:"sam, Robin ,sam," text:"Brake later."`)
	if left.Title != "Note left for robin and sam" || len(wall.notes) != 2 || len(wall.mail) != 2 || wall.mail[1].Person != "sam" || wall.mail[1].About != 2 {
		t.Errorf("%q, %d notes, sent are %+v", left.Title, len(wall.notes), wall.mail)
	}
}

// One who is no student stops all of it, and is named.
func TestOneOfSeveralIsNoStudent(t *testing.T) {
	wall, kim := newClass(t)
	robin := kim
	robin.Key = "robin"
	robin.Does(`/coach end member:kim`)
	for _, line := range []string{`/coach note text:x`, `/coach suggest at:rear adjuster:rebound to:14 why:x`} {
		kim.Refused(tuning.Forbidden, "robin is not your student: ", line+` member:sam and:robin`)
		kim.Refused(tuning.Forbidden, "robin and kim are not your students: ", line+` member:sam and:robin,kim`)
		kim.Refused(tuning.NotFound, "nobody", line+` member:sam and:nobody`)
	}
	if len(wall.notes)+len(wall.suggestions)+len(wall.mail)+len(wall.looks) != 0 {
		t.Errorf("something is kept: %+v %+v %+v %+v", wall.notes, wall.suggestions, wall.mail, wall.looks)
	}
}

// Each gets the suggestion for their own car, by its own clicks and counting.
func TestSuggestToSeveral(t *testing.T) {
	wall, kim := newClass(t)
	of := wall.of
	of.Car.ID, of.Car.Name = 2, "Grey coupe"
	for axle := range of.Car.Dampers {
		of.Car.Dampers[axle].Count = tuning.FromSoft
	}
	wall.cases = map[string]tuning.Case{"sam": of}
	made := kim.Does(`/coach suggest member:robin and:sam at:rear adjuster:rebound to:12 why:"Try it."`)
	want := "\nrobin, Blue hatch: Rear rebound 4 stiffer, both sides: 16 → 12 from hard\nsam, Grey coupe: Rear rebound 2 softer, both sides: 14 → 12 from soft"
	if made.Title != "Suggested to robin and sam" || !strings.HasSuffix(made.Text, want) {
		t.Errorf("%q %q", made.Title, made.Text)
	}
	if len(wall.suggestions) != 2 || len(wall.mail) != 2 || len(wall.looks) != 2 || wall.suggestions[0].Advice.Car != 1 || wall.suggestions[1].Advice.Car != 2 {
		t.Errorf("%+v, sent %+v", wall.suggestions, wall.mail)
	}
	if words := made.Message().Words(); !strings.Contains(words, "never force past a stop") {
		t.Errorf("there is no caution in\n%s", words)
	}
}

// What cannot be suggested to one is suggested to nobody, and the sentence says
// whose car it is about.
func TestOneOfSeveralCannotBeSuggestedTo(t *testing.T) {
	wall, kim := newClass(t)
	kim.Refused(tuning.Invalid, "Leave car out", `/coach suggest member:robin and:sam car:"Blue hatch" at:rear adjuster:rebound to:14 why:x`)
	wall.carless = "sam"
	kim.Refused(tuning.NotFound, "sam has no car here yet.", `/coach suggest member:robin and:sam at:rear adjuster:rebound to:14 why:x`)
	kim.Refused(tuning.NotFound, `sam has no car called "Blue hatch".`, `/coach suggest member:sam car:"Blue hatch" at:rear adjuster:rebound to:14 why:x`)
	unfitted, there := wall.of, wall.of
	unfitted.Car.Dampers = [tuning.Axles]tuning.Damper{}
	for _, corner := range tuning.Rear.Corners() {
		there.Setting[corner][tuning.Rebound] = 16
	}
	for _, c := range []struct {
		kind tuning.Kind
		say  string
		of   tuning.Case
	}{
		{tuning.Conflict, "I do not know the dampers of sam's Blue hatch yet", unfitted},
		{tuning.Invalid, "sam: Blue hatch stands there already", there},
	} {
		wall.cases = map[string]tuning.Case{"sam": c.of}
		kim.Refused(c.kind, c.say, `/coach suggest member:robin and:sam at:rear adjuster:rebound to:14 why:x`)
	}
	if len(wall.suggestions)+len(wall.mail) != 0 {
		t.Errorf("something is kept: %+v %+v", wall.suggestions, wall.mail)
	}
}

// Many names stand below the heading.
func TestSeveralStudentsAtOnce(t *testing.T) {
	_, kim, _ := newPitwall(t)
	robin := kim
	for _, name := range []string{"robin", "sam", "lee", "ash"} {
		robin.Key = name
		kim.Does(`/coach ask member:` + name)
		robin.Does(`/coach accept member:kim`)
	}
	if r := kim.Does(`/coach note member:robin and:"sam, lee, ash" text:x`); r.Title != "Note left for 4 students" || !strings.HasPrefix(r.Text, "robin, sam, lee and ash.\n") {
		t.Errorf("%q %q", r.Title, r.Text)
	}
	suggested := kim.Does(`/coach suggest member:robin and:"sam, lee, ash" at:all adjuster:rebound to:2 why:x`)
	m := suggested.Message()
	if lines, runes := m.Measure(); suggested.Title != "Suggested to 4 students" || lines > 26 || runes > 1300 || strings.Contains(m.Text, "…") {
		t.Errorf("%d lines, %d characters:\n%s", lines, runes, m.Words())
	}
}
