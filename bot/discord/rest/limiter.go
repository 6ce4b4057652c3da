package rest

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"
)

// limiter keeps the platform's limits for everything that is sent, the
// library's requests too: 50 requests in any second, 5 messages in any 5 seconds
// in a channel, silence on every route after a global 429 and on one route after
// its own. Answers to interactions are outside the two global limits.
type limiter struct {
	next     http.RoundTripper
	requests *window
	mu       sync.Mutex
	channels map[string]*window   // of messages, by path
	all      time.Time            // no request before this
	route    map[string]time.Time // nor, of a method and path, before this
}

// The platform's limits, with a little time for its clock to differ from ours.
const (
	requestsASecond = 50
	second          = time.Second + 20*time.Millisecond
	channelMessages = 5
	channelSpan     = 5*time.Second + 50*time.Millisecond
)

func newLimiter(next http.RoundTripper) *limiter {
	return &limiter{
		next: next, requests: newWindow(requestsASecond, second),
		channels: map[string]*window{}, route: map[string]time.Time{},
	}
}

// RoundTrip sends a request once it may be sent. It leaves with the request's
// context.
func (l *limiter) RoundTrip(r *http.Request) (*http.Response, error) {
	key, own := r.Method+" "+r.URL.Path, byToken(r.URL.Path)
	passed, err := l.pass(r, key, own)
	if err != nil {
		return nil, err
	}
	defer passed.leave()
	response, err := l.next.RoundTrip(r)
	if err != nil {
		return nil, err
	}
	return response, l.learn(key, response)
}

// pass waits until a request may be sent. While a route keeps still, those who
// wait for it hold no place that others could use.
func (l *limiter) pass(r *http.Request, key string, own bool) (passage, error) {
	for {
		for wait := time.Until(l.free(key, own)); wait > 0; wait = time.Until(l.free(key, own)) {
			if err := Wait(r.Context(), wait); err != nil {
				return nil, err
			}
		}
		way := l.way(r, own)
		if err := way.enter(r.Context()); err != nil {
			return nil, err
		}
		if time.Until(l.free(key, own)) <= 0 {
			return way, nil
		}
		way.giveUp(len(way))
	}
}

// way is the windows that a request must pass, the channel's first: what waits
// for its channel keeps nobody else waiting.
func (l *limiter) way(r *http.Request, own bool) passage {
	switch {
	case own:
		return nil
	case r.Method != http.MethodPost || !strings.Contains(r.URL.Path, "/channels/") || !strings.HasSuffix(r.URL.Path, "/messages"):
		return passage{l.requests.join()}
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	w := l.channels[r.URL.Path]
	if w == nil {
		for path, other := range l.channels {
			if other.users.Load() == 0 {
				delete(l.channels, path)
			}
		}
		w = newWindow(channelMessages, channelSpan)
		l.channels[r.URL.Path] = w
	}
	return passage{w.join(), l.requests.join()}
}

// Wait waits for a time, or until ctx ends, whose error it then returns.
func Wait(ctx context.Context, d time.Duration) error {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// free is when the route is free again.
func (l *limiter) free(key string, own bool) time.Time {
	l.mu.Lock()
	defer l.mu.Unlock()
	until := l.route[key]
	if !own && l.all.After(until) {
		return l.all
	}
	return until
}

// learn takes from an answer until when to keep still: a 429 by its body or
// its headers, whichever it has, and a bucket that was just emptied.
func (l *limiter) learn(key string, response *http.Response) error {
	head := response.Header
	switch {
	case response.StatusCode == http.StatusTooManyRequests:
		body, err := io.ReadAll(io.LimitReader(response.Body, 1<<16))
		response.Body.Close()
		if err != nil {
			return err
		}
		response.Body = io.NopCloser(bytes.NewReader(body))
		var said struct {
			RetryAfter float64 `json:"retry_after"`
			Global     bool    `json:"global"`
		}
		if json.Unmarshal(body, &said) != nil || said.RetryAfter <= 0 {
			said.RetryAfter = max(seconds(head, "X-Ratelimit-Reset-After"), seconds(head, "Retry-After"), 1)
		}
		l.hold(key, said.RetryAfter, said.Global || head.Get("X-Ratelimit-Global") != "" || head.Get("X-Ratelimit-Scope") == "global")
	case head.Get("X-Ratelimit-Remaining") == "0":
		l.hold(key, seconds(head, "X-Ratelimit-Reset-After"), false)
	}
	return nil
}

func seconds(head http.Header, name string) float64 {
	s, err := strconv.ParseFloat(head.Get(name), 64)
	if err != nil {
		return 0
	}
	return s
}

// hold keeps a route still, or all, and forgets the routes that are free again:
// each interaction has routes of its own.
func (l *limiter) hold(key string, seconds float64, all bool) {
	now := time.Now()
	until := now.Add(time.Duration(seconds*float64(time.Second)) + time.Millisecond)
	l.mu.Lock()
	defer l.mu.Unlock()
	if all {
		l.all = until
		return
	}
	for k, t := range l.route {
		if t.Before(now) {
			delete(l.route, k)
		}
	}
	l.route[key] = until
}
