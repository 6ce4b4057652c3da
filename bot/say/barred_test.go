package say_test

import (
	"strings"
	"testing"

	"detent/bot/say"
)

func TestBarred(t *testing.T) {
	for _, c := range []struct {
		gone    bool
		missing []string
		want    string
	}{
		{true, nil, "The channel for the club's posts is gone"},
		{false, []string{"View Channel", "Attach Files"}, "In #7 I lack: View Channel, Attach Files."},
		{false, nil, "I am not allowed to post in #7"},
	} {
		title, text, note := say.Barred("Spring day", "#7", c.gone, c.missing)
		if !strings.HasPrefix(text, c.want) || !strings.Contains(text, "with /club set.") {
			t.Errorf("gone %v, missing %v: %s", c.gone, c.missing, text)
		}
		if title != "I cannot post about Spring day" || note == "" {
			t.Errorf("over it stands %q, below it %q", title, note)
		}
	}
}
