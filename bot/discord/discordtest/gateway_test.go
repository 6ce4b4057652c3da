package discordtest

import (
	"fmt"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// expect reads until an operation or event comes and fails on another end.
func (w *httpClub) expect(conn *websocket.Conn, want string) {
	w.t.Helper()
	for {
		op, event := w.hear(conn)
		if event == want {
			return
		}
		if op < 0 {
			w.t.Fatalf("waiting for %s: closed with %d %s", want, -op, event)
		}
	}
}

func TestGatewayCodes(t *testing.T) {
	t.Parallel()
	for name, test := range map[string]struct {
		set  func(*httpClub)
		say  obj
		code int
	}{
		"wrong token":       {func(w *httpClub) { w.Expect(TokenWrong) }, obj{"token": "Bot nobody"}, CloseTokenWrong},
		"shard beyond":      {nil, obj{"shard": list{2, 2}}, CloseInvalidShard},
		"unknown intents":   {nil, obj{"intents": 1 << 30}, CloseInvalidIntents},
		"privileged intent": {nil, obj{"intents": 1 << 15}, CloseDisallowedIntents},
		"sharding required": {func(w *httpClub) { w.Gateway.Refuse(CloseShardingRequired) }, nil, CloseShardingRequired},
		"unknown error":     {func(w *httpClub) { w.Gateway.Refuse(CloseUnknownError) }, nil, CloseUnknownError},
		"not understood":    {nil, obj{"intents": "all"}, CloseDecodeError},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newHTTPClub(t)
			if test.set != nil {
				test.set(w)
			}
			conn := w.dial()
			w.identify(conn, test.say)
			if op, _ := w.hear(conn); op != -test.code {
				t.Errorf("closed with %d, want %d", -op, test.code)
			}
		})
	}
}

func TestGatewayVersion(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	conn, _, err := websocket.DefaultDialer.Dial("ws"+w.URL()[len("http"):]+"/gateway/?v=6", nil)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	w.hear(conn)
	if op, _ := w.hear(conn); op != -CloseInvalidVersion {
		t.Errorf("closed with %d", -op)
	}
}

func TestGatewayMisbehaves(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	w.Gateway.BeforeReady(opReconnect, opAck)
	conn := w.dial()
	w.identify(conn, nil)
	for _, want := range []int{opReconnect, opAck, opDispatch} {
		if op, _ := w.hear(conn); op != want {
			t.Errorf("before READY: %d, want %d", op, want)
		}
	}
	w.expect(conn, "GUILD_CREATE")

	w.tell(conn, opHeartbeat, 1)
	if op, _ := w.hear(conn); op != opAck {
		t.Errorf("a heartbeat is answered with %d", op)
	}
	w.Gateway.WithholdAcks(true)
	w.tell(conn, opHeartbeat, 1)
	w.tell(conn, opResume, obj{"session_id": "none", "token": w.Token()}) // its answer comes first only if the ack is withheld
	if op, _ := w.hear(conn); op != opInvalidSession {
		t.Errorf("without acknowledgement: %d", op)
	}
	w.Gateway.Reconnect()
	if op, _ := w.hear(conn); op != opReconnect {
		t.Errorf("asked to reconnect with %d", op)
	}
	w.Gateway.Invalidate(true)
	if op, _ := w.hear(conn); op != opInvalidSession {
		t.Errorf("invalidated with %d", op)
	}
	w.Gateway.Close(CloseUnknownError)
	if op, _ := w.hear(conn); op != -CloseUnknownError {
		t.Errorf("closed with %d", -op)
	}
}

func TestGatewayWithholdsReady(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	w.Gateway.WithholdReady(true)
	conn := w.dial()
	w.identify(conn, nil)
	w.Gateway.AwaitIdentifies(1)
	w.tell(conn, opHeartbeat, 1)
	if op, _ := w.hear(conn); op != opAck {
		t.Errorf("instead of READY: %d", op)
	}
}

func TestGuildEvents(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	conn := w.dial()
	w.identify(conn, nil)
	w.expect(conn, "GUILD_CREATE")
	hearDelete := func() (unavailable bool) {
		var message struct {
			T string
			D struct{ Unavailable bool }
		}
		if err := conn.ReadJSON(&message); err != nil || message.T != "GUILD_DELETE" {
			t.Errorf("%v %v", message, err)
		}
		return message.D.Unavailable
	}
	guild := w.alice.Guild
	guild.Outage()
	if !hearDelete() {
		t.Error("an outage looks like a removal")
	}
	guild.Return()
	w.expect(conn, "GUILD_CREATE")
	guild.Remove()
	if hearDelete() {
		t.Error("a removal looks like an outage")
	}
	again := w.dial()
	w.identify(again, nil)
	w.expect(again, "GUILD_DELETE")
}

// TestShards sees that a guild's events reach only the shard that it belongs to.
func TestShards(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	home := map[int]*Guild{}
	for n := 0; len(home) < 2; n++ {
		guild := w.Guild(fmt.Sprint("Club ", n))
		home[shardOf(guild.ID, 2)] = guild
	}
	conns := map[int]*websocket.Conn{}
	for shard := range 2 {
		conns[shard] = w.dial()
		w.identify(conns[shard], obj{"shard": list{shard, 2}})
		w.expect(conns[shard], "GUILD_CREATE")
	}
	for shard, guild := range home {
		guild.Remove()
		w.Gateway.Reconnect() // the last thing that the other hears, since the removal is not for it
		w.expect(conns[shard], "GUILD_DELETE")
		for op, event := w.hear(conns[1-shard]); op != opReconnect; op, event = w.hear(conns[1-shard]) {
			if event != "GUILD_CREATE" {
				t.Fatalf("shard %d hears %d %s", 1-shard, op, event)
			}
		}
		if op, _ := w.hear(conns[shard]); op != opReconnect {
			t.Errorf("shard %d hears %d", shard, op)
		}
	}
}

// TestLibraryReturns sees the client library come back after each way of
// losing it, by resuming where it may and anew where it may not, and then still
// get what people do.
func TestLibraryReturns(t *testing.T) {
	t.Parallel()
	for name, test := range map[string]struct {
		lose    func(*Platform)
		resumed int
		beat    time.Duration
	}{
		"dropped":       {func(p *Platform) { p.Gateway.Drop() }, 1, time.Minute},
		"asked":         {func(p *Platform) { p.Gateway.Reconnect() }, 1, time.Minute},
		"unknown error": {func(p *Platform) { p.Gateway.Close(CloseUnknownError) }, 1, time.Minute},
		"session over":  {func(p *Platform) { p.Gateway.Invalidate(false) }, 0, time.Minute},
		"timed out":     {func(p *Platform) { p.Gateway.Close(CloseTimedOut) }, 0, time.Minute},
		"acks kept from it": {func(p *Platform) {
			p.Gateway.WithholdAcks(true)
			p.Gateway.AwaitConnections(0)
			p.Gateway.WithholdAcks(false)
		}, 0, 200 * time.Millisecond},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := New(t, WithHeartbeat(test.beat))
			p.Tolerate(DeafClient) // the library stays for five beats
			alice := p.Guild("Apex").Member("alice")
			b := newBot(t, p)
			b.on(discordgo.InteractionApplicationCommand, func(i *discordgo.Interaction) {
				b.say(i, &discordgo.InteractionResponseData{Content: "Here"})
			})
			b.open()
			b.register(alice.Guild.ID, carCommand)
			p.Gateway.AwaitReady(1)
			test.lose(p)
			p.Gateway.AwaitReady(2)
			if got := p.Gateway.Resumed(); got != test.resumed {
				t.Errorf("resumed %d times, want %d", got, test.resumed)
			}
			if got := alice.Type("/car list").Content(); got != "Here" {
				t.Errorf("afterwards: %q", got)
			}
		})
	}
}
