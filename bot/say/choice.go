package say

import (
	"strings"

	"detent/tuning"
)

// Choice is the word of an option as people read it in a menu or on a button:
// "Sinks lower over a run of bumps" for what:packs-down.
func Choice(option, word string) string {
	if option == "what" {
		for _, w := range tuning.Whats {
			if string(w.What) == word {
				return Capital(w.Means)
			}
		}
	}
	if label := choiceWords[option][word]; label != "" {
		return label
	}
	return Capital(strings.ReplaceAll(word, "-", " "))
}

// choiceWords are the words that say more than the word of the line.
var choiceWords = map[string]map[string]string{
	"drive":  {"front": "Front wheels", "rear": "Rear wheels", "four": "All four"},
	"engine": {"front": "In front", "mid": "In the middle", "rear": "In the rear"},
	"ways":   {"one": "One-way", "two": "Two-way", "three": "Three-way", "four": "Four-way"},
	"count":  {"hard": "From full hard", "soft": "From full soft"},
	"moves":  {"rebound": "Rebound only", "both": "Bump and rebound together"},
	"where":  {"entry": "On entry", "mid": "In mid-corner", "exit": "On exit"},
	"at":     {"FL": "Front left", "FR": "Front right", "RL": "Rear left", "RR": "Rear right", "front": "Both front", "rear": "Both rear", "all": "All four"},
	"adjuster": {"low-bump": "Low-speed bump", "high-bump": "High-speed bump",
		"low-rebound": "Low-speed rebound", "high-rebound": "High-speed rebound"},
	"weather": {"either": "Dry or wet, nobody can tell"},
	"better":  {"yes": "Better", "no": "Worse", "same": "The same"},
	"turned":  {"yes": "I turned it now", "no": "It stands there"},
}
