package discordtest

import (
	"net/http"
	"strconv"
	"time"
)

// Fault is one way for a request to go wrong. Make one with the functions of
// this file and set it with [Platform.Break].
type Fault struct {
	delay  time.Duration
	hang   bool
	held   <-chan struct{}
	late   bool
	drop   bool
	after  bool
	status int
	html   bool
	retry  time.Duration
	global bool
	bare   bool
}

type pendingFault struct {
	route Route
	fault Fault
}

// Break makes the coming requests of a route (AnyRoute: any) go wrong, one
// fault a request, in order; after that the route is well again.
func (p *Platform) Break(route Route, faults ...Fault) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, fault := range faults {
		p.faults = append(p.faults, pendingFault{route, fault})
	}
}

// BreakBy asks choose for the fault of every request that [Platform.Break] has
// none for; the zero Fault is none. It is called for one request at a time and
// must not call the stand-in.
func (p *Platform) BreakBy(choose func(Route) Fault) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.chance = choose
}

// Times repeats a fault.
func Times(n int, fault Fault) []Fault {
	faults := make([]Fault, n)
	for i := range faults {
		faults[i] = fault
	}
	return faults
}

// Status answers with an error status and a JSON body.
func Status(code int) Fault { return Fault{status: code} }

// HTML answers with an error status and a page, as a proxy in between would.
func HTML(code int) Fault { return Status(code).Page() }

// Slow answers rightly, but late.
func Slow(d time.Duration) Fault { return Fault{delay: d} }

// Hang never answers.
func Hang() Fault { return Fault{hang: true} }

// Held answers rightly, but not before release is closed.
func Held(release <-chan struct{}) Fault { return Fault{held: release} }

// Late takes effect once release is closed, though whoever asked has left by then.
func Late(release <-chan struct{}) Fault { return Fault{held: release, late: true} }

// Drop closes the connection without an answer.
func Drop() Fault { return Fault{drop: true} }

// RateLimited answers 429 for the route, to be tried again after d. The same
// route must then keep still for that long.
func RateLimited(d time.Duration) Fault { return Fault{status: http.StatusTooManyRequests, retry: d} }

// RateLimitedGlobally answers 429 for the whole bot: every route must then keep
// still for d, except answers to interactions.
func RateLimitedGlobally(d time.Duration) Fault {
	return Fault{status: http.StatusTooManyRequests, retry: d, global: true}
}

// Bare takes the headers away from a 429 and leaves only the body.
func (f Fault) Bare() Fault { f.bare = true; return f }

// Page puts a page in the place of the body and leaves the headers.
func (f Fault) Page() Fault { f.html = true; return f }

// Done lets the request take effect before it goes wrong: only the answer is lost.
func (f Fault) Done() Fault { f.after = true; return f }

func (f Fault) answers() bool { return f.status != 0 || f.drop }

func (p *Platform) takeFault(route Route) Fault {
	p.mu.Lock()
	defer p.mu.Unlock()
	for i, pending := range p.faults {
		if pending.route == AnyRoute || pending.route == route {
			p.faults = append(p.faults[:i:i], p.faults[i+1:]...)
			return pending.fault
		}
	}
	if p.chance != nil {
		return p.chance(route)
	}
	return Fault{}
}

// wait holds a request back; it is false when the client or the stand-in left meanwhile.
func (f Fault) wait(p *Platform, r *http.Request) bool {
	var due <-chan time.Time // a nil channel: never
	if !f.hang && f.held == nil {
		if f.delay == 0 {
			return true
		}
		timer := time.NewTimer(f.delay)
		defer timer.Stop()
		due = timer.C
	}
	left := r.Context().Done()
	if f.late {
		left = nil
	}
	select {
	case <-due:
		return true
	case <-f.held:
		return true
	case <-left:
	case <-p.done:
	}
	return false
}

// misbehave gives the faulty answer; p.mu is held.
func (p *Platform) misbehave(c *call, f Fault) answer {
	title := strconv.Itoa(f.status) + ": " + http.StatusText(f.status)
	a := answer{status: f.status, header: http.Header{}, body: map[string]any{"code": 0, "message": title}}
	if f.status == http.StatusTooManyRequests {
		a = p.limits.stop(p, c, f.retry, f.global)
	}
	if f.bare {
		a.header = http.Header{}
	}
	if f.html {
		a.header.Set("Content-Type", "text/html; charset=UTF-8")
		a.raw = []byte("<!DOCTYPE html><html><body><h1>" + title + "</h1></body></html>")
	}
	return a
}
