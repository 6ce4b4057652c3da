package spelling

import "strings"

// Bare takes off what people put around a word: "from hard", "on entry",
// "corner exit", "2-way".
func Bare(word string) string {
	for _, before := range []string{"from-", "on-", "at-", "in-", "the-", "corner-"} {
		word = strings.TrimPrefix(word, before)
	}
	for _, behind := range []string{"-corner", "way"} {
		word = strings.TrimSuffix(word, behind)
	}
	return strings.Trim(word, "-")
}

// Meant is the word that another word of the trade stands for: bump for
// compression. ok is false for a word that stands for itself.
func Meant(word string) (meant string, ok bool) {
	meant, ok = aliases[word]
	return meant, ok
}

// aliases are other words of the trade for a choice or an option.
var aliases = map[string]string{
	"compression": "bump", "low-compression": "low-bump", "high-compression": "high-bump",
	"damp": "wet", "mixed": "either", "changeable": "either", "four-wheel": "four",
	"push": "understeer", "pushes": "understeer", "pushing": "understeer", "pushes-wide": "understeer", "runs-wide": "understeer", "tight": "understeer",
	"loose": "oversteer", "comes-round": "oversteer", "slides": "oversteer", "tail-happy": "oversteer",
	"hop": "hops", "hopping": "hops", "curbs": "kerbs", "kerb": "kerbs", "curb": "kerbs",
	"bottoming": "bottoms", "bottoms-out": "bottoms", "diving": "dives", "nose-dive": "dives", "twitchy": "nervous", "spins-wheels": "wheelspin",
	"fwd": "front", "rwd": "rear", "awd": "four", "4wd": "four",
	"lf": "FL", "rf": "FR", "lr": "RL",
	"1": "one", "2": "two", "3": "three", "4": "four", "y": "yes", "n": "no",
}
