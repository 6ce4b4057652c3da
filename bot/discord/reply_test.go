package discord

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"detent/bot"
	"detent/bot/discord/discordtest"
)

func many(n int, text string) []string {
	lines := make([]string, n)
	for i := range lines {
		lines[i] = fmt.Sprintf("%s %d", text, i)
	}
	return lines
}

// TestLongReplies shows replies that have no room, and sees the platform take
// them, the caution whole and what is missing shown.
func TestLongReplies(t *testing.T) {
	t.Parallel()
	care := bot.View{Care: bot.Care{Turns: true}}
	var actions []bot.Action
	for n := range 30 {
		actions = append(actions, bot.Action{Label: strings.Repeat("Press ", 20), Ask: fmt.Sprintf("/log page:%d", n+1)})
	}
	actions[3].Ask = `/symptom what:understeer car:"` + strings.Repeat("x", 100) + `"`
	for name, r := range map[string]bot.Reply{
		"long text":    {Title: strings.Repeat("Title ", 200), Text: strings.Repeat("word ", 2000), View: care},
		"many notes":   {Title: "Notes", Notes: many(200, "A note of some length that says a little"), View: care},
		"many buttons": {Title: "Buttons", Actions: actions, View: care},
		"one word":     {Title: "Word", Text: strings.Repeat("x", 9000)},
		"nothing":      {},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newAdapterClub(t).register().post()
			w.answer = func(context.Context, bot.Ask) bot.Reply { return r }
			m := w.alice.Type("/baseline").Message()
			if r.View.Care.Turns && !strings.Contains(m.Content, "closed circuit only.") {
				t.Errorf("it lacks the caution:\n%s", m.Content)
			}
			switch name {
			case "many notes":
				if !strings.Contains(m.Text(), "…") {
					t.Error("it does not show that something is missing")
				}
			case "many buttons":
				if n := len(m.Buttons()); n == 0 || n > maxButtons || !strings.Contains(m.Text(), "what:understeer") {
					t.Errorf("%d buttons and\n%s", n, m.Text())
				}
			}
		})
	}
}

func TestMarkupIsPlain(t *testing.T) {
	t.Parallel()
	m := compose(bot.Reply{Title: "*My* car", Text: "click,speed_mm_s\n# no heading [no](link) `code`"}, "")
	want := "**\\*My\\* car**\nclick,speed\\_mm\\_s\n\\# no heading \\[no](link) \\`code\\`"
	if m.Content != want {
		t.Errorf("got  %q\nwant %q", m.Content, want)
	}
}

func TestChannelsAndRolesGoByName(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"Posts go to: #1152921504606846977. Role: @1152921504606846978.":            "Posts go to: <#1152921504606846977>. Role: <@&1152921504606846978>.",
		"Posts go to: #<#1152921504606846977>. Role: @<@&1152921504606846978>.":     "Posts go to: <#1152921504606846977>. Role: <@&1152921504606846978>.",
		"Posts go to: #general. Role: @coaches. Car #12 at 11529215046068469771234": "Posts go to: \\#general. Role: @coaches. Car \\#12 at 11529215046068469771234",
	} {
		if m := compose(bot.Reply{Title: "Club", Text: text}, ""); m.Content != "**Club**\n"+want {
			t.Errorf("got  %q\nwant %q", m.Content, want)
		}
	}
}

// TestReplyThatThePlatformRefuses gives way to its first line.
func TestReplyThatThePlatformRefuses(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	w.answer = func(context.Context, bot.Ask) bot.Reply {
		return bot.Reply{Title: "All of it", Files: []bot.File{{Name: "all.zip", Type: "application/zip", Data: []byte("PK")}}}
	}
	w.Break(discordtest.PostCallback, discordtest.Status(400))
	if got := w.alice.Type("/me export"); got.Content() != "**All of it**" || len(got.Files()) != 0 {
		t.Errorf("answered %q", got.Content())
	}
	large := compose(bot.Reply{Title: "All", Files: []bot.File{{Name: "all.zip", Data: make([]byte, maxFile+1)}}}, "")
	if len(large.files) != 0 || !strings.Contains(large.Content, "too large to send") {
		t.Errorf("a file too large goes as %q", large.Content)
	}
}

func TestMessenger(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	ctx, general := t.Context(), w.club.Channel("general")
	hello := bot.Reply{Title: "How did it feel?", Text: "@everyone"}

	for range 2 { // the second time it is there already
		if err := w.bot.Direct(ctx, clubKey(w.club.ID), w.alice.ID, hello, "due-7"); err != nil {
			t.Fatal(err)
		}
	}
	if got := len(w.alice.Inbox().Messages()); got != 1 {
		t.Errorf("it arrived %d times", got)
	}
	if err := w.bot.Post(ctx, "<#"+general.ID+">", hello, "guide-1", w.alice.ID); err != nil {
		t.Fatal(err)
	}
	if got := general.Messages()[0].Pings; len(got) != 1 || got[0] != w.alice.ID {
		t.Errorf("it calls %v", got)
	}
	if err := w.bot.Post(ctx, general.ID, hello, ""); err == nil {
		t.Error("a message without a name is sent")
	}

	for _, code := range []int{50007, 50278} {
		shy := w.club.Member(fmt.Sprint("shy", code))
		shy.CloseDirect(code)
		if err := w.bot.Direct(ctx, clubKey(w.club.ID), shy.ID, hello, "due-8"); !errors.Is(err, ErrNoDirect) {
			t.Errorf("%d: %v", code, err)
		}
	}
	w.LimitDirect(1, 1<<40)
	if err := w.bot.Direct(ctx, clubKey(w.club.ID), w.club.Member("cay").ID, hello, "due-9"); !errors.Is(err, ErrLater) {
		t.Errorf("too fast: %v", err)
	}
	general.ReadOnly()
	if err := w.bot.Post(ctx, general.ID, hello, "guide-2"); !errors.Is(err, ErrNoAccess) {
		t.Errorf("without access: %v", err)
	}
}

// FuzzCompose sees that whatever is said, and whatever stands behind its
// buttons, becomes a message that the platform takes.
func FuzzCompose(f *testing.F) {
	f.Add("Front rebound 2 stiffer", "Watch for hop.", "A note", "Done", `/log car:"Blue hatch"`, 3)
	f.Add(strings.Repeat("*", 500), strings.Repeat("_", 3000), strings.Repeat("`", 5000), strings.Repeat("é", 90), "/"+strings.Repeat("ü", 99), 40)
	f.Fuzz(func(t *testing.T, title, text, note, label, line string, n int) {
		r := bot.Reply{Title: title, Text: text, View: bot.View{Care: bot.Care{Turns: true, Stiff: n%2 == 0}}}
		for i := range min(max(n, 0), 60) {
			r.Notes = append(r.Notes, note)
			r.Actions = append(r.Actions, bot.Action{Label: label, Ask: line + strings.Repeat("x", i%7)})
		}
		m := compose(r, "1152921504606846976")
		if got := length(m.Content); got == 0 || got > maxContent {
			t.Errorf("%d characters of content", got)
		}
		if !strings.Contains(m.Content, "closed circuit only.") {
			t.Errorf("it lacks the caution:\n%s", m.Content)
		}
		seen := map[string]bool{}
		for _, row := range m.Components {
			if len(row.Components) == 0 || len(row.Components) > rowButtons {
				t.Errorf("a row of %d buttons", len(row.Components))
			}
			for _, b := range row.Components {
				if seen[b.CustomID] || length(b.CustomID) > maxCustomID || length(b.Label) > maxLabel {
					t.Errorf("a button %q with %q", b.Label, b.CustomID)
				}
				seen[b.CustomID] = true
			}
		}
		if len(seen) > maxButtons {
			t.Errorf("%d buttons", len(seen))
		}
	})
}
