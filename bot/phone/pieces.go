package phone

import "strings"

// pieceLength is the longest piece that a list is cut at, in characters: a
// message has room for one beside a long title.
const pieceLength = 400

// Pieces cuts a text at its lines, and lines that are too long at a space.
func Pieces(text string) []string {
	var pieces []string
	for line := range strings.SplitSeq(text, "\n") {
		for runes := []rune(line); len(runes) > pieceLength; runes = []rune(line) {
			cut := pieceLength
			if space := strings.LastIndexByte(string(runes[:cut]), ' '); space > 0 {
				cut = len([]rune(string(runes[:cut])[:space]))
			}
			pieces = append(pieces, string(runes[:cut]))
			line = strings.TrimSpace(string(runes[cut:]))
		}
		pieces = append(pieces, line)
	}
	return pieces
}
