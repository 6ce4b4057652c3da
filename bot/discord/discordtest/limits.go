package discordtest

import (
	"net/http"
	"slices"
	"strconv"
	"time"
)

// requestsASecond is what one bot may ask in any second, answers to
// interactions apart.
const requestsASecond = 50

// A channel takes five messages in any five seconds (from memory).
const (
	channelMessages = 5
	channelSpan     = 5 * time.Second
)

// grace is how long after a 429 a request may still have been on its way when
// the 429 was sent.
const grace = 250 * time.Millisecond

// limits keeps the rate limits: what came lately, and the routes that were told
// to keep still.
type limits struct {
	requests sliding
	channels map[string]*sliding // of messages, by path
	pauses   map[string]pause    // by method and path
	general  pause
}

// sliding remembers what came within a span of time before now.
type sliding struct{ at []time.Time }

// add notes one more and returns how many there are within the span, and how
// long until the oldest of them leaves it.
func (s *sliding) add(now time.Time, span time.Duration) (count int, leaves time.Duration) {
	s.at = append(slices.DeleteFunc(s.at, func(t time.Time) bool { return now.Sub(t) >= span }), now)
	return len(s.at), s.at[0].Add(span).Sub(now)
}

type pause struct{ from, until time.Time }

func (p pause) holds(now time.Time) bool { return now.Before(p.until) }

// plentiful are the headers of a request that met no limit.
var plentiful = http.Header{
	"X-Ratelimit-Limit":       {"1000"},
	"X-Ratelimit-Remaining":   {"999"},
	"X-Ratelimit-Reset-After": {"1"},
	"X-Ratelimit-Bucket":      {"stand-in"},
}

// limit refuses a request that comes while its route, or the bot, must keep
// still, or that is one too many in its second; p.mu is held.
func (p *Platform) limit(c *call) (answer, bool) {
	now, l := p.now(), &p.limits
	held := l.pauses[c.place()]
	global := l.general.holds(now) && !byToken[c.route]
	if global {
		held = l.general
	}
	if held.holds(now) {
		if now.Sub(held.from) > grace {
			p.violate(RateIgnored, "%s came %v before it might", c.route, held.until.Sub(now))
		}
		return tooMany(held.until.Sub(now), global), true
	}
	if byToken[c.route] {
		return answer{}, false
	}
	if n, leaves := l.requests.add(now, time.Second); n > requestsASecond {
		p.violate(RateGlobal, "%s is number %d in one second", c.route, n)
		return l.stop(p, c, leaves, true), true
	}
	return p.limitChannel(c)
}

// limitChannel counts the messages of a channel, tells the bot in headers how
// many it has left, and refuses one too many; p.mu is held.
func (p *Platform) limitChannel(c *call) (answer, bool) {
	if c.route != PostMessage {
		return answer{}, false
	}
	l := &p.limits
	if l.channels == nil {
		l.channels = map[string]*sliding{}
	}
	if l.channels[c.URL.Path] == nil {
		l.channels[c.URL.Path] = &sliding{}
	}
	n, leaves := l.channels[c.URL.Path].add(p.now(), channelSpan)
	if n > channelMessages {
		p.violate(RateChannel, "%s is number %d in %v", c.URL.Path, n, channelSpan)
		return l.stop(p, c, leaves, false), true
	}
	c.left = http.Header{
		"X-Ratelimit-Limit":       {strconv.Itoa(channelMessages)},
		"X-Ratelimit-Remaining":   {strconv.Itoa(channelMessages - n)},
		"X-Ratelimit-Reset-After": {strconv.FormatFloat(leaves.Seconds(), 'f', 3, 64)},
	}
	return answer{}, false
}

// stop makes a route, or all, keep still for a while.
func (l *limits) stop(p *Platform, c *call, d time.Duration, global bool) answer {
	held := pause{from: p.now(), until: p.now().Add(d)}
	if global {
		l.general = held
	} else {
		if l.pauses == nil {
			l.pauses = map[string]pause{}
		}
		l.pauses[c.place()] = held
	}
	return tooMany(d, global)
}

// place is what one limit counts: a method and a path.
func (c *call) place() string { return c.Method + " " + c.URL.Path }

func tooMany(d time.Duration, global bool) answer {
	seconds := strconv.FormatFloat(d.Seconds(), 'f', 3, 64)
	header := http.Header{
		"X-Ratelimit-Limit":       {"5"},
		"X-Ratelimit-Remaining":   {"0"},
		"X-Ratelimit-Reset-After": {seconds},
		"X-Ratelimit-Bucket":      {"stand-in"},
		"X-Ratelimit-Scope":       {"user"},
		"Retry-After":             {strconv.Itoa(int(d/time.Second) + 1)},
	}
	if global {
		header["X-Ratelimit-Global"] = []string{"true"}
		header["X-Ratelimit-Scope"] = []string{"global"}
	}
	return answer{status: http.StatusTooManyRequests, header: header, body: map[string]any{
		"message": "You are being rate limited.", "retry_after": d.Seconds(), "global": global,
	}}
}
