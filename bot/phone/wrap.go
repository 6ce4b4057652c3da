package phone

import "strings"

// Wrap cuts one line into those that a phone shows of it: at words, and a word
// longer than a line where the line ends.
func Wrap(line string) []string {
	var lines []string
	shown := ""
	next := func() { lines, shown = append(lines, strings.TrimRight(shown, " ")), "" }
	for word := range strings.SplitAfterSeq(line, " ") {
		wide := Width(strings.TrimRight(word, " ")) // spaces may hang over the end
		if shown != "" && wide > 0 && Width(shown)+wide > Columns {
			next()
		}
		for _, r := range word {
			if r != ' ' && Width(shown+string(r)) > Columns {
				next()
			}
			shown += string(r)
		}
	}
	return append(lines, strings.TrimRight(shown, " "))
}
