package discordtest

import (
	"encoding/json"
	"time"
)

// starts is what the platform lets a bot begin: so many sessions until the
// count is reset, and of shards of one bucket one in a span of time.
type starts struct {
	total, left int
	resets      time.Time // when there are as many as ever again
	concurrency int
	span        time.Duration // 0: not held against the rule
	recommended int           // shards
	last        map[int]time.Time
}

// manyStarts are the starts of a bot that has not spent them. The platform's
// span is five seconds; tests that wait for it ask for it, with
// [Gateway.SpaceStarts].
var manyStarts = starts{total: 1000, left: 1000, concurrency: 1, recommended: 1}

// LeaveStarts sets how many sessions may yet be begun, and in how long there
// are as many as ever again.
func (g *Gateway) LeaveStarts(n int, reset time.Duration) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.starts.left, g.starts.resets = n, g.p.now().Add(reset)
}

// SpaceStarts holds clients to the rule that shards of one bucket (their number
// modulo concurrency) identify at least a span apart.
func (g *Gateway) SpaceStarts(concurrency int, span time.Duration) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.starts.concurrency, g.starts.span = concurrency, span
}

// RecommendShards sets how many shards the platform recommends.
func (g *Gateway) RecommendShards(n int) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.starts.recommended = n
}

// renew gives all starts back when their time has come, which is once a day.
func (s *starts) renew(now time.Time) {
	if !now.Before(s.resets) {
		s.left, s.resets = s.total, now.Add(24*time.Hour)
	}
}

// start takes one of the starts that are left, or tells that it may not be;
// p.mu is held.
func (g *Gateway) start(c *connection, shard int) bool {
	s := &g.starts
	s.renew(g.p.now())
	if s.left == 0 {
		g.p.violate(StartsSpent, "shard %d identifies", shard)
		c.close(CloseTokenWrong) // the platform takes the token away
		return false
	}
	s.left--
	bucket, now := shard%s.concurrency, g.p.now()
	if s.last == nil {
		s.last = map[int]time.Time{}
	}
	since := now.Sub(s.last[bucket])
	s.last[bucket] = now
	if since < s.span {
		g.p.violate(StartsCrowded, "shard %d identifies %v after another of bucket %d", shard, since, bucket)
		c.out.push(frame(opInvalidSession, false))
		return false
	}
	return true
}

// gatewayJSON is what a bot is told before it joins; p.mu is held.
func (p *Platform) gatewayJSON() map[string]any {
	s := &p.Gateway.starts
	s.renew(p.now())
	return map[string]any{
		"url": "ws" + p.server.URL[len("http"):] + "/gateway", "shards": s.recommended,
		"session_start_limit": map[string]any{
			"total": s.total, "remaining": s.left, "reset_after": s.resets.Sub(p.now()).Milliseconds(), "max_concurrency": s.concurrency,
		},
	}
}

// Send sends an event with any payload, JSON as it is, to every client that is
// there, as no platform should.
func (g *Gateway) Send(event, payload string) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	for _, s := range g.sessions {
		s.send(event, json.RawMessage(payload))
	}
}

// SendRaw sends a text that need not be a message at all to every client.
func (g *Gateway) SendRaw(text string) {
	g.each(func(c *connection) { c.out.push([]byte(text)) })
}
