package say

import "detent/tuning"

// cautions are the sentences of the cautions.
var cautions = map[tuning.Caution]string{
	tuning.Hot:      "Brakes, dampers and exhausts are hot: let them cool. Work on level ground, never under a car held by a jack alone.",
	tuning.Gently:   "Turn gently, never force past a stop, and count from the stop the maker names.",
	tuning.EaseIn:   "First laps after a change at reduced pace, where there is run-off; come in at once if it feels worse.",
	tuning.Closed:   "For closed circuits under the organiser's rules and marshals, not the public road. The makers' limits come first; local rules and a qualified technician decide.",
	tuning.TooStiff: "Far on the stiff side the car can lose the road without warning.",
	tuning.Broken:   "A knock, a leak, vibration, a pull under braking or a sudden change: stop, have it inspected, no clicks.",
	tuning.Estimate: "Figures marked estimate rest on assumed values; they compare settings of one car and promise nothing.",
}

// Caution is the sentence of a caution. Advice from before cautions were words
// holds the sentence itself.
func Caution(c tuning.Caution) string { return sentence(cautions, c) }

// Cautions are the sentences of cautions.
func Cautions(list []tuning.Caution) []string { return sentences(list, Caution) }

// sentence is the sentence of a word in a table. Advice from before there were
// words holds the sentence itself, and where a person says why, their own
// stands there: both are returned as they are.
func sentence[W ~string](table map[W]string, word W) string {
	if said, ok := table[word]; ok {
		return said
	}
	return string(word)
}

func sentences[W any](list []W, say func(W) string) []string {
	said := make([]string, len(list))
	for i, w := range list {
		said[i] = say(w)
	}
	return said
}
