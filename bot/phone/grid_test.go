package phone

import "testing"

func TestGrid(t *testing.T) {
	got := Grid([][]string{{"", "FL", "FR"}, {"bump", "16→13", "-"}})
	if want := "         FL  FR\nbump  16→13   -\n"; got != want {
		t.Errorf("it reads\n%s\nwant\n%s", got, want)
	}
}
