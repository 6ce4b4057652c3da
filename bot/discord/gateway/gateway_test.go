package gateway

import (
	"errors"
	"log/slog"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"detent/bot/discord/discordtest"
	"detent/bot/discord/rest"
)

// nobody is told of nothing.
type nobody struct{}

func (nobody) Interaction(*discordgo.Interaction) {}
func (nobody) Membership(string, bool)            {}

// quiet is a gateway that reaches nothing and tells nobody.
func quiet() *Gateway {
	return New(Config{
		Shards: 1, API: rest.NewClient("", nil), Log: slog.New(slog.DiscardHandler), Now: time.Now, Pace: UsualPace,
		Entered: func() {}, Broken: func(string) {},
	})
}

// at is a gateway that joins a stand-in for the platform.
func at(p *discordtest.Platform) *Gateway {
	g := quiet()
	g.Token, g.API = p.Token(), rest.NewClient(p.Token(), p.Client().Transport)
	return g
}

// TestConnectionThatHangs holds the library's lock, as its own faults do, and
// sees the session given up for a new one.
func TestConnectionThatHangs(t *testing.T) {
	t.Parallel()
	p := discordtest.New(t)
	g := at(p)
	g.Pace.Beat = 10 * time.Millisecond
	s := g.newSession(nobody{})
	if err := g.join(t.Context(), s); err != nil {
		t.Fatal(err)
	}
	s.Lock()
	if err := g.stay(t.Context(), s); !errors.Is(err, errStuck) {
		t.Errorf("a connection that hangs: %v", err)
	}
	s.abandon()
	p.Gateway.AwaitConnections(0)
	s.Unlock()
}

// TestGatewayOutOfReach sees why the platform was not reached.
func TestGatewayOutOfReach(t *testing.T) {
	t.Parallel()
	p := discordtest.New(t)
	g := at(p)
	s := g.newSession(nobody{})
	defer s.abandon()
	s.ended(errDeaf)
	g.Pace.Open = time.Second
	p.Gateway.Refuse(discordtest.CloseUnknownError)
	if err := g.join(t.Context(), s); err == nil || !strings.Contains(err.Error(), "4000") {
		t.Errorf("refused: %v", err)
	}
}
