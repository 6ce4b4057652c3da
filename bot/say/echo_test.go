package say

import (
	"strings"
	"testing"
)

func TestEcho(t *testing.T) {
	for typed, want := range map[string]string{
		"fronnt": `"fronnt"`, "a\x1b[31mb": `"a[31mb"`, "a\u202eb\u2066c": `"abc"`, "two\n lines": `"two lines"`,
		strings.Repeat("x", 200): `"` + strings.Repeat("x", 59) + `…"`, "": `""`,
	} {
		if got := Echo(typed); got != want {
			t.Errorf("%q: %s, want %s", typed, got, want)
		}
	}
}
