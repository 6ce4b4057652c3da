package bot

import (
	"detent/bot/phone"
	"fmt"
	"strings"
)

// MoreOption is the option of a list that goes on where a message had no room.
type MoreOption struct {
	From int `name:"from" help:"how many lines of it were read already" min:"0" max:"100000"`
}

// Paged makes a reply a list, unless it has another size: as much of it as a message has room for is shown,
// and a button asks the line for what follows.
func (o MoreOption) Paged(r Reply, line string, about ...Named) Reply {
	more := Button("More", line, about...)
	if r.View.Size == phone.Answer {
		r.View.Size = phone.List
	}
	r.View.From, r.View.More = o.From, &more
	return r
}

// from is the button for what follows the first pieces.
func (a Action) from(read int) Action {
	a.Ask += fmt.Sprintf(" from:%d", read)
	if a.Press != "" {
		a.Press += fmt.Sprintf(" from:%d", read)
	}
	return a
}

// pieceLength is the longest piece that a list is cut at, in characters: a
// message has room for one beside a long title.
const pieceLength = 400

// piecesOf cuts a text at its lines, and lines that are too long at a space.
func piecesOf(text string) []string {
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
