package bot

import (
	"fmt"
	"strings"
	"testing"

	"detent/bot/phone"
)

// A list with a button for each line shows the buttons of the lines that have
// room, and from page to page each once.
func TestEachLineComesWithItsButton(t *testing.T) {
	reply := Reply{Title: "Students", Notes: []string{"lee: has not accepted yet"}}
	var lines []string
	for i := range 30 {
		lines = append(lines, fmt.Sprintf("student %d: %s", i, strings.Repeat("word ", 20)))
		reply.Actions = append(reply.Actions, Button(fmt.Sprint("student ", i), fmt.Sprint("/look at:", i)))
	}
	reply.Text = strings.Join(lines, "\n")
	reply.Actions = append(reply.Actions, Button("Always", "/always"))
	reply.View.Each = 30
	seen := 0
	for from, pages := 0, 0; ; pages++ {
		if pages > 20 {
			t.Fatal("the pages do not end")
		}
		m := MoreOption{From: from}.Paged(reply, "/list").Message()
		if !m.fits(phone.List) {
			t.Errorf("page %d does not fit: %+v", pages, m)
		}
		shown := strings.Count(m.Text, "student")
		for i := range shown {
			if want := fmt.Sprint("student ", from+i); m.Actions[i].Label != want || !strings.Contains(m.Text, want+":") {
				t.Errorf("button %d of the page from %d is %q", i, from, m.Actions[i].Label)
			}
		}
		if rest := m.Actions[shown:]; rest[0].Label != "Always" {
			t.Errorf("below the lines are %+v", rest)
		}
		seen += shown
		more := m.Actions[len(m.Actions)-1]
		if more.Label != "More" {
			break
		}
		if _, err := fmt.Sscanf(more.Ask, "/list from:%d", &from); err != nil {
			t.Fatal(err)
		}
	}
	if seen != 30 {
		t.Errorf("%d lines are shown", seen)
	}
}
