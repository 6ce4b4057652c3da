package say

import (
	"fmt"
	"slices"
	"strings"

	"detent/tuning"
)

// Moves says moves as a person would call them across a paddock:
// "Front rebound 2 stiffer, both sides: 10 → 8 from hard".
func Moves(car tuning.Car, moves []tuning.Move) string {
	var parts []string
	for _, g := range groups(car, moves) {
		parts = append(parts, g.say(car))
	}
	return strings.Join(parts, "; ")
}

// Turns is Moves for a heading: of a change of many adjusters it leaves out what
// a table shows better.
func Turns(car tuning.Car, moves []tuning.Move) string {
	const twoLines = 88                                               // of a phone: with more, the table says from where to where
	apart := len(groups(car, moves)) > len(groups(car, level(moves))) // its sides stand apart
	if say := Moves(car, moves); !apart && len([]rune(say)) <= twoLines {
		return say
	}
	var parts []string
	even := ", both sides" // said once where it holds of all
	for i, g := range groups(car, level(moves)) {
		part := g.within(car)
		if i == 0 {
			part = Capital(part)
		}
		if g.sides != even {
			even = ""
		}
		parts = append(parts, part)
	}
	if even != "" {
		for i, part := range parts {
			parts[i] = strings.TrimSuffix(part, even)
		}
	}
	if say := strings.Join(parts, "; ") + even; len([]rune(say)) <= longHeading {
		return say
	}
	return "see the table"
}

// Briefly says within a sentence what a change turned, without from where to
// where. Where that would still be long it says why the change was made
// instead.
func Briefly(car tuning.Car, c tuning.Change) string {
	const long = 60
	var parts []string
	for _, g := range groups(car, level(tuning.Turned(c.Moves))) {
		parts = append(parts, g.within(car))
	}
	words := strings.Join(parts, "; ")
	switch {
	case words == "":
		return "confirmed where it stands"
	case len([]rune(words)) > long:
		return Count(len(c.Moves), "adjuster", "adjusters") + " (" + Reason(c) + ")"
	}
	return words
}

// level are moves as if each began at the same place, so that those that turn as
// far are said in one breath wherever they stand.
func level(moves []tuning.Move) []tuning.Move {
	leveled := slices.Clone(moves)
	for i, m := range moves {
		leveled[i].From, leveled[i].To = tuning.MaxRange, tuning.MaxRange+m.To-m.From
	}
	return leveled
}

// longHeading is how long a heading may be, in characters.
const longHeading = 100

// turn says how far a group turns, without from where.
func (g group) turn(car tuning.Car) string {
	return fmt.Sprintf("%s %s %d %s%s", g.place, car.Dampers[g.first.Corner.Axle()].Label(g.first.Adjuster), g.first.Clicks(), g.first.Turn(), g.sides)
}

// within is turn within a sentence: a corner stays in capitals.
func (g group) within(car tuning.Car) string {
	if len(g.place) == len("FL") {
		return g.turn(car)
	}
	return Small(g.turn(car))
}

// group is moves that can be said in one breath.
type group struct {
	place string // "Front", "All four", "FL"
	sides string // ", both sides" where that needs saying
	first tuning.Move
	rear  *tuning.Move // where the rear moves as far, from elsewhere
}

// groups folds moves that do the same: the two sides of an axle, and the two
// axles when their dampers and positions are alike.
func groups(car tuning.Car, moves []tuning.Move) []group {
	var out []group
	for a := range tuning.Adjuster(tuning.Adjusters) {
		var at [tuning.Corners]*tuning.Move
		for i, m := range moves {
			if m.Adjuster == a && m.From != m.To {
				at[m.Corner] = &moves[i]
			}
		}
		out = append(out, fold(car, at)...)
	}
	slices.SortStableFunc(out, func(x, y group) int { return int(x.first.Corner.Axle()) - int(y.first.Corner.Axle()) })
	return out
}

func fold(car tuning.Car, at [tuning.Corners]*tuning.Move) []group {
	like := func(x, y tuning.Corner) bool {
		return at[x] != nil && at[y] != nil && at[x].From == at[y].From && at[x].To == at[y].To
	}
	f, r := car.Dampers[tuning.Front], car.Dampers[tuning.Rear]
	front, rear := like(tuning.FL, tuning.FR), like(tuning.RL, tuning.RR)
	alike := front && rear && f.Count == r.Count && f.Label(at[tuning.FL].Adjuster) == r.Label(at[tuning.RL].Adjuster)
	if alike && like(tuning.FL, tuning.RL) && f.Range[at[0].Adjuster] == r.Range[at[0].Adjuster] {
		return []group{{place: "All four", first: *at[tuning.FL]}}
	}
	if alike && at[tuning.FL].To-at[tuning.FL].From == at[tuning.RL].To-at[tuning.RL].From {
		return []group{{place: "All four", first: *at[tuning.FL], rear: at[tuning.RL]}}
	}
	var out []group
	for axle := range tuning.Axle(tuning.Axles) {
		left, right := axle.Corners()[0], axle.Corners()[1]
		if axle == tuning.Front && front || axle == tuning.Rear && rear {
			out = append(out, group{place: Capital(axle.String()), sides: ", both sides", first: *at[left]})
			continue
		}
		for _, c := range []tuning.Corner{left, right} {
			if at[c] != nil {
				out = append(out, group{place: c.String(), first: *at[c]})
			}
		}
	}
	return out
}

func (g group) say(car tuning.Car) string {
	d := car.Dampers[g.first.Corner.Axle()]
	a := g.first.Adjuster
	if g.first.From < 0 {
		return fmt.Sprintf("%s %s%s: %s", g.place, d.Label(a), g.sides, d.Shown(a, g.first.To))
	}
	what := fmt.Sprintf("%s %s %d %s%s", g.place, d.Label(a), g.first.Clicks(), g.first.Turn(), g.sides)
	if g.rear != nil {
		r := car.Dampers[tuning.Rear]
		return fmt.Sprintf("%s: front %d → %d, rear %d → %s", what, d.Counted(a, g.first.From), d.Counted(a, g.first.To),
			r.Counted(a, g.rear.From), r.Shown(a, g.rear.To))
	}
	return fmt.Sprintf("%s: %d → %s", what, d.Counted(a, g.first.From), d.Shown(a, g.first.To))
}

// At says where a setting stands, axle by axle, for a phone: adjusters that
// stand alike in one breath.
func At(car tuning.Car, at tuning.Setting) string {
	var lines []string
	for axle := range tuning.Axle(tuning.Axles) {
		d := car.Dampers[axle]
		var stands []string // in the order shown
		names := map[string][]string{}
		for _, a := range d.Adjusters() {
			stand := sayStand(d, a, at[axle.Corners()[0]][a], at[axle.Corners()[1]][a])
			if names[stand] == nil {
				stands = append(stands, stand)
			}
			names[stand] = append(names[stand], d.Label(a))
		}
		for i, stand := range stands {
			name := AllOf(names[stand])
			if len(names[stand]) > 2 && len(stands) == 1 {
				name = "every adjuster"
			}
			stands[i] = name + " " + stand
		}
		lines = append(lines, Capital(axle.String())+": "+strings.Join(stands, "; ")+".")
	}
	return strings.Join(lines, "\n")
}

// sayStand says where one adjuster of an axle stands, left and right.
func sayStand(d tuning.Damper, a tuning.Adjuster, left, right int) string {
	if left == right {
		return d.ShownBoth(a, left)
	}
	return fmt.Sprintf("left %s, right %s", d.ShownBoth(a, left), d.ShownBoth(a, right))
}
