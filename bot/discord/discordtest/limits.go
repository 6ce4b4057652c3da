package discordtest

import (
	"net/http"
	"strconv"
	"time"
)

// requestsASecond is what one bot may ask in all, answers to interactions apart.
const requestsASecond = 50

// grace is how long after a 429 a request may still have been on its way when
// the 429 was sent.
const grace = 250 * time.Millisecond

// limits keeps the rate limits: the second that is running, and the routes that
// were told to keep still.
type limits struct {
	second  time.Time
	count   int
	pauses  map[string]pause // by method and path
	general pause
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
	if now.Sub(l.second) >= time.Second {
		l.second, l.count = now, 0
	}
	if l.count++; l.count > requestsASecond {
		p.violate(RateGlobal, "%s is number %d in one second", c.route, l.count)
		return l.stop(p, c, l.second.Add(time.Second).Sub(now), true), true
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
