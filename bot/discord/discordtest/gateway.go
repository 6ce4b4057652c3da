package discordtest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// The operations of the gateway.
const (
	opDispatch       = 0
	opHeartbeat      = 1
	opIdentify       = 2
	opResume         = 6
	opReconnect      = 7
	opInvalidSession = 9
	opHello          = 10
	opAck            = 11
)

// The codes that the gateway closes with, as its documentation numbers them.
const (
	CloseUnknownError      = 4000
	CloseDecodeError       = 4002
	CloseNotAuthenticated  = 4003
	CloseTokenWrong        = 4004
	CloseAlready           = 4005
	CloseRateLimited       = 4008
	CloseTimedOut          = 4009
	CloseInvalidShard      = 4010
	CloseShardingRequired  = 4011
	CloseInvalidVersion    = 4012
	CloseInvalidIntents    = 4013
	CloseDisallowedIntents = 4014
)

const (
	intentGuilds      = 1 << 0
	intentsPrivileged = 1<<1 | 1<<8 | 1<<15 // members, presences, message content
	intentsKnown      = 1<<26 - 1
)

// Gateway is the platform's websocket side. Its state is guarded by the
// platform's lock.
type Gateway struct {
	p        *Platform
	interval time.Duration // that clients are asked to beat at
	slack    time.Duration // that a beat may be late
	running  sync.WaitGroup

	connections map[*connection]bool
	sessions    map[string]*session // live, or waiting to be resumed
	identifies  []Identify
	ready       int
	resumed     int

	withholdAcks  bool
	withholdReady bool
	beforeReady   []int
	refusals      []int
	starts        starts
}

// Identify is what a client said about itself.
type Identify struct {
	Token    string  `json:"token"`
	Intents  int     `json:"intents"`
	Compress bool    `json:"compress"`
	Shard    *[2]int `json:"shard"`
}

func newGateway(p *Platform) *Gateway {
	return &Gateway{p: p, interval: 41250 * time.Millisecond, slack: 10 * time.Second, starts: manyStarts, connections: map[*connection]bool{}, sessions: map[string]*session{}}
}

// Identifies lists the sessions that were begun, in order.
func (g *Gateway) Identifies() []Identify {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	return slices.Clone(g.identifies)
}

// Resumed counts the sessions that were taken up again.
func (g *Gateway) Resumed() int {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	return g.resumed
}

// AwaitReady waits until clients were told n times since the start that they
// are connected, by READY or RESUMED.
func (g *Gateway) AwaitReady(n int) {
	g.p.tb.Helper()
	g.p.await(fmt.Sprintf("client %d at the gateway", n), func() bool { return g.ready+g.resumed >= n })
}

// AwaitIdentifies waits until clients identified n times since the start.
func (g *Gateway) AwaitIdentifies(n int) {
	g.p.tb.Helper()
	g.p.await(fmt.Sprintf("identification %d", n), func() bool { return len(g.identifies) >= n })
}

// AwaitConnections waits until exactly n clients are connected.
func (g *Gateway) AwaitConnections(n int) {
	g.p.tb.Helper()
	g.p.await(fmt.Sprintf("%d connections", n), func() bool { return len(g.connections) == n })
}

// Drop cuts every connection without a word; sessions can be resumed.
func (g *Gateway) Drop() { g.each(func(c *connection) { c.conn.Close() }) }

// Reconnect asks every client to connect anew (op 7).
func (g *Gateway) Reconnect() { g.each(func(c *connection) { c.out.push(frame(opReconnect, nil)) }) }

// Invalidate tells every client that its session is over (op 9), or that it may
// be resumed.
func (g *Gateway) Invalidate(resumable bool) {
	g.each(func(c *connection) {
		if !resumable {
			c.end()
		}
		c.out.push(frame(opInvalidSession, resumable))
	})
}

// Close closes every connection with a code; the sessions are over, except
// after CloseUnknownError.
func (g *Gateway) Close(code int) {
	g.each(func(c *connection) {
		if code != CloseUnknownError {
			c.end()
		}
		c.close(code)
	})
}

// Refuse closes the next connections with these codes when they identify.
func (g *Gateway) Refuse(codes ...int) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.refusals = append(g.refusals, codes...)
}

// WithholdAcks leaves heartbeats unanswered, or answers them again.
func (g *Gateway) WithholdAcks(on bool) { g.p.set(&g.withholdAcks, on) }

// WithholdReady leaves clients that identify without READY, or lets them in again.
func (g *Gateway) WithholdReady(on bool) { g.p.set(&g.withholdReady, on) }

// BeforeReady sends operations (7, 11) ahead of the next READY.
func (g *Gateway) BeforeReady(ops ...int) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	g.beforeReady = append(g.beforeReady, ops...)
}

func (p *Platform) set(flag *bool, on bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	*flag = on
}

func (g *Gateway) each(do func(*connection)) {
	g.p.mu.Lock()
	defer g.p.mu.Unlock()
	for c := range g.connections {
		do(c)
	}
}

// dispatch sends an event to the sessions of the shard that a guild belongs to;
// without a guild that is shard 0. It tells whether there was one. p.mu is held.
func (g *Gateway) dispatch(guild, event string, payload any) bool {
	reached := false
	for _, s := range g.sessions {
		if s.covers(guild) && (event == "INTERACTION_CREATE" || s.intents&intentGuilds != 0) {
			s.send(event, payload)
			reached = true
		}
	}
	return reached
}

// ServeHTTP takes a client in.
func (g *Gateway) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	upgrader := websocket.Upgrader{}
	conn, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return // the upgrader has answered
	}
	c := &connection{g: g, conn: conn, out: newOutbox(), written: make(chan struct{})}
	g.p.mu.Lock()
	if g.p.closed {
		g.p.mu.Unlock()
		conn.Close()
		return
	}
	g.connections[c] = true
	c.out.push(frame(opHello, map[string]any{"heartbeat_interval": g.interval.Milliseconds()}))
	if v := r.URL.Query().Get("v"); v != "9" && v != "10" {
		c.close(CloseInvalidVersion)
	}
	g.running.Go(c.write)
	g.running.Go(c.read)
	g.p.changed.Broadcast()
	g.p.mu.Unlock()
}

func (g *Gateway) closeAll() {
	g.each(func(c *connection) { c.conn.Close() })
	g.running.Wait()
}

// frame is one message of the gateway that is not an event.
func frame(op int, data any) []byte {
	text, _ := json.Marshal(map[string]any{"op": op, "d": data, "s": nil, "t": nil}) // plain values: cannot fail
	return text
}

func shardOf(guild string, count int) int {
	id, _ := strconv.ParseUint(guild, 10, 64) // no guild: shard 0
	return int(id >> 22 % uint64(count))
}
