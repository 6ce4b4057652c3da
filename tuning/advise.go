package tuning

import (
	"fmt"
	"slices"
)

// Advice is the answer to a complaint: remedies in the order to try, one at a
// time. With no remedies it says in First and Notes what to do instead.
type Advice struct {
	ID        int64
	Car       int64
	Complaint Complaint
	Remedies  []Remedy
	First     []string // checks that come before any click
	Notes     []string
	Cautions  []Caution
}

// Remedy is one way to answer a complaint.
type Remedy struct {
	Kind       RemedyKind `json:"kind"`
	Why        string     `json:"why"`
	Watch      string     `json:"watch"`
	Confidence Confidence `json:"confidence"`
	Moves      []Move     `json:"moves"`
	Undoes     int64      `json:"undoes,omitempty"` // the change it takes back
	Short      bool       `json:"shrunk,omitempty"` // it shrank to the clicks that are left
	High       bool       `json:"-"`                // its adjuster stands above two thirds of its range
}

// RemedyKind is what sort of change a remedy is.
type RemedyKind string

// The kinds of remedy.
const (
	TurnClicks     RemedyKind = "turn"     // a row of the table
	TakeBack       RemedyKind = "undo"     // the last change made it worse
	HalfBack       RemedyKind = "half"     // the last change went too far
	ReturnBaseline RemedyKind = "baseline" // back to the start
)

// Reason is how the record names a change of this kind.
func (r Remedy) Reason() Reason {
	switch r.Kind {
	case TakeBack:
		return ByUndo
	case ReturnBaseline:
		return ByBaseline
	}
	return ByRemedy
}

// Advise answers a complaint about a car that stands at a setting. The first
// remedy is the one to try. It returns a Problem when the complaint lacks what
// it needs or the dampers are not known.
// Common practice, no published source.
func Advise(car Car, at Setting, c Complaint, h History, sizes Sizes) (Advice, error) {
	advice := Advice{Car: car.ID, Complaint: c}
	if err := car.Fitted(); err != nil {
		return advice, err
	}
	if c.What.NeedsAxle() && c.Axle == nil {
		return advice, Problemf(Invalid, "Say which end: axle:front or axle:rear.")
	}
	row, ok := rowFor(car, c)
	if !ok {
		return advice, Problemf(Invalid, "I know no remedy for %s; /help symptom lists the complaints.", c.What)
	}
	if !c.What.NeedsAxle() {
		advice.Complaint.Axle = nil // it means nothing here
	}
	j := judge{car: car, at: at, complaint: advice.Complaint, history: h, sizes: sizes, advice: &advice}
	j.say()
	switch {
	case j.fault():
	case j.triedTwice():
	default:
		j.fromRow(row)
		j.fromMemory()
		j.rank()
	}
	j.doubt()
	j.check()
	advice.Cautions = cautionsFor(car, advice.Remedies)
	return advice, nil
}

// judge holds what one judgement looks at while it composes the advice.
type judge struct {
	car       Car
	at        Setting
	complaint Complaint
	history   History
	sizes     Sizes
	advice    *Advice
}

func (j *judge) note(format string, args ...any) {
	j.advice.Notes = append(j.advice.Notes, fmt.Sprintf(format, args...))
}

// say tells what the complaint itself calls for, whatever the clicks.
func (j *judge) say() {
	c := j.complaint
	if place, fixed := placeOf[c.What]; fixed && c.Where != Anywhere && c.Where != place {
		j.note("I read this as happening on %s, where it belongs.", place)
	}
	if c.Where == Mid {
		j.note("In the held part of a long corner little moves, so dampers do little: springs, bars, tyres and ride height come first, and the clicks here are second best.")
	}
}

// doubt tells what is doubtful about the clicks that the remedies turn.
func (j *judge) doubt() {
	if len(j.advice.Remedies) == 0 {
		return
	}
	if j.history.Unrecorded {
		j.note("Nobody has told me where the clicks stand: I take them to be at the start. If not, say so with /clicks set first.")
	}
	both := func(axle Axle) bool { d := j.car.Dampers[axle]; return d.Ways == 1 && d.Moves == MovesBoth }
	switch {
	case both(Front) && both(Rear):
		j.note("The one-way adjusters move bump and rebound together: expect both to change.")
	case both(Front), both(Rear):
		axle := Front
		if both(Rear) {
			axle = Rear
		}
		j.note("The %s one-way adjuster moves bump and rebound together: expect both to change.", axle)
	}
}

// fromRow turns the row's recipes into remedies for the dampers at hand.
func (j *judge) fromRow(r row) {
	recipes := slices.Clone(r.recipes)
	if r.swap != nil && r.swap(j.car, j.history) {
		slices.Reverse(recipes)
	}
	if j.complaint.What == Nervous && j.aboveMiddle() {
		if back, ok := j.returnToBaseline("It stands stiffer than the middle somewhere, which makes a car snap."); ok {
			j.advice.Remedies = append(j.advice.Remedies, back)
			return
		}
	}
	for _, recipe := range recipes {
		if remedy, ok := j.make(recipe); ok && !j.offers(remedy.Moves) {
			j.advice.Remedies = append(j.advice.Remedies, remedy)
		}
	}
}

// offers tells whether a remedy makes just these moves already, as where one
// adjuster stands in for two.
func (j *judge) offers(moves []Move) bool {
	return slices.ContainsFunc(j.advice.Remedies, func(r Remedy) bool { return slices.Equal(r.Moves, moves) })
}

// make turns a recipe into a remedy. ok is false when no adjuster fits or no
// click is left; it has said so then.
func (j *judge) make(r recipe) (remedy Remedy, ok bool) {
	targets, ok := j.targets(r)
	if !ok {
		return Remedy{}, false
	}
	remedy = Remedy{Kind: TurnClicks, Why: r.why, Watch: r.watch, Confidence: r.confidence}
	remedy.Moves = together(j.car, j.at, targets, r.turn)
	if len(remedy.Moves) == 0 {
		j.note("The %s is at its %s stop already, so that remedy is left out.", r.on(j.complaint), end(r.turn))
		return Remedy{}, false
	}
	for _, m := range remedy.Moves {
		remedy.High = remedy.High || 3*m.From > 2*j.car.Dampers[m.Corner.Axle()].Range[m.Adjuster]
	}
	j.shrink(&remedy, targets, r)
	return remedy, true
}

// shrink notes where fewer clicks are left than the recipe asks for.
func (j *judge) shrink(remedy *Remedy, targets []target, r recipe) {
	for _, t := range targets {
		if t.corner%2 == 1 {
			continue // its left side has been looked at
		}
		turned := 0
		if i := slices.IndexFunc(remedy.Moves, func(m Move) bool { return m.Corner == t.corner }); i >= 0 {
			turned = remedy.Moves[i].Clicks()
		}
		if turned == t.clicks {
			continue
		}
		remedy.Short = true
		what := t.corner.Axle().String() + " " + j.car.Dampers[t.corner.Axle()].Label(t.adjuster)
		switch {
		case turned == 0:
			j.note("The %s is at its %s stop already and stays.", what, end(r.turn))
		case r.scope == allAlike:
			j.note("A corner is near its %s stop: that remedy is only the %d left, the same at all four.", end(r.turn), turned)
			return
		default:
			j.note("The %s is near its %s stop: that remedy is only the %d left.", what, end(r.turn), turned)
		}
	}
}

// targets finds the adjusters a recipe turns and how far. ok is false when the
// dampers lack them.
func (j *judge) targets(r recipe) (targets []target, ok bool) {
	var fits [Axles]fitting
	var has [Axles]bool
	smallest := MaxRange
	for _, axle := range r.axles(j.complaint) {
		fits[axle], has[axle] = r.knob.on(j.car.Dampers[axle])
		if !has[axle] {
			if r.knob != fastReb { // the table offers that one only where it exists
				j.note("The %s damper has no adjuster for %s.", axle, r.knob.least())
			}
			if r.scope != bothAxles {
				return nil, false
			}
			continue
		}
		smallest = min(smallest, j.car.Dampers[axle].Range[fits[axle].adjuster])
	}
	for _, axle := range r.axles(j.complaint) {
		if !has[axle] {
			continue
		}
		n := j.car.Dampers[axle].Range[fits[axle].adjuster]
		if r.scope == allAlike {
			n = smallest
		}
		clicks := j.clicks(r.size, fits[axle], n)
		for _, c := range axle.Corners() {
			targets = append(targets, target{c, fits[axle].adjuster, clicks})
		}
	}
	return targets, len(targets) > 0
}

func (j *judge) clicks(s size, f fitting, n int) int {
	switch {
	case f.slight || s == slight:
		return j.sizes.Slight
	case s == backOff:
		return j.sizes.BackOff(n)
	}
	return j.sizes.Step(n)
}

// axles lists the ends a recipe turns.
func (r recipe) axles(c Complaint) []Axle {
	switch r.scope {
	case front:
		return []Axle{Front}
	case rear:
		return []Axle{Rear}
	case saidAxle:
		return []Axle{*c.Axle}
	}
	return []Axle{Front, Rear}
}

// on names what a recipe turns, for a sentence.
func (r recipe) on(c Complaint) string {
	if axles := r.axles(c); len(axles) == 1 {
		return axles[0].String() + " " + r.knob.job()
	}
	return r.knob.job()
}

func end(t Turn) string {
	if t == Stiffer {
		return "hard"
	}
	return "soft"
}

// rank settles the order: a remedy short of clicks goes behind the next, a
// stiffening one on an adjuster that stands high goes behind a softening one,
// and where both stand high the start comes before either. What memory put
// first stays first.
func (j *judge) rank() {
	var table []Remedy
	softening := false
	for _, r := range j.advice.Remedies {
		if r.Kind == TurnClicks {
			table = append(table, r)
			softening = softening || r.Moves[0].Turn() == Softer
		}
	}
	place := func(r Remedy) int {
		switch behind := r.High && softening && r.Moves[0].Turn() == Stiffer; {
		case r.Kind != TurnClicks:
			return 0
		case r.Short && behind:
			return 3
		case r.Short || behind:
			return 2
		}
		return 1
	}
	remedies := j.advice.Remedies
	slices.SortStableFunc(remedies, func(a, b Remedy) int { return place(a) - place(b) })
	allHigh := len(table) > 1 && !slices.ContainsFunc(table, func(r Remedy) bool { return !r.High })
	if allHigh {
		if back, ok := j.returnToBaseline("Both remedies' adjusters stand above two thirds of their range: start again from the soft side."); ok {
			at := slices.IndexFunc(remedies, func(r Remedy) bool { return r.Kind == TurnClicks })
			j.advice.Remedies = slices.Insert(remedies, at, back)
		}
	}
}

// aboveMiddle tells whether any adjuster stands stiffer than its middle.
func (j *judge) aboveMiddle() bool {
	for c := range Corner(Corners) {
		d := j.car.Dampers[c.Axle()]
		for _, a := range d.Adjusters() {
			if 2*j.at[c][a] > d.Range[a] {
				return true
			}
		}
	}
	return false
}

// returnToBaseline is the remedy that goes back to the start, with every
// adjuster of every corner listed. ok is false when the car stands there.
func (j *judge) returnToBaseline(why string) (Remedy, bool) {
	start, err := Baseline(j.car, j.complaint.Weather, j.sizes)
	if err != nil || start == j.at {
		return Remedy{}, false
	}
	return Remedy{Kind: ReturnBaseline, Why: why, Watch: "a car that rolls and floats more, and gives more warning",
		Confidence: CommonPractice, Moves: j.at.Across(start, j.car)}, true
}
