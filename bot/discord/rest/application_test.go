package rest

import (
	"encoding/base64"
	"testing"
)

func TestApplicationIn(t *testing.T) {
	t.Parallel()
	for token, want := range map[string]string{
		base64.RawStdEncoding.EncodeToString([]byte("1152921504606846977")) + ".x.y":  "1152921504606846977",
		base64.StdEncoding.EncodeToString([]byte("115292150460684697")) + ".x.y":      "115292150460684697",
		base64.RawStdEncoding.EncodeToString([]byte("one hundred and fifteen")) + ".": "",
		"stand-in.token": "", "": "",
	} {
		if got := ApplicationIn(token); got != want {
			t.Errorf("%q begins with %q, want %q", token, got, want)
		}
	}
}
