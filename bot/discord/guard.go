package discord

import (
	"fmt"
	"runtime/debug"

	"github.com/bwmarrin/discordgo"
)

// guarded is a handler of the library's that cannot break anything but itself:
// what panics in it is counted and logged, and the next event is handled.
func guarded[E any](b *Bot, event string, handle func(E)) func(*discordgo.Session, E) {
	return func(_ *discordgo.Session, e E) {
		b.guard(event, func() { handle(e) })
	}
}

// guard runs what an event brings about, and recovers.
func (b *Bot) guard(event string, work func()) {
	defer func() {
		if p := recover(); p != nil {
			b.metrics.broken(event)
			b.log.Error("handling an event broke", "event", event, "err", fmt.Sprint(p), "stack", string(debug.Stack()))
		}
	}()
	work()
}
