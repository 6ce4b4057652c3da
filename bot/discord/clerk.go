package discord

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"time"

	"detent/bot/discord/rest"
)

// clerk notes which workspaces the bot is in, one after the other in the order
// of the events, so that leaving and coming back are not mixed up.
type clerk struct {
	b      *Bot
	notes  chan membership
	closed chan struct{}
	done   chan struct{}
}

type membership struct {
	guild string
	in    bool
	at    time.Time
}

// mostNotes is how many notes may wait: when a shard joins the platform tells of
// each of its workspaces, 2,500 at most.
const mostNotes = 5000

func newClerk(b *Bot) *clerk {
	c := &clerk{b: b, notes: make(chan membership, mostNotes), closed: make(chan struct{}), done: make(chan struct{})}
	go c.work()
	return c
}

// note hands a note over without waiting.
func (c *clerk) note(guild string, in bool) {
	select {
	case c.notes <- membership{guild, in, c.b.config.Now()}:
	default:
		c.b.log.Error("too many workspaces at once", "guild", guild)
	}
}

// stop waits for the note that is being written.
func (c *clerk) stop() {
	close(c.closed)
	<-c.done
}

func (c *clerk) work() {
	defer close(c.done)
	for {
		select {
		case <-c.closed:
			return
		case m := <-c.notes:
			c.b.gateway.Guard("membership", func() { c.write(m) })
		}
	}
}

// write marks a club. An error is only logged: the platform tells the same again
// at the next start.
func (c *clerk) write(m membership) {
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	var err error
	if m.in {
		err = c.b.clubs.Back(ctx, clubKey(m.guild))
	} else {
		err = c.b.clubs.Left(ctx, clubKey(m.guild), m.at)
		c.b.log.Info("removed from a workspace", "guild", m.guild)
	}
	if err != nil {
		c.b.log.Error("noting a workspace", "guild", m.guild, "in", m.in, "err", err)
	}
}

// RollCall compares the clubs on record with the workspaces that the bot is in,
// and notes who left and who is back. It catches removals made while no process
// was at the gateway.
func (b *Bot) RollCall(ctx context.Context) error {
	in := map[string]bool{}
	err := b.eachGuild(ctx, func(id string) error {
		in[clubKey(id)] = true
		return nil
	})
	if err != nil {
		return err
	}
	known, err := b.clubs.Known(ctx, Place)
	for _, key := range known {
		if in[key] {
			err = errors.Join(err, b.clubs.Back(ctx, key))
		} else {
			err = errors.Join(err, b.clubs.Left(ctx, key, b.config.Now()))
		}
	}
	return err
}

// eachGuild calls do with the number of every workspace that the bot is in, until
// do fails.
func (b *Bot) eachGuild(ctx context.Context, do func(id string) error) error {
	for last, more := "0", true; more; {
		var page []struct{ ID string }
		path := fmt.Sprintf("/users/@me/guilds?limit=%d&after=%s", guildPage, last)
		if err := b.api.Do(ctx, rest.Call{Method: http.MethodGet, Path: path, Again: true}, &page); err != nil {
			return err
		}
		for _, g := range page {
			if err := do(g.ID); err != nil {
				return err
			}
			last = g.ID
		}
		more = len(page) == guildPage
	}
	return nil
}

// guildPage is how many workspaces the platform lists at once.
const guildPage = 200
