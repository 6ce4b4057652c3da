package discordtest

import (
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
)

// TestDeferred follows a private answer through thinking, its edit, a
// follow-up and their deletion, as the library does it.
func TestDeferred(t *testing.T) {
	t.Parallel()
	start := time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	p := New(t, WithClock(func() time.Time { return start }), WithPatience(5*time.Second))
	alice := p.Guild("Apex").Member("alice")
	b := newBot(t, p)
	arrived := make(chan *discordgo.Interaction, 1)
	b.on(discordgo.InteractionApplicationCommand, func(i *discordgo.Interaction) { arrived <- i })
	b.open()
	b.register("", carCommand)

	reply := alice.Begin("/car list")
	i := <-arrived
	p.Advance(1500 * time.Millisecond)
	if err := b.respond(i, discordgo.InteractionResponseDeferredChannelMessageWithSource, &discordgo.InteractionResponseData{Flags: discordgo.MessageFlagsEphemeral}); err != nil {
		t.Fatal(err)
	}
	reply.WaitFirst()
	if !reply.Deferred() || !reply.Private() || !reply.Message().Loading || reply.i.settled() {
		t.Errorf("thinking: %+v", reply.Message())
	}
	p.Advance(tokenLife - 2*time.Second)
	if _, err := b.InteractionResponseEdit(i, &discordgo.WebhookEdit{
		AllowedMentions: nobody,
		Embeds:          &[]*discordgo.MessageEmbed{{Author: &discordgo.MessageEmbedAuthor{Name: "Club"}, Title: "Cars", Fields: []*discordgo.MessageEmbedField{{Name: "Main", Value: "Racer"}}, Footer: &discordgo.MessageEmbedFooter{Text: "1 of 1"}}},
	}); err != nil {
		t.Fatal(err)
	}
	reply.Wait()
	if got, want := reply.Text(), "Club\nCars\nMain\nRacer\n1 of 1"; got != want || !reply.Private() || reply.Message().Loading {
		t.Errorf("then: %q, %+v", got, reply.Message())
	}
	if len(reply.Embeds()) != 1 || len(reply.Components()) != 0 {
		t.Errorf("embeds %v, components %v", reply.Embeds(), reply.Components())
	}
	if got := p.FirstAnswers(); len(got) != 1 || got[0] != 1500*time.Millisecond || reply.FirstAnswerAfter() != got[0] {
		t.Errorf("first answers after %v", got)
	}
	if got, err := b.InteractionResponse(i); err != nil || got.Flags != discordgo.MessageFlagsEphemeral {
		t.Errorf("fetched: %+v, %v", got, err)
	}
	more, err := b.FollowupMessageCreate(i, true, &discordgo.WebhookParams{AllowedMentions: nobody, Content: "More", Flags: discordgo.MessageFlagsEphemeral})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.FollowupMessageEdit(i, more.ID, &discordgo.WebhookEdit{AllowedMentions: nobody, Content: ptr("Most")}); err != nil {
		t.Error(err)
	}
	if got := reply.AwaitFollowUps(1)[0]; got.Content != "Most" || got.Edits != 1 {
		t.Errorf("follow-up: %+v", got)
	}
	for _, forget := range []func() error{
		func() error { return b.FollowupMessageDelete(i, more.ID) },
		func() error { return b.InteractionResponseDelete(i) },
	} {
		if err := forget(); err != nil {
			t.Error(err)
		}
	}
	reply.Until("the deletion", func(m Message) bool { return m.Deleted })
	if _, err := b.InteractionResponse(i); err == nil || !strings.Contains(err.Error(), "10008") {
		t.Errorf("fetching what was deleted: %v", err)
	}
	if got := p.Now(); !got.Equal(start.Add(tokenLife - 500*time.Millisecond)) {
		t.Errorf("the platform's time is %v", got)
	}
}

// TestFollowUpFillsDeferral sees that what is said while the bot is thinking
// takes the place of the thinking, and stays private with it.
func TestFollowUpFillsDeferral(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	reply, a := w.begin()
	w.answer(a, answerDeferred, obj{"flags": flagPrivate})
	w.follow(a, obj{"content": "Here"})
	if got := reply.Wait().Message(); got.Content != "Here" || !got.Private || len(reply.FollowUps()) != 0 {
		t.Errorf("%+v, %v", got, reply.FollowUps())
	}
}

// TestLayout shows components v2 after a deferral, which only a raw request can.
func TestLayout(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	reply, a := w.begin()
	w.answer(a, answerDeferred, nil)
	edit := func(components ...any) (int, int) {
		return w.ask("PATCH", "/webhooks/"+w.app+"/"+a.Token+"/messages/@original", obj{"flags": flagV2, "components": components})
	}
	text := obj{"type": 10, "content": "Four corners"}
	if status, _ := edit(obj{"type": 17, "components": list{text, row(button("go"))}}); status != 200 {
		t.Errorf("status %d", status)
	}
	if got := reply.Wait(); got.Text() != "Four corners" || len(got.Buttons()) != 1 {
		t.Errorf("%+v", got.Message())
	}
	w.Expect(RowContent)
	if status, code := edit(obj{"type": 17, "components": list{row(button("a"), menu(list{obj{"label": "x", "value": "x"}}))}}); status != 400 || code != 50035 {
		t.Errorf("a mixed row: %d %d", status, code)
	}
	w.AwaitViolation(RowContent)
	if got := reply.Message().Edits; got != 1 {
		t.Errorf("a refused edit counts: %d", got)
	}
}

// TestRefusedAnswerIsNone sees that an answer that was refused leaves the
// interaction open for a better one.
func TestRefusedAnswerIsNone(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	w.Expect(MessageEmpty)
	reply, a := w.begin()
	if status, code := w.answer(a, answerMessage, obj{"content": ""}); status != 400 || code != 50006 {
		t.Errorf("%d %d", status, code)
	}
	if status, _ := w.answer(a, answerMessage, obj{"content": "x"}); status != 204 {
		t.Errorf("the better one: %d", status)
	}
	if got := reply.Wait().Content(); got != "x" {
		t.Errorf("content %q", got)
	}
	if got := w.AwaitRequests(PostCallback, 2); got[0].Status != 400 || got[1].Status != 204 || len(got[1].Payload) == 0 {
		t.Errorf("requests %+v", got)
	}
}

// TestAnswersAreDescribed sees the published description refuse what no
// rule here has a name for, in each kind of first answer.
func TestAnswersAreDescribed(t *testing.T) {
	t.Parallel()
	for kind, data := range map[int]obj{
		answerMessage: {"content": "x", "tts": 1, "allowed_mentions": obj{"parse": list{}}},
		answerChoices: {"choices": list{obj{"name": "x"}}},
		answerForm:    {"custom_id": "f", "title": "Form", "components": list{row(with(input("a"), "style", 7))}},
	} {
		var b broken
		c := &callback{kind: kind}
		body := mustJSON(t, obj{"type": kind, "data": data})
		if b = c.read(mustJSON(t, data)); len(b) > 0 {
			t.Errorf("kind %d: %v", kind, b)
		}
		if s := loadSpec(t); s != nil {
			if s.check(&b, callbackSchema[kind], body); len(b) != 1 || b[0].Rule != PayloadSchema {
				t.Errorf("kind %d: %v", kind, b)
			}
		}
	}
}
