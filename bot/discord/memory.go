package discord

import (
	"sync"
	"time"
)

// memory keeps what the platform answered for a while: so many answers, each
// for so long.
type memory[V any] struct {
	life time.Duration
	most int

	mu   sync.Mutex
	kept map[string]keptValue[V]
}

type keptValue[V any] struct {
	value V
	until time.Time
}

func newMemory[V any](life time.Duration, most int) *memory[V] {
	return &memory[V]{life: life, most: most, kept: map[string]keptValue[V]{}}
}

// recall returns what is kept under a key at now, and whether there is any.
func (m *memory[V]) recall(key string, now time.Time) (V, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	k, ok := m.kept[key]
	return k.value, ok && now.Before(k.until)
}

// keep keeps a value. Where there is no room, what is too old makes some, and
// then any other.
func (m *memory[V]) keep(key string, value V, now time.Time) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if _, there := m.kept[key]; !there && len(m.kept) >= m.most {
		for k, old := range m.kept {
			if !now.Before(old.until) {
				delete(m.kept, k)
			}
		}
		for k := range m.kept {
			if len(m.kept) < m.most {
				break
			}
			delete(m.kept, k)
		}
	}
	m.kept[key] = keptValue[V]{value, now.Add(m.life)}
}
