package discord

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/tuning"
)

// TestShowTheChannel sees an answer about one's own car stay private until its
// button is pressed, and then stand in the channel in the same words.
func TestShowTheChannel(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.answer = func(_ context.Context, ask bot.Ask) bot.Reply {
			r := bot.Reply{Title: "Rear rebound 3 stiffer_", Text: "@everyone, watch.", Private: true, Actions: []bot.Action{{Label: "Done", Ask: "/apply advice:7"}}}
			if ask.Line.Words[0] == "undo" {
				r.Problem = &bot.Trouble{Kind: tuning.Conflict, Say: r.Title}
			}
			return r
		}
		own := w.alice.Type("/symptom what:hops")
		if !own.Private() || !slices.Equal(own.Buttons(), []string{"Done", "Show the channel"}) {
			t.Fatalf("private %v, buttons %q", own.Private(), own.Buttons())
		}
		shown := own.Press("Show the channel")
		if m := shown.Message(); m.Private || m.Content != "alice shows:\n"+own.Content() || len(m.Buttons()) != 0 || len(m.Pings) != 0 {
			t.Errorf("the channel reads %+v", m)
		}
		if again := own.Press("Show the channel"); !again.Private() || !strings.Contains(again.Content(), "has it already") {
			t.Errorf("pressed again: %q", again.Content())
		}
		for _, line := range []string{"/log", "/undo"} {
			if got := w.alice.Type(line).Buttons(); slices.Contains(got, "Show the channel") {
				t.Errorf("%s offers %q", line, got)
			}
		}
	})
}

// TestUnknownIsPrivate announces an answer about one's own car in private where
// it is not known in time whether the person shares them.
func TestUnknownIsPrivate(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().post()
	w.bot.pace.deferral, w.bot.pace.privacy = time.Millisecond, 0
	w.share = true
	ready := make(chan struct{})
	w.answer = func(context.Context, bot.Ask) bot.Reply {
		<-ready
		return bot.Reply{Title: "Leave it"}
	}
	r := w.alice.Begin("/window")
	r.WaitFirst()
	if !r.Private() {
		t.Error("it is announced to everybody")
	}
	close(ready)
	if got := r.Wait(); !got.Private() || !slices.Equal(got.Buttons(), []string{"Show the channel"}) {
		t.Errorf("private %v, buttons %q", got.Private(), got.Buttons())
	}
}
