package bot

import "testing"

func TestUsage(t *testing.T) {
	c := Declare(Command{Name: "try", Help: "Try"}, noAnswer[everything])
	want := `/try name:TEXT [car:TEXT] [weather:dry|wet] [order:up|down] [hop:yes|no] [sure:yes] [grip:N] [mark:N] [advice:N] ` +
		`[mass:1250kg] [bar:70N/mm] [lap:1:23.4] [quiet:21:30] [after:3h] [starts:"2026-05-16 09:00"] [file:FILE] [height:2.55m] [width:2.55m]`
	if got := c.Usage(); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	for name, want := range map[string]string{"name": "a text", "grip": "a number", "mass": "a quantity: 1250kg", "order": "a word of the tag: up|down"} {
		if b, ok := c.binding(name); !ok || b.Hint() != want {
			t.Errorf("%s: %q, want %q", name, b.Hint(), want)
		}
	}
}

// Another word of the trade finds the option too.
func TestOptionByAnotherWord(t *testing.T) {
	type damper struct {
		Bump int `name:"bump" help:"clicks" min:"1" max:"9"`
	}
	if b, ok := Declare(Command{}, noAnswer[damper]).binding("compression"); !ok || b.Name != "bump" {
		t.Errorf("%+v, %v", b, ok)
	}
}
