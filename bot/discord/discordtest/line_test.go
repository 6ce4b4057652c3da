package discordtest

import (
	"slices"
	"testing"
)

// TestReadLine reads quotes, and values with colons or nothing in them.
func TestReadLine(t *testing.T) {
	t.Parallel()
	got, err := readLine(`/apply advice:"say \"stop\"" lap:1:23.4 empty:""`)
	want := []named{{"advice", `say "stop"`}, {"lap", "1:23.4"}, {"empty", ""}}
	if err != nil || !slices.Equal(got.values, want) || !slices.Equal(got.words, []string{"apply"}) {
		t.Errorf("%+v, %v", got, err)
	}
}
