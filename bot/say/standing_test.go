package say_test

import (
	"slices"
	"testing"

	"detent/bot/say"
	"detent/tuning"
)

func TestStanding(t *testing.T) {
	c := tuning.Case{Car: twin(30)}
	if got := say.Standing(c); got != nil {
		t.Errorf("%q", got)
	}
	c.Setting[tuning.RL][tuning.Bump], c.History.Unrecorded = 3, true
	want := []string{"Nobody has told me where the clicks stand: this is the start; correct it with /clicks set.",
		"Left and right differ at the rear: set them equal unless you mean it."}
	if got := say.Standing(c); !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}
