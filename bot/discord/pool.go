package discord

import (
	"context"
	"sync"
	"time"
)

// pool runs work on goroutines of its own, so many at once and no more, and can
// be emptied.
type pool struct {
	mu      sync.Mutex
	most    int
	running int
	closed  bool
	empty   chan struct{} // closed once the pool is closed and nothing runs
}

func newPool(most int) *pool { return &pool{most: most, empty: make(chan struct{})} }

// run starts work, or tells that there is no room or that the pool is closed.
// The work recovers by itself.
func (p *pool) run(work func()) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.closed || p.running >= p.most {
		return false
	}
	p.running++
	go func() {
		defer p.leave()
		work()
	}()
	return true
}

func (p *pool) leave() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.running--; p.running == 0 && p.closed {
		close(p.empty)
	}
}

// close takes no more work and waits for what runs.
func (p *pool) close(ctx context.Context) error {
	p.mu.Lock()
	if !p.closed {
		p.closed = true
		if p.running == 0 {
			close(p.empty)
		}
	}
	p.mu.Unlock()
	select {
	case <-p.empty:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// sightings remember which interactions came lately, so that one delivered
// twice is answered once. They forget what is older than a token lives.
type sightings struct {
	mu       sync.Mutex
	now, old map[string]struct{}
	turned   time.Time
}

// tokenLife is how long more may be said in an interaction.
const tokenLife = 15 * time.Minute

func newSightings() *sightings {
	return &sightings{now: map[string]struct{}{}, old: map[string]struct{}{}}
}

// first tells whether the id is seen for the first time.
func (s *sightings) first(id string, at time.Time) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if at.Sub(s.turned) > tokenLife {
		s.now, s.old, s.turned = map[string]struct{}{}, s.now, at
	}
	_, now := s.now[id]
	_, old := s.old[id]
	s.now[id] = struct{}{}
	return !now && !old
}
