package discord

import (
	"context"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"detent/bot/discord/discordtest"
)

// journal is a log that a test reads while it is written.
type journal struct {
	mu   sync.Mutex
	text strings.Builder
}

func (j *journal) Write(p []byte) (int, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.Write(p)
}

func (j *journal) has(words string) bool {
	j.mu.Lock()
	defer j.mu.Unlock()
	return strings.Contains(j.text.String(), words)
}

// logged gives the bot a log that can be read.
func (w *adapterClub) logged() *journal {
	j := &journal{}
	w.bot.log = slog.New(slog.NewTextHandler(j, nil))
	w.bot.gateway.Log = w.bot.log
	return j
}

// readiness is what /readyz answers.
func (w *adapterClub) readiness() string {
	answer := httptest.NewRecorder()
	well := func(context.Context) error { return nil }
	w.bot.Health(true, well).ServeHTTP(answer, httptest.NewRequest(http.MethodGet, "/readyz", nil))
	return answer.Body.String()
}

// TestNoStartsLeft waits for the platform to allow starts again, says so, and
// then joins. The stand-in fails the test when it identifies before.
func TestNoStartsLeft(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register()
	log := w.logged()
	w.Gateway.LeaveStarts(0, time.Hour)
	w.start()
	until(t, "/readyz to tell", func() bool { return strings.Contains(w.readiness(), "no start before 20") })
	until(t, "the log to tell", func() bool { return log.has("allows no more starts") })
	if got := len(w.Gateway.Identifies()); got != 0 {
		t.Errorf("it identified %d times", got)
	}
	w.stop() // the hour is not waited for
	<-w.ran

	w.ran <- nil
	w.Gateway.LeaveStarts(0, 2*time.Second)
	w.join()
	if got := w.readiness(); got != "ready\n" {
		t.Errorf("once it has joined, /readyz says %q", got)
	}
	if got := len(w.Requests(discordtest.GetGatewayBot)); got != 3 {
		t.Errorf("it asked %d times for starts", got)
	}
}

// TestResumingSpendsNoStart loses the connection when no start is left.
func TestResumingSpendsNoStart(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register()
	w.Gateway.LeaveStarts(1, time.Hour)
	w.join()
	w.Gateway.Drop()
	w.Gateway.AwaitReady(2)
	w.alice.Type("/help")
}

func TestMoreShardsAreRecommended(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	log := w.logged()
	w.Gateway.RecommendShards(4)
	w.join()
	if !log.has("DETENT_DISCORD_SHARDS") || !log.has("recommended=4") {
		t.Error("the log does not say that more shards are recommended")
	}
}

// TestShardsTakeTurns starts the shards of one bucket at once, as processes that
// know nothing of each other. The stand-in fails the test when two come too
// close.
func TestShardsTakeTurns(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	w.Gateway.SpaceStarts(1, 200*time.Millisecond)
	ctx, stop := context.WithCancel(context.Background())
	var all sync.WaitGroup
	defer all.Wait()
	defer stop()
	for shard := range 3 {
		b := w.adapter()
		b.gateway.Shard, b.gateway.Shards, b.gateway.Pace.Identify = shard, 3, 1800*time.Millisecond
		all.Go(func() {
			if err := b.Run(ctx); err != nil {
				t.Error(err)
			}
		})
	}
	w.Gateway.AwaitReady(3)
}
