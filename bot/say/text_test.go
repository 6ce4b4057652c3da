package say_test

import (
	"testing"

	"detent/bot/say"
)

func TestLetters(t *testing.T) {
	for small, capital := range map[string]string{"": "", "front": "Front", "über": "Über", "1 click": "1 click"} {
		if say.Capital(small) != capital || say.Small(capital) != small {
			t.Errorf("%q, %q", say.Capital(small), say.Small(capital))
		}
	}
}
