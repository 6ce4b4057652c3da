package discord

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"detent/bot/discord/discordtest"
)

// TestDeafConnection stops acknowledging heartbeats: by the time that the next
// beat is due the bot is not ready any more, leaves, and takes its session up
// again. The stand-in fails the test when it beats twice unheard.
func TestDeafConnection(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t, discordtest.WithHeartbeat(3*time.Second)).register()
	w.Gateway.WithholdAcks(true)
	w.join()
	until(t, "the bot to be ready", func() bool { return w.health("/readyz", nil) == http.StatusOK })
	until(t, "the bot not to be ready", func() bool { return w.health("/readyz", nil) == http.StatusServiceUnavailable })
	w.Gateway.WithholdAcks(false)
	w.Gateway.AwaitReady(2)
	w.alice.Type("/help")
	until(t, "the bot to be ready again", func() bool { return w.health("/readyz", nil) == http.StatusOK })
	if got := len(w.Gateway.Identifies()); got != 1 || w.Gateway.Resumed() == 0 {
		t.Errorf("it identified %d times and took its session up again %d times", got, w.Gateway.Resumed())
	}
}

// TestBeatOutOfTurn answers the platform's wish for a beat, which is none of
// those that the next one waits for.
func TestBeatOutOfTurn(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	w.Gateway.WithholdAcks(true) // of the first beat perhaps, of the one asked for in any case
	w.Tolerate(discordtest.DeafClient)
	w.Gateway.SendRaw(`{"op":1,"d":null,"s":null,"t":null}`)
	w.alice.Type("/help")
	if got := w.health("/readyz", nil); got != http.StatusOK {
		t.Errorf("asked for a beat, /readyz says %d", got)
	}
}

// TestStrangeEvents sends what no platform should, and sees the bot go on
// without a new connection.
func TestStrangeEvents(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	events := []string{"GUILD_CREATE", "GUILD_DELETE", "GUILD_UPDATE", "INTERACTION_CREATE", "VOICE_STATE_UPDATE",
		"VOICE_SERVER_UPDATE", "CHANNEL_CREATE", "THREAD_LIST_SYNC", "RESUMED", "NOBODY_KNOWS"}
	for _, event := range events {
		for _, payload := range []string{`null`, `[]`, `"text"`, `7`, `{}`, `{"id":7}`,
			`{"id":"1","channels":[null],"members":[null],"voice_states":[null],"guilds":[null]}`} {
			w.Gateway.Send(event, payload)
		}
	}
	w.Expect(discordtest.AnswerLate) // what follows is answered, and no interaction of the stand-in's
	w.Gateway.Send("INTERACTION_CREATE", `{"id":"1","token":"t","type":2,"user":{"id":"5"},"data":{"name":"help","options":[null]}}`)
	w.AwaitViolation(discordtest.AnswerLate)
	for _, text := range []string{`null`, `[]`, `{`, `{"op":99}`, `{"op":0}`, `{"op":11}`} {
		w.Gateway.SendRaw(text)
	}
	if got := w.alice.Type("/help").Content(); got != "**You said /help**" {
		t.Errorf("afterwards it answers %q", got)
	}
	figures := w.figures()
	for _, event := range []string{"GUILD_CREATE", "GUILD_DELETE", "INTERACTION_CREATE", "unreadable"} {
		if !strings.Contains(figures, `detent_gateway_faults_total{event="`+event+`"}`) {
			t.Errorf("what was wrong with %s is not counted", event)
		}
	}
	if got := len(w.Gateway.Identifies()); got != 1 || w.Gateway.Resumed() != 0 {
		t.Errorf("it joined %d times and took its session up again %d times", got, w.Gateway.Resumed())
	}
}

// TestHandlersThatBreak has the record break while a workspace is noted.
func TestHandlersThatBreak(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register()
	w.bot.clubs = brittle{w.roster}
	w.join()
	w.alice.Type("/help")
	until(t, "the fault to be counted", func() bool {
		return strings.Contains(w.figures(), `detent_gateway_faults_total{event="membership"} 1`)
	})
	w.bot.gateway.Guard("x", func() { panic("a bug") })
	if !strings.Contains(w.figures(), `detent_gateway_faults_total{event="x"} 1`) {
		t.Error("a handler that breaks is not counted")
	}
}

// brittle is a roster that breaks when it is told of a workspace.
type brittle struct{ *roster }

func (brittle) Back(context.Context, string) error { panic("a bug") }
