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

// tableOf is the table, with a word in its corner, and apart which stop it counts
// from.
func tableOf(corners []Corner, corner string) (table, from string) {
	if len(corners) == 0 {
		return "", ""
	}
	rows := [][]string{{corner, "FL", "FR", "RL", "RR"}}
	for a := range tuning.Adjuster(tuning.Adjusters) {
		row := []string{a.String(), "-", "-", "-", "-"}
		for _, c := range corners {
			if c.Adjuster == a.String() {
				row[1+slices.Index(rows[0][1:], c.Corner)] = c.cell()
			}
		}
		if slices.ContainsFunc(row[1:], func(cell string) bool { return cell != "-" }) {
			rows = append(rows, row)
		}
	}
	return phone.Grid(rows), counted(corners)
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
	return fmt.Sprintf("counted %s at the front, %s at the rear", front, rear)
}
