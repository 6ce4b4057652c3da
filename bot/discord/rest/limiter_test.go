package rest

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"
)

// TestWindowsAreForgotten sees that channels nobody writes in leave nothing.
func TestWindowsAreForgotten(t *testing.T) {
	t.Parallel()
	l := newLimiter(nil)
	for n := range 100 {
		r := httptest.NewRequest(http.MethodPost, fmt.Sprintf("https://discord.com/api/v10/channels/%d/messages", n), nil)
		way := l.way(r, false)
		if len(way) != 2 || len(l.channels) != 1 {
			t.Fatalf("%d windows to pass, %d channels remembered", len(way), len(l.channels))
		}
		way.giveUp(0)
	}
}

// TestRoutesAreForgotten sees that a route which is free again leaves nothing:
// each interaction has routes of its own.
func TestRoutesAreForgotten(t *testing.T) {
	t.Parallel()
	l := newLimiter(nil)
	for n := range 100 {
		l.route[fmt.Sprint("PATCH /webhooks/7/", n)] = time.Now().Add(-time.Millisecond)
	}
	l.hold("GET /users/@me", 3600, false)
	if len(l.route) != 1 || time.Until(l.free("GET /users/@me", false)) < time.Minute {
		t.Errorf("%d routes are remembered", len(l.route))
	}
}

// TestWaitingObeysTheContext waits for a route that is free in an hour.
func TestWaitingObeysTheContext(t *testing.T) {
	t.Parallel()
	server := httptest.NewServer(http.HandlerFunc(func(rw http.ResponseWriter, _ *http.Request) { fmt.Fprint(rw, `{}`) }))
	defer server.Close()
	c := NewClient("token", toward(server))
	l := c.Transport().(*limiter)
	l.hold("GET /api/v10/users/@me", 3600, false)
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	begun := time.Now()
	if err := c.Do(ctx, Call{Method: "GET", Path: "/users/@me"}, nil); err == nil || time.Since(begun) > time.Second {
		t.Errorf("%v after %v", err, time.Since(begun))
	}
	if err := c.Do(t.Context(), Call{Method: "GET", Path: "/applications/@me"}, nil); err != nil {
		t.Errorf("another route waits too: %v", err)
	}
}
