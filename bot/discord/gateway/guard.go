package gateway

import (
	"fmt"
	"runtime/debug"

	"github.com/bwmarrin/discordgo"
)

// guarded is a handler of the library's that cannot break anything but itself:
// what panics in it is counted and logged, and the next event is handled.
func guarded[E any](g *Gateway, event string, handle func(E)) func(*discordgo.Session, E) {
	return func(_ *discordgo.Session, e E) {
		g.Guard(event, func() { handle(e) })
	}
}

// Guard runs what an event brings about, and recovers.
func (g *Gateway) Guard(event string, work func()) {
	defer func() {
		if p := recover(); p != nil {
			g.Broken(event)
			g.Log.Error("handling an event broke", "event", event, "err", fmt.Sprint(p), "stack", string(debug.Stack()))
		}
	}()
	work()
}
