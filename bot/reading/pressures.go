package reading

import (
	"strconv"
	"strings"
	"unicode"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/unit"
)

// pressuresHint shows the ways to type pressures.
const pressuresHint = `"2.1" for all four, "front 2.1 rear 2.0", or "FL 2.1 FR 2.1 RL 2.0 RR 2.0"`

// Pressures reads pressures as people type them: one for all, two for front
// and rear, four for FL FR RL RR, or each behind the name of its wheel or end.
// A unit holds for the numbers before it, and without one the reader's own does.
// Heat is "" unless "cold" or "hot" stands among them. The error is a Problem.
func Pressures(text string, imperial bool) (p tuning.Pressures, heat tuning.Heat, err error) {
	var numbers []typedPressure
	at := ""
	for _, word := range pressureWords(text) {
		switch number, suffix := partNumber(word); {
		case number != "":
			numbers = append(numbers, typedPressure{at, number, suffix})
			at = ""
		case word == string(tuning.TakenCold) || word == string(tuning.TakenHot):
			heat = tuning.Heat(word)
		case unit.DimensionHas(unit.OfPressure, word) && len(numbers) > 0:
			fillUnit(numbers, word)
		case at != "":
			return p, "", noPressure(at)
		default:
			at = word
		}
	}
	switch {
	case at != "":
		return p, "", noPressure(at)
	case len(numbers) == 0:
		return p, "", bot.Problemf(tuning.Invalid, "I cannot read pressures from %s: type %s.", say.Echo(text), pressuresHint)
	}
	if err := nameWheels(numbers); err != nil {
		return p, "", err
	}
	for _, n := range numbers {
		if err := n.set(&p, imperial); err != nil {
			return p, "", err
		}
	}
	return p, heat, nil
}

// noPressure refuses a word that no number follows.
func noPressure(at string) error {
	return bot.Problemf(tuning.Invalid, "There is no pressure behind %s: type %s.", say.Echo(at), pressuresHint)
}

// typedPressure is one number with the wheels it is for and its unit, where
// they were typed.
type typedPressure struct{ at, number, unit string }

// pressureWords parts a text at spaces, slashes, colons and semicolons, and at
// commas that are no decimal ones.
func pressureWords(text string) []string {
	runes := []rune(strings.ToLower(text))
	digit := func(i int) bool { return i >= 0 && i < len(runes) && unicode.IsDigit(runes[i]) }
	for i, r := range runes {
		if strings.ContainsRune("/;:=", r) || r == ',' && !(digit(i-1) && digit(i+1)) {
			runes[i] = ' '
		}
	}
	return strings.Fields(string(runes))
}

// partNumber parts "2.1bar"; number is "" for a word that begins with none.
func partNumber(word string) (number, suffix string) {
	end := strings.IndexFunc(word, func(r rune) bool { return !strings.ContainsRune("0123456789.,+-", r) })
	if end < 0 {
		end = len(word)
	}
	return word[:end], word[end:]
}

// fillUnit gives a unit to the numbers before it that have none.
func fillUnit(numbers []typedPressure, word string) {
	for i := range numbers {
		if numbers[i].unit == "" {
			numbers[i].unit = word
		}
	}
}

// nameWheels says which wheels numbers without a name are for.
func nameWheels(numbers []typedPressure) error {
	named := 0
	for _, n := range numbers {
		if n.at != "" {
			named++
		}
	}
	order := map[int][]string{1: {"all"}, 2: {"front", "rear"}, 4: {"fl", "fr", "rl", "rr"}}[len(numbers)]
	switch {
	case named == len(numbers):
		return nil
	case named > 0 || order == nil:
		return bot.Problemf(tuning.Invalid, "It is not clear which wheel has which pressure: type %s.", pressuresHint)
	}
	for i := range numbers {
		numbers[i].at = order[i]
	}
	return nil
}

// set puts one number where it belongs.
func (n typedPressure) set(p *tuning.Pressures, imperial bool) error {
	corners, ok := tuning.CornersAt(n.at)
	if !ok {
		corners, ok = tuning.CornersAt(strings.ToUpper(n.at))
	}
	if !ok {
		return bot.Problemf(tuning.Invalid, "There is no wheel %s: use FL, FR, RL, RR, front, rear or all.", say.Echo(n.at))
	}
	v, err := unit.Read(unit.OfPressure, n.number+n.unit, imperial)
	if err != nil {
		return n.refuse(err, imperial)
	}
	for _, c := range corners {
		if p[c] != 0 {
			return bot.Problemf(tuning.Invalid, "You gave the pressure of %s twice: give it once.", c)
		}
		p[c] = unit.Pressure(v)
	}
	return nil
}

// refuse says what is wrong with a number, and asks about one whose unit was
// left out and cannot be the reader's own.
func (n typedPressure) refuse(err error, imperial bool) error {
	if _, wrong := strconv.ParseFloat(strings.Replace(n.number, ",", ".", 1), 64); n.unit == "" && wrong == nil {
		var could []string
		for _, u := range []string{"bar", "psi", "kPa"} {
			if _, wrong := unit.Read(unit.OfPressure, n.number+u, imperial); wrong == nil {
				could = append(could, n.number+u)
			}
		}
		if len(could) > 0 {
			return &bot.Problem{Kind: tuning.Invalid, Err: err, Say: "Which unit has the pressure " + n.number + "? Type " + say.OneOf(could) + "."}
		}
	}
	return &bot.Problem{Kind: tuning.Invalid, Err: err, Say: "pressures: " + err.Error() + "."}
}
