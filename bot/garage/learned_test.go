package garage_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"detent/bot"
	"detent/bot/bottest"
	"detent/tuning"
	"detent/tuning/learn"
)

// learning is a hatch that has answered for both remedies against understeer:
// the first brought nothing, the second helped.
func learning(t *testing.T) (box *toolbox, robin bottest.Person) {
	box, robin = newToolbox(t)
	keys := tuning.RecipesFor(box.cars[0], tuning.Complaint{What: tuning.Understeer}, tuning.History{})
	box.learned = learn.Evidence{Own: map[learn.Key]learn.Sums{
		keys[0]: {A: 2.5, B: -1, Tries: 2},
		keys[1]: {A: 3.75, B: 3.375, Tries: 3, Helped: 3},
	}}
	return box, robin
}

func TestTheRecordChangesTheOrder(t *testing.T) {
	_, robin := learning(t)
	r := robin.Does(`/symptom what:understeer where:entry`)
	if !strings.HasPrefix(r.Title, "Front rebound 3 softer") {
		t.Errorf("first comes %q", r.Title)
	}
	const line = "Your own order: front rebound helped 3 of 3 times, about half a mark better."
	if !slices.Contains(r.Notes, line) {
		t.Errorf("why is not said: %q", r.Notes)
	}
	if n := strings.Count(r.Text+strings.Join(r.Notes, "\n"), "order"); n != 1 {
		t.Errorf("the order is spoken of %d times: %q %q", n, r.Text, r.Notes)
	}
	// By hand: V₀ = 0.45² + 0.25², V = 1/(A + 1/V₀), mean = V (B + m/V₀).
	first := r.Remedies[0].Learned
	v := 1 / (3.75 + 1/0.265)
	mean := v * (3.375 + 0.3/0.265)
	if first == nil || first.Tries != 3 || first.Better != 3 || first.ClubCars != 0 || fmt.Sprintf("%.12f", first.Mean) != fmt.Sprintf("%.12f", mean) {
		t.Errorf("learned is %+v, want a mean of %v", first, mean)
	}
	why := robin.Does(`/why advice:1`)
	if want := "On your car 3 clicks of front rebound helped 3 of 3 times: about half a mark better, give or take half."; !strings.Contains(why.Text, want) {
		t.Errorf("why says %q", why.Text)
	}
	if got := why.Remedies[0].Learned; got == nil || *got != *first {
		t.Errorf("why tells %+v", got)
	}
	second := robin.Does(`/why advice:1 remedy:2`)
	if want := "On your car 3 clicks of rear rebound have not helped in 2 tries: hardly anything, give or take half a mark."; !strings.Contains(second.Text, want) {
		t.Errorf("why of the second says %q", second.Text)
	}
}

func TestTheTableStandsWithNothingLearned(t *testing.T) {
	box, robin := newToolbox(t)
	r := robin.Does(`/symptom what:understeer where:entry`)
	if !strings.HasPrefix(r.Title, "Rear rebound 3 stiffer") || strings.Contains(r.Text, "order") {
		t.Errorf("%q: %q", r.Title, r.Text)
	}
	if l := r.Remedies[0].Learned; l == nil || l.Mean != 0.5 || l.Tries != 0 {
		t.Errorf("learned is %+v", l)
	}
	if why := robin.Does(`/why advice:1`); !strings.Contains(why.Text, "\nNothing tried on your car yet.") {
		t.Errorf("why says %q", why.Text)
	}
	key := tuning.RecipesFor(box.cars[0], tuning.Complaint{What: tuning.Understeer}, tuning.History{})[0]
	two := []learn.CarTries{{Owner: "ann", Sums: learn.Sums{A: 1, B: 1, Tries: 3, Helped: 3}}, {Owner: "ben", Sums: learn.Sums{A: 1, B: 1, Tries: 3, Helped: 2}}}
	box.learned.Others = map[learn.Key]learn.Others{key: learn.OthersOf("robin", two)}
	if why := robin.Does(`/why advice:1`); strings.Contains(why.Text, "club") || why.Remedies[0].Learned.ClubCars != 0 {
		t.Errorf("of two people's cars it says %q", why.Text)
	}
	box.learned.Others[key] = learn.OthersOf("robin", append(two, learn.CarTries{Owner: "cat", Sums: learn.Sums{A: 1, B: 1, Tries: 3, Helped: 2}}))
	why := robin.Does(`/why advice:1`)
	if !strings.Contains(why.Text, "\nNothing tried on your car yet; in this club it helped 7 of 9 times.") || why.Remedies[0].Learned.ClubCars != 3 {
		t.Errorf("of three people's cars it says %q", why.Text)
	}
}

// What only looks back, and what goes to a start, is no row of the table.
func TestNothingIsLearnedOfGoingBack(t *testing.T) {
	box, robin := learning(t)
	robin.Does(`/symptom what:understeer`)
	robin.Does(`/apply advice:1`)
	box.history.Changes[0].Felt = tuning.BetterNo
	r := robin.Does(`/symptom what:understeer`)
	if !strings.HasPrefix(r.Title, "Take that change back") || r.Remedies[0].Learned != nil || r.Remedies[1].Learned == nil {
		t.Errorf("%q with %+v", r.Title, r.Remedies)
	}
	if why := robin.Does(`/why advice:2`); strings.Contains(why.Text, "your car") {
		t.Errorf("why says %q", why.Text)
	}
	start := robin.Does(`/baseline`)
	for _, r := range start.Remedies {
		if r.Learned != nil {
			t.Errorf("of a start is learned %+v", r.Learned)
		}
	}
	if why := robin.Does(`/why advice:3`); why.Remedies[0].Learned != nil {
		t.Errorf("of a start is learned %+v", why.Remedies[0].Learned)
	}
}

func TestLearned(t *testing.T) {
	_, robin := learning(t)
	r := robin.Does(`/learned`)
	want := "Understeer on entry: front rebound 3 softer helped 3 of 3 times, about half a mark better, give or take half.\n" +
		"Understeer on entry: rear rebound 3 stiffer has not helped in 2 tries, hardly anything, give or take half a mark."
	if r.Title != "Learned on Blue hatch: 2 remedies" || r.Text != want || !r.Private {
		t.Errorf("%q\n%s", r.Title, r.Text)
	}
	if r.Picture == nil || !strings.Contains(r.Picture.Alt, "Understeer on entry: front rebound 3 softer: 0.6, from") || len(r.Picture.PNG) == 0 {
		t.Errorf("the picture is %+v", r.Picture)
	}
	robin.Refused(tuning.NotFound, "has no page 2", `/learned page:2`)
}

func TestLearnedTeachesHowToTeachIt(t *testing.T) {
	_, robin := newToolbox(t)
	r := robin.Does(`/learned`)
	if r.Title != "Nothing learned on Blue hatch yet" || !strings.Contains(r.Text, "/feel") || len(r.Actions) != 1 || r.Picture != nil {
		t.Errorf("%q: %q %+v", r.Title, r.Text, r.Actions)
	}
}

// A car that has learned of every remedy there is fits pages of a phone.
func TestLearnedFitsAPhone(t *testing.T) {
	box, robin := newToolbox(t)
	d := tuning.Damper{Ways: 4, Count: tuning.FromSoft}
	for _, a := range d.Adjusters() {
		d.Range[a] = 24
	}
	box.cars[0].Dampers = [tuning.Axles]tuning.Damper{d, d}
	box.learned.Own = map[learn.Key]learn.Sums{}
	for _, w := range tuning.Whats {
		for axle := range tuning.Axle(tuning.Axles) {
			for _, where := range []tuning.Where{tuning.Entry, tuning.Exit} {
				for _, key := range tuning.RecipesFor(box.cars[0], tuning.Complaint{What: w.What, Where: where, Axle: &axle}, tuning.History{}) {
					box.learned.Own[key] = learn.Sums{A: 1, B: 1.6, Tries: 12, Helped: 11}
				}
			}
		}
	}
	seen := 0
	for line := "/learned"; line != ""; {
		r := robin.Does(line)
		seen += strings.Count(r.Text, "\n") + 1
		if n, lines := utf8.RuneCountInString(r.Title+r.Text), wrapped(r); n > 1200 || lines > 24 {
			t.Errorf("%s has %d characters and %d lines:\n%s", line, n, lines, r.Text)
		}
		if line = ""; len(r.Actions) > 0 {
			line = r.Actions[0].Line()
		}
	}
	if seen != len(box.learned.Own) || seen < 20 {
		t.Errorf("%d of %d are listed", seen, len(box.learned.Own))
	}
}

// wrapped is how many lines of 44 columns a reply has.
func wrapped(r bot.Reply) (lines int) {
	for line := range strings.Lines(r.Title + "\n" + r.Text) {
		lines += 1 + (utf8.RuneCountInString(strings.TrimSpace(line))-1)/44
	}
	return lines
}
