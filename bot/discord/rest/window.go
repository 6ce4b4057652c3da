package rest

import (
	"context"
	"sync/atomic"
	"time"
)

// window lets so many requests through in any span of time. A place is free
// again a span after its request was answered, so the limit holds by the
// platform's clock too, however long a request was on its way.
type window struct {
	places chan struct{}
	span   time.Duration
	users  atomic.Int64 // those who wait for a place or have one
}

func newWindow(places int, span time.Duration) *window {
	w := &window{places: make(chan struct{}, places), span: span}
	for range places {
		w.places <- struct{}{}
	}
	return w
}

// join announces somebody who will enter, so that the window is kept.
func (w *window) join() *window {
	w.users.Add(1)
	return w
}

// free gives a place back.
func (w *window) free() {
	w.places <- struct{}{}
	w.users.Add(-1)
}

// passage is the windows that one request passes, all joined.
type passage []*window

// enter takes a place in every window, or in none when ctx ends first.
func (p passage) enter(ctx context.Context) error {
	for n, w := range p {
		select {
		case <-w.places:
		case <-ctx.Done():
			p.giveUp(n)
			return ctx.Err()
		}
	}
	return nil
}

// giveUp gives the first n places back at once and leaves all windows: nothing
// was sent.
func (p passage) giveUp(n int) {
	for _, w := range p[:n] {
		w.free()
	}
	for _, w := range p[n:] {
		w.users.Add(-1)
	}
}

// leave gives the places back once their spans are over.
func (p passage) leave() {
	for _, w := range p {
		time.AfterFunc(w.span, w.free)
	}
}
