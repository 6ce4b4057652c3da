package bot

import (
	"fmt"
	"slices"
	"strings"

	"detent/bot/phone"
	"detent/tuning"
)

// Table writes corners as a small table for a fixed-width face: a row an
// adjuster, the corners always FL FR RL RR, positions as the member counts. An
// adjuster that moves shows both ends of its move. It is narrow enough for a
// phone.
func Table(corners []Corner) string {
	rows, counted := tableOf(corners, "")
	return rows + counted
}

// tableOf returns the table, with a word in its corner, and separately which
// stop it counts from.
func tableOf(corners []Corner, corner string) (table, from string) {
	if len(corners) == 0 {
		return "", ""
	}
	corners, wheels := slices.Clone(corners), []string{"FL", "FR", "RL", "RR"}
	shareRow(corners, tuning.Bump.String())
	shareRow(corners, tuning.Rebound.String())
	rows := [][]string{append([]string{corner}, wheels...)}
	for _, name := range tableRows {
		row := []string{name, "-", "-", "-", "-"}
		for _, c := range corners {
			if c.Adjuster == name {
				row[1+slices.Index(wheels, c.Corner)] = c.cell()
			}
		}
		if slices.ContainsFunc(row[1:], func(cell string) bool { return cell != "-" }) {
			rows = append(rows, row)
		}
	}
	return phone.Grid(rows), counted(corners)
}

// tableRows are the rows that a table may have, from the top. A row in brackets is
// that of a plain adjuster at one axle and a low-speed one at the other.
var tableRows = []string{"bump", "(low-)bump", "low-bump", "high-bump", "rebound", "(low-)rebound", "low-rebound", "high-rebound"}

// shareRow gives the adjusters of a direction one row where the axles have
// different ones, so that no table has more than four.
func shareRow(corners []Corner, direction string) {
	has := func(adjuster string) bool {
		return slices.ContainsFunc(corners, func(c Corner) bool { return c.Adjuster == adjuster })
	}
	if !has(direction) || !has("low-"+direction) {
		return
	}
	for i, c := range corners {
		if c.Adjuster == direction || c.Adjuster == "low-"+direction {
			corners[i].Adjuster = "(low-)" + direction
		}
	}
}

// cell is one position, or a move, in the member's counting.
func (c Corner) cell() string {
	to, count, _ := strings.Cut(c.Shown, " ")
	if c.From == c.To {
		return to
	}
	from := c.From
	if count == "from hard" {
		from = c.Range - c.From
	}
	return fmt.Sprintf("%d→%s", from, to)
}

// counted says which stop the table counts from.
func counted(corners []Corner) string {
	words := map[string]string{}
	for _, c := range corners {
		_, count, _ := strings.Cut(c.Shown, " ")
		end := "front"
		if c.Corner[0] == 'R' {
			end = "rear"
		}
		words[end] = count
	}
	front, rear := words["front"], words["rear"]
	switch {
	case front == "" || front == rear:
		return "counted " + rear
	case rear == "":
		return "counted " + front
	}
	return fmt.Sprintf("counted front %s, rear %s", front, rear)
}
