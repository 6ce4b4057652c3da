package discord

import (
	"strconv"
	"testing"
	"time"
)

func TestMemory(t *testing.T) {
	t.Parallel()
	now := time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	m := newMemory[int](time.Minute, 3)
	for n := range 3 {
		m.keep(strconv.Itoa(n), n, now.Add(time.Duration(n)*time.Second))
	}
	at := now.Add(time.Minute) // the first is a minute old, the others are not
	if _, ok := m.recall("0", at); ok {
		t.Error("what is a minute old is recalled")
	}
	if got, ok := m.recall("1", at); !ok || got != 1 {
		t.Errorf("recalled %d, %v", got, ok)
	}
	m.keep("3", 3, at)
	if _, ok := m.recall("1", at); !ok || len(m.kept) != 3 {
		t.Errorf("what is too old made no room: %v", m.kept)
	}
	for n := range 100 {
		m.keep("n"+strconv.Itoa(n), n, at)
	}
	if got, ok := m.recall("n99", at); !ok || got != 99 || len(m.kept) != 3 {
		t.Errorf("%d are kept, the last is %d, %v", len(m.kept), got, ok)
	}
	m.keep("n99", 7, at)
	if got, _ := m.recall("n99", at); got != 7 || len(m.kept) != 3 {
		t.Errorf("kept anew it is %d", got)
	}
}
