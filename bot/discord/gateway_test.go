package discord

import (
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"slices"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord/discordtest"
	"detent/bot/discord/gateway"
)

// health asks how the bot is.
func (w *adapterClub) health(path string, ready error) int {
	answer := httptest.NewRecorder()
	w.bot.Health(true, func(context.Context) error { return ready }).ServeHTTP(answer, httptest.NewRequest(http.MethodGet, path, nil))
	return answer.Code
}

// TestJoiningThatHangs sees an attempt to join that never ends given up for
// another: when READY does not come, and when op 7 or op 11 comes before it,
// which locks the library up.
func TestJoiningThatHangs(t *testing.T) {
	t.Parallel()
	for name, hang := range map[string]func(*discordtest.Gateway){
		"READY never":     func(g *discordtest.Gateway) { g.WithholdReady(true) },
		"op 7 before it":  func(g *discordtest.Gateway) { g.WithholdReady(true); g.BeforeReady(7) },
		"op 11 before it": func(g *discordtest.Gateway) { g.WithholdReady(true); g.BeforeReady(11) },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newAdapterClub(t).register()
			w.bot.gateway.Pace.Open = 2 * time.Second
			hang(w.Gateway)
			w.start()
			until(t, "the hanging attempt to be given up", w.bot.gateway.Stuck)
			if got := w.health("/healthz", nil); got != http.StatusServiceUnavailable {
				t.Errorf("while it hangs, /healthz says %d", got)
			}
			w.Gateway.WithholdReady(false)
			until(t, "the bot to be well again", func() bool { return w.health("/healthz", nil) == http.StatusOK })
			w.alice.Type("/help")
		})
	}
}

// TestFatalCodes sees that the program ends, and says why, where joining again
// can never help.
func TestFatalCodes(t *testing.T) {
	t.Parallel()
	for _, code := range []int{4004, 4010, 4011, 4012, 4013, 4014} {
		w := newAdapterClub(t)
		w.Gateway.Refuse(code)
		err := w.bot.Run(t.Context())
		f, ok := errors.AsType[*Fatal](err)
		if !ok || f.Code != code || f.Say == "" {
			t.Errorf("after %d: %v", code, err)
		}
	}
}

func TestWrongToken(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	w.Expect(discordtest.TokenWrong)
	w.bot.gateway.Token = "nobody"
	w.bot.api.Token = "nobody"
	for what, try := range map[string]func(context.Context) error{"registering": w.bot.Register, "joining": w.bot.Run} {
		if f, ok := errors.AsType[*Fatal](try(t.Context())); !ok || f.Say != gateway.UnknownToken {
			t.Errorf("%s with a wrong token: %v", what, f)
		}
	}
}

// TestComingBack loses the connection in every way and sees the bot answer
// afterwards, taking its session up again where that can be.
func TestComingBack(t *testing.T) {
	t.Parallel()
	for name, test := range map[string]struct {
		lose    func(*discordtest.Platform)
		resumed int
	}{
		"dropped":       {func(p *discordtest.Platform) { p.Gateway.Drop() }, 1},
		"op 7":          {func(p *discordtest.Platform) { p.Gateway.Reconnect() }, 1},
		"op 9":          {func(p *discordtest.Platform) { p.Gateway.Invalidate(false) }, 0},
		"unknown error": {func(p *discordtest.Platform) { p.Gateway.Close(discordtest.CloseUnknownError) }, 1},
		"timed out":     {func(p *discordtest.Platform) { p.Gateway.Close(discordtest.CloseTimedOut) }, 0},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newAdapterClub(t).register().join()
			test.lose(w.Platform)
			w.Gateway.AwaitReady(2)
			until(t, "the bot to be at the gateway", w.bot.gateway.Joined)
			if got := w.Gateway.Resumed(); got != test.resumed {
				t.Errorf("taken up again %d times, want %d", got, test.resumed)
			}
			w.alice.Type("/help")
		})
	}
}

func TestReadiness(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	if got := w.health("/readyz", nil); got != http.StatusServiceUnavailable {
		t.Errorf("before joining: %d", got)
	}
	w.join()
	until(t, "the bot to be ready", func() bool { return w.health("/readyz", nil) == http.StatusOK })
	if got := w.health("/readyz", errors.New("no database")); got != http.StatusServiceUnavailable {
		t.Errorf("without a database: %d", got)
	}
}

func TestShardsAndIntents(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	w.bot.gateway.Shard, w.bot.gateway.Shards = 1, 2
	w.join()
	who := w.Gateway.Identifies()[0]
	if who.Shard == nil || *who.Shard != [2]int{1, 2} || who.Intents != 1 {
		t.Errorf("identified as %+v", who)
	}
}

// TestRemovals sees clubs marked that removed the bot and cleared that took it
// back, and an outage taken for neither.
func TestRemovals(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).join()
	key := clubKey(w.club.ID)
	expect := func(want string) {
		t.Helper()
		select {
		case got := <-w.told:
			if got != want+" "+key {
				t.Errorf("told %s, want %s", got, want)
			}
		case <-time.After(2 * busy):
			t.Fatalf("nobody was told that it %s", want)
		}
	}
	expect("back") // told at every start of a workspace that it is in
	w.club.Outage()
	w.club.Return()
	expect("back")
	w.club.Remove()
	expect("left")
	w.Gateway.Invalidate(false)
	expect("left") // and again of one that it is no longer in
	w.club.Return()
	expect("back")
}

// TestRollCall finds the clubs that removed the bot while nobody was told.
func TestRollCall(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	gone := w.Guild("Gone")
	gone.Remove()
	w.known = []string{clubKey(gone.ID), clubKey(w.club.ID)}
	if err := w.bot.RollCall(t.Context()); err != nil {
		t.Fatal(err)
	}
	if first, then := <-w.told, <-w.told; first != "left "+clubKey(gone.ID) || then != "back "+clubKey(w.club.ID) {
		t.Errorf("noted: %s, %s", first, then)
	}
	w.Break(discordtest.GetMyGuilds, discordtest.Status(403))
	if err := w.bot.RollCall(t.Context()); err == nil || len(w.told) > 0 {
		t.Errorf("without an answer: %v, and %d notes", err, len(w.told))
	}
}

// TestGracefulStop sees that what is in flight is answered before the program
// ends, and that nothing new is begun.
func TestGracefulStop(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		hold := make(chan struct{})
		w.bot.pace.deferral = time.Millisecond
		w.answer = func(context.Context, bot.Ask) bot.Reply {
			<-hold
			return bot.Reply{Title: "Finished"}
		}
		before := w.alice.Begin("/baseline")
		before.WaitFirst()
		stopped := make(chan error, 1)
		go func() { stopped <- w.bot.Stop(context.Background()) }()
		until(t, "the bot to close", func() bool {
			w.bot.work.mu.Lock()
			defer w.bot.work.mu.Unlock()
			return w.bot.work.closed
		})
		if got := w.alice.Type("/help").Content(); got == "" || len(w.asks()) != 1 {
			t.Errorf("while stopping it says %q", got)
		}
		close(hold)
		if got := before.Wait().Content(); got != "**Finished**" {
			t.Errorf("what was in flight ends with %q", got)
		}
		if err := <-stopped; err != nil {
			t.Error(err)
		}
	})
}

func TestStopDoesNotWaitForEver(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().post()
	hold := make(chan struct{})
	defer close(hold)
	w.bot.pace.deferral = time.Millisecond
	w.answer = func(context.Context, bot.Ask) bot.Reply { <-hold; return bot.Reply{} }
	w.alice.Begin("/baseline").WaitFirst()
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Millisecond)
	defer cancel()
	if err := w.bot.Stop(ctx); !slices.Contains([]error{context.DeadlineExceeded}, err) {
		t.Errorf("stopping: %v", err)
	}
}
