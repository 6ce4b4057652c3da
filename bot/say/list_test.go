package say_test

import (
	"testing"

	"detent/bot/say"
)

func TestLists(t *testing.T) {
	for _, c := range []struct {
		words        []string
		oneOf, allOf string
	}{
		{nil, "nothing", "nothing"}, {[]string{"a"}, "a", "a"}, {[]string{"a", "b"}, "a or b", "a and b"}, {[]string{"a", "b", "c"}, "a, b or c", "a, b and c"},
	} {
		if say.OneOf(c.words) != c.oneOf || say.AllOf(c.words) != c.allOf {
			t.Errorf("%v: %q, %q", c.words, say.OneOf(c.words), say.AllOf(c.words))
		}
	}
	for n, want := range map[int]string{0: "0 cars", 1: "1 car", 2: "2 cars"} {
		if got := say.Count(n, "car", "cars"); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
