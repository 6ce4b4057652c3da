package discordtest

import (
	"encoding/json"
	"errors"
	"net"
	"time"

	"github.com/gorilla/websocket"
)

// session is what a client may resume: its events are kept while it is away.
type session struct {
	id      string
	shard   [2]int
	intents int
	seq     int
	events  [][]byte    // the last ones, up to seq
	live    *connection // nil while the client is away
}

// kept is how many events wait for a client that is away.
const kept = 1000

func (s *session) covers(guild string) bool { return shardOf(guild, s.shard[1]) == s.shard[0] }

// send numbers an event, keeps it for resuming and sends it to a client that is there.
func (s *session) send(event string, payload any) {
	s.seq++
	text, err := json.Marshal(map[string]any{"op": opDispatch, "d": payload, "s": s.seq, "t": event})
	if err != nil {
		panic(err) // the payloads are made here, of plain values
	}
	s.events = append(s.events, text)
	if len(s.events) > kept {
		s.events = s.events[len(s.events)-kept:]
	}
	if s.live != nil {
		s.live.out.push(text)
	}
}

// connection is one websocket.
type connection struct {
	g       *Gateway
	conn    *websocket.Conn
	out     *outbox
	written chan struct{} // closed when nothing more is written
	session *session
	said    sliding // what the client sent
	unheard bool    // its last beat was not acknowledged
}

// The gateway takes 120 messages in any minute from one connection.
const (
	gatewayMessages = 120
	gatewaySpan     = time.Minute
)

// read takes what the client sends until it leaves.
func (c *connection) read() {
	defer c.leave()
	for {
		c.conn.SetReadDeadline(time.Now().Add(c.g.interval + c.g.slack))
		_, data, err := c.conn.ReadMessage()
		if err != nil {
			c.lost(err)
			return
		}
		var message struct {
			Op   int             `json:"op"`
			Data json.RawMessage `json:"d"`
		}
		c.g.p.mu.Lock()
		switch n, _ := c.said.add(c.g.p.now(), gatewaySpan); {
		case n > gatewayMessages:
			c.g.p.violate(GatewayRate, "message %d in a minute", n)
			c.close(CloseRateLimited)
		case json.Unmarshal(data, &message) != nil:
			c.close(CloseDecodeError)
		default:
			c.handle(message.Op, message.Data)
		}
		c.g.p.changed.Broadcast()
		c.g.p.mu.Unlock()
	}
}

// lost notes how a client left: one that fell silent broke a rule, and one that
// closed with 1000 or 1001 of its own accord ended its session.
func (c *connection) lost(err error) {
	c.g.p.mu.Lock()
	defer c.g.p.mu.Unlock()
	var timeout net.Error
	if errors.As(err, &timeout) && timeout.Timeout() && !c.out.closing() {
		c.g.p.violate(Heartbeat, "the client was silent for %v", c.g.interval+c.g.slack)
		c.close(CloseTimedOut)
	}
	if !c.out.closing() && websocket.IsCloseError(err, websocket.CloseNormalClosure, websocket.CloseGoingAway) {
		c.end()
	}
}

// leave forgets the connection and keeps its session, if it is not over.
func (c *connection) leave() {
	c.g.p.mu.Lock()
	delete(c.g.connections, c)
	if c.session != nil {
		c.session.live = nil
	}
	c.g.p.changed.Broadcast()
	c.g.p.mu.Unlock()
	c.out.finish()
	<-c.written
	c.conn.Close()
}

// end makes the session impossible to resume; p.mu is held.
func (c *connection) end() {
	if c.session != nil {
		delete(c.g.sessions, c.session.id)
		c.session = nil
	}
}

// close sends a close code after what is still to be sent.
func (c *connection) close(code int) { c.out.pushClose(code) }

// handle does what one operation asks; p.mu is held.
func (c *connection) handle(op int, data []byte) {
	switch op {
	case opHeartbeat:
		if c.unheard {
			c.g.p.violate(DeafClient, "the client stays although its last beat was not acknowledged")
		}
		if c.unheard = c.g.withholdAcks; !c.unheard {
			c.out.push(frame(opAck, nil))
		}
	case opIdentify:
		c.identify(data)
	case opResume:
		c.resume(data)
	default:
		if c.session == nil {
			c.g.p.violate(GatewayOrder, "operation %d before identifying", op)
			c.close(CloseNotAuthenticated)
		}
	}
}

func (c *connection) identify(data []byte) {
	g := c.g
	var who Identify
	if json.Unmarshal(data, &who) != nil {
		c.close(CloseDecodeError)
		return
	}
	g.identifies = append(g.identifies, who)
	shard := [2]int{0, 1}
	if who.Shard != nil {
		shard = *who.Shard
	}
	switch {
	case len(g.refusals) > 0:
		c.close(g.refusals[0])
		g.refusals = g.refusals[1:]
		return
	case c.session != nil:
		g.p.violate(GatewayOrder, "a client identified twice")
		c.close(CloseAlready)
		return
	case !g.knows(who.Token):
		c.close(CloseTokenWrong)
		return
	case shard[0] < 0 || shard[0] >= shard[1]:
		c.close(CloseInvalidShard)
		return
	case who.Intents < 0 || who.Intents > intentsKnown:
		c.close(CloseInvalidIntents)
		return
	case who.Intents&intentsPrivileged != 0:
		c.close(CloseDisallowedIntents)
		return
	case !g.start(c, shard[0]):
		return
	}
	c.out.compress(who.Compress)
	for _, op := range g.beforeReady {
		c.out.push(frame(op, nil))
	}
	g.beforeReady = nil
	if !g.withholdReady {
		c.welcome(&session{id: "session-" + g.p.newID(), shard: shard, intents: who.Intents, live: c})
	}
}

// knows tells whether a token is the bot's, and notes when it is not.
func (g *Gateway) knows(token string) bool {
	if token == "Bot "+g.p.token || token == g.p.token {
		return true
	}
	g.p.violate(TokenWrong, "at the gateway")
	return false
}

// welcome begins a session: READY, then the guilds, those that the bot was
// thrown out of as a removal.
func (c *connection) welcome(s *session) {
	g := c.g
	for id, old := range g.sessions {
		if old.live == nil && old.shard == s.shard {
			delete(g.sessions, id)
		}
	}
	g.sessions[s.id], c.session = s, s
	guilds := []any{}
	for _, guild := range g.p.guilds {
		if s.covers(guild.ID) && !guild.gone {
			guilds = append(guilds, map[string]any{"id": guild.ID, "unavailable": true})
		}
	}
	s.send("READY", map[string]any{
		"v": 9, "user": g.p.botUser(), "session_id": s.id, "session_type": "normal", "guilds": guilds, "shard": s.shard,
		"resume_gateway_url": "ws" + g.p.server.URL[len("http"):] + "/gateway", "application": map[string]any{"id": g.p.app, "flags": 0},
	})
	g.ready++
	if s.intents&intentGuilds == 0 {
		return
	}
	for _, guild := range g.p.guilds {
		switch {
		case !s.covers(guild.ID):
		case guild.gone:
			s.send("GUILD_DELETE", map[string]any{"id": guild.ID})
		case guild.outage:
			s.send("GUILD_DELETE", map[string]any{"id": guild.ID, "unavailable": true})
		default:
			s.send("GUILD_CREATE", guild.json())
		}
	}
}

func (c *connection) resume(data []byte) {
	g := c.g
	var wanted struct {
		Token   string `json:"token"`
		Session string `json:"session_id"`
		Seq     int    `json:"seq"`
	}
	if json.Unmarshal(data, &wanted) != nil {
		c.close(CloseDecodeError)
		return
	}
	if !g.knows(wanted.Token) {
		c.close(CloseTokenWrong)
		return
	}
	s := g.sessions[wanted.Session]
	if s == nil || wanted.Seq > s.seq || s.seq-wanted.Seq > len(s.events) {
		c.out.push(frame(opInvalidSession, false))
		return
	}
	s.live, c.session = c, s
	for _, event := range s.events[len(s.events)-(s.seq-wanted.Seq):] {
		c.out.push(event)
	}
	s.send("RESUMED", map[string]any{})
	g.resumed++
}
