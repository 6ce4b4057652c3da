package season

import (
	"fmt"
	"strings"

	"detent/bot/say"
	"detent/tuning"
)

// symptomCard is the symptom card as pairs of a complaint and what to try. What
// the trade is less sure of has a star.
func symptomCard(drives []tuning.Drive) [][]string {
	var lines [][]string
	for _, l := range tuning.Card(drives) {
		complaint := cardComplaint(l)
		if len(l.Drives) < len(drives) {
			complaint += " (" + say.Drives(l.Drives) + " drive)"
		}
		var try []string
		if l.First != "" {
			try = append(try, say.Check(l.First))
		}
		for _, t := range l.Try {
			words := say.CardTry(t)
			if t.Confidence == tuning.WeakerPractice {
				words += " *"
			}
			try = append(try, words)
		}
		lines = append(lines, []string{complaint, say.Capital(strings.Join(try, "; "))})
	}
	return lines
}

// cardComplaint names the complaint of a line of the card.
func cardComplaint(l tuning.CardLine) string {
	switch l.Where {
	case tuning.Entry:
		return say.Capital(l.What.Short()) + ", entry or mid"
	case tuning.Exit:
		return say.Capital(l.What.Short()) + ", exit"
	}
	return say.Capital(l.What.Short())
}

// starred says how the symptom card is read.
const starred = "Turn the first; if that is not it, the other. A step where nothing else is said. * The trade is less sure."

// saySteps say how far a step and the back-off are, for adjusters of the given
// clicks.
func saySteps(ranges []int, sizes tuning.Sizes) []string {
	return []string{
		"A step: " + byClicks(ranges, sizes.Step) + ". Slightly: " + say.Count(sizes.Slight, "click", "clicks") + ".",
		"The back-off, once it hops: " + byClicks(ranges, sizes.BackOff) + ".",
	}
}

// byClicks says a number of clicks that hangs on the range: "1 click of 7 or
// 12, 2 of 16".
func byClicks(ranges []int, size func(n int) int) string {
	var sizes []int
	of := map[int][]string{}
	for _, n := range ranges {
		s := size(n)
		if of[s] == nil {
			sizes = append(sizes, s)
		}
		of[s] = append(of[s], fmt.Sprint(n))
	}
	words := make([]string, len(sizes))
	for i, s := range sizes {
		words[i] = fmt.Sprintf("%d of %s", s, say.OneOf(of[s]))
		if i == 0 {
			words[i] = say.Count(s, "click", "clicks") + " of " + say.OneOf(of[s])
		}
	}
	return strings.Join(words, ", ")
}

// guideCautions go with every guide.
func guideCautions() []string {
	return say.Cautions([]tuning.Caution{tuning.Hot, tuning.Gently, tuning.EaseIn, tuning.Closed, tuning.Broken})
}
