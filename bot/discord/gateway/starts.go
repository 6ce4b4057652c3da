package gateway

import (
	"context"
	"net/http"
	"time"

	"detent/bot/discord/rest"
)

// starts is what the platform says before the bot may begin a session.
type starts struct {
	Shards int `json:"shards"` // as many as it recommends
	Limit  struct {
		Remaining   int   `json:"remaining"`
		ResetAfter  int64 `json:"reset_after"` // milliseconds
		Concurrency int   `json:"max_concurrency"`
	} `json:"session_start_limit"`
}

// awaitStart waits until a session may be begun. A day has a number of starts;
// a bot that spends them all loses its token, so it waits for the next day
// instead, which /readyz and the log tell. Resuming a session spends none.
func (g *Gateway) awaitStart(ctx context.Context) error {
	for {
		var told starts
		if err := g.API.Do(ctx, rest.Call{Method: http.MethodGet, Path: "/gateway/bot", Again: true}, &told); err != nil {
			return err
		}
		if told.Shards > g.Shards {
			g.Log.Warn("the platform recommends more shards: raise DETENT_DISCORD_SHARDS", "recommended", told.Shards, "configured", g.Shards)
		}
		if told.Limit.Remaining > 0 {
			g.held.Store(nil)
			return g.awaitTurn(ctx, told.Limit.Concurrency)
		}
		wait := max(time.Duration(told.Limit.ResetAfter+1)*time.Millisecond, time.Second/10)
		until := g.Now().Add(wait)
		g.held.Store(&until)
		g.Log.Warn("the platform allows no more starts for now", "until", until.UTC().Format(time.RFC3339))
		if err := rest.Wait(ctx, wait); err != nil {
			return err
		}
	}
}

// awaitTurn waits until this shard may identify.
func (g *Gateway) awaitTurn(ctx context.Context, concurrency int) error {
	now := g.Now()
	wait := turnIn(now, g.Shard, g.Shards, max(1, concurrency), g.Pace.Identify)
	wait = max(wait, g.identified.Add(g.Pace.Identify).Sub(now))
	if err := rest.Wait(ctx, wait); err != nil {
		return err
	}
	g.identified = g.Now()
	return nil
}

// turnIn is how long a shard waits for its turn to identify. The platform puts
// shards into buckets by their number modulo the concurrency that it allows,
// and wants those of one bucket at least five seconds apart. Processes know
// nothing of each other, so time itself deals out the turns: it is divided into
// spans, one after the other for each shard of a bucket, and a shard identifies
// when its own begins. A bot whose buckets have one shard each need not wait.
func turnIn(now time.Time, shard, shards, concurrency int, span time.Duration) time.Duration {
	turns := (shards + concurrency - 1) / concurrency
	if turns <= 1 || span <= 0 {
		return 0
	}
	round := span * time.Duration(turns)
	wait := span*time.Duration(shard/concurrency) - time.Duration(now.UnixNano()%int64(round))
	if wait < 0 {
		wait += round
	}
	return wait
}
