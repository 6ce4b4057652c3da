package phone

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestPiecesAreCutAtSpaces(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("größer ", 150))
	pieces := Pieces("short\n" + long + "\n" + strings.Repeat("é", pieceLength+1))
	if pieces[0] != "short" || len(pieces) != 1+3+2 {
		t.Fatalf("%d pieces, the first %q", len(pieces), pieces[0])
	}
	if whole := strings.Join(pieces[1:4], " "); whole != long {
		t.Errorf("the pieces make %q", whole)
	}
	for _, p := range pieces {
		if n := utf8.RuneCountInString(p); n > pieceLength {
			t.Errorf("a piece of %d characters", n)
		}
	}
}
