package discord

import (
	"context"
	"net/http"
	"time"
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
func (b *Bot) awaitStart(ctx context.Context) error {
	for {
		var told starts
		if err := b.api.do(ctx, call{method: http.MethodGet, path: "/gateway/bot", again: true}, &told); err != nil {
			return err
		}
		if told.Shards > b.config.Shards {
			b.log.Warn("the platform recommends more shards: raise DETENT_DISCORD_SHARDS", "recommended", told.Shards, "configured", b.config.Shards)
		}
		if told.Limit.Remaining > 0 {
			b.link.held.Store(nil)
			return b.awaitTurn(ctx, told.Limit.Concurrency)
		}
		wait := max(time.Duration(told.Limit.ResetAfter+1)*time.Millisecond, time.Second/10)
		until := b.config.Now().Add(wait)
		b.link.held.Store(&until)
		b.log.Warn("the platform allows no more starts for now", "until", until.UTC().Format(time.RFC3339))
		if err := rest(ctx, wait); err != nil {
			return err
		}
	}
}

// awaitTurn waits until this shard may identify.
func (b *Bot) awaitTurn(ctx context.Context, concurrency int) error {
	now := b.config.Now()
	wait := turnIn(now, b.config.Shard, b.config.Shards, max(1, concurrency), b.pace.identify)
	wait = max(wait, b.identified.Add(b.pace.identify).Sub(now))
	if err := rest(ctx, wait); err != nil {
		return err
	}
	b.identified = b.config.Now()
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
