package discord

import (
	"slices"
	"strings"

	"detent/bot"
)

// A button is a line kept behind a label, and so is a form: the line is its
// custom id. Nothing about it is kept anywhere else, so it works as long as the
// message stands. Where the platform does not tell the club, in a message to
// one person, the workspace's number stands before the line.

// customID writes a line as a custom id, false when it has no room.
func customID(club, line string) (string, bool) {
	id := club + line
	return id, length(id) <= maxCustomID
}

// readID takes a custom id apart.
func readID(id string) (club string, line bot.Line, err error) {
	start := max(0, strings.IndexByte(id, '/'))
	line, err = bot.ParseLine(id[start:])
	return id[:start], line, err
}

// buttons makes rows of what can follow a reply. A line too long for a button
// comes back to be typed.
func buttons(actions []bot.Action, club string) (rows []component, untapped []string) {
	var all []component
	for _, a := range actions {
		id, fits := customID(club, a.Line())
		there := slices.ContainsFunc(all, func(b component) bool { return b.CustomID == id })
		switch {
		case there:
		case !fits || len(all) == maxButtons:
			untapped = append(untapped, a.Label+": "+a.Ask)
		default:
			style := secondary
			if len(all) == 0 {
				style = primary
			}
			all = append(all, component{Type: buttonType, Style: style, Label: clip(a.Label, maxLabel), CustomID: id})
		}
	}
	for row := range slices.Chunk(all, rowButtons) {
		rows = append(rows, component{Type: rowType, Components: row})
	}
	return rows, untapped
}
