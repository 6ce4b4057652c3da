package season_test

import (
	"testing"

	"detent/bot/bottest"
	"detent/bot/season"
	"detent/tuning"
)

// A guide is posted when it says something new, by hand and by itself.
func TestGuideIsPostedOnce(t *testing.T) {
	year, olga, robin := newYear(t)
	olga.Refused(tuning.Invalid, "Nobody has entered June day yet", `/event guide`)
	robin.Does(`/event enter`)
	guide, hash, err := season.Guide(t.Context(), year, 1, bottest.Morning)
	if err != nil || hash == "" || guide.Title != "Guide for June day" {
		t.Fatalf("%q %q %v", guide.Title, hash, err)
	}
	if r := olga.Does(`/event guide`); r.Title != guide.Title || year.events[0].GuideHash != hash {
		t.Errorf("%q, %q", r.Title, year.events[0].GuideHash)
	}
	again := olga.Does(`/event guide`)
	if len(again.Files) != 0 {
		t.Errorf("it is posted again unchanged: %q", again.Title)
	}
	if r := olga.Does(button(t, again, "Post it again")); r.Title != guide.Title {
		t.Errorf("%q", r.Title)
	}
	for what, event := range map[string]int64{"an unchanged guide": 1, "no event": 9} {
		if _, hash, err := season.Guide(t.Context(), year, event, bottest.Morning); hash != "" || err != nil {
			t.Errorf("%s posts by itself: %q %v", what, hash, err)
		}
	}
}
