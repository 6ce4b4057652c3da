package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"detent/bot/discord"
	"detent/bot/discord/discordtest"
	"detent/bot/remind"
	"detent/store"
	"detent/tuning"
)

// trio is a club of three in a workspace: an organiser, a coach and a driver
// with a car.
type trio struct {
	workspace
	t                 testing.TB
	olga, kim, robin  *discordtest.Member
	heartOne, another *remind.Heartbeat
}

// bothWays runs a test on a trio that is reached over the gateway, and on one
// reached over signed posts.
func bothWays(t *testing.T, test func(t *testing.T, c trio)) {
	for name, processes := range map[string]int{"gateway": 0, "posted": 2} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c := trio{t: t, workspace: openWorkspace(t, processes)}
			club := c.member.Guild
			c.robin = c.member
			c.olga = club.Member("olga", discordtest.Permissions(discordtest.PermManageGuild))
			c.kim = club.Member("kim", discordtest.Roles("coaches"))
			c.olga.Type(`/club set coach-role:@coaches quiet-from:00:00 quiet-to:00:00`)
			c.heartOne, c.another = c.heart(), c.heart()
			c.robin.Type(`/car add name:"Blue hatch" drive:front engine:front`)
			c.robin.Type(`/damper fit axle:both ways:two clicks:30 count:hard`).Press("These are set now")
			test(t, c)
		})
	}
}

func (c trio) heart() *remind.Heartbeat {
	h := heartbeat(c.db, sender{c.door("")}, time.Now, slog.New(slog.NewJSONHandler(io.Discard, nil)))
	h.Place = discord.Place
	return h
}

// beat has two processes send what is due, at once.
func (c trio) beat() {
	c.t.Helper()
	var both sync.WaitGroup
	for _, h := range []*remind.Heartbeat{c.heartOne, c.another} {
		both.Go(func() {
			if err := h.Drain(c.t.Context()); err != nil {
				c.t.Error(err)
			}
		})
	}
	both.Wait()
}

// says wants all of some words in an answer.
func (c trio) says(r *discordtest.Reply, words ...string) *discordtest.Reply {
	c.t.Helper()
	for _, word := range words {
		if !strings.Contains(r.Text(), word) {
			c.t.Errorf("it lacks %q:\n%s", word, r.Text())
		}
	}
	return r
}

// arrived wants so many messages in somebody's inbox, which call nobody, and
// returns the last.
func (c trio) arrived(who *discordtest.Member, n int) discordtest.Message {
	c.t.Helper()
	inbox := who.Inbox().Messages()
	if len(inbox) != n {
		c.t.Fatalf("%s has %d messages, want %d: %+v", who.Name, len(inbox), n, inbox)
	}
	for _, m := range inbox {
		if len(m.Pings) != 0 {
			c.t.Errorf("%q calls %v", m.Content, m.Pings)
		}
	}
	if n == 0 {
		return discordtest.Message{}
	}
	return inbox[n-1]
}

// nasty is full of what a workspace would take for markup or a call.
func nasty(who *discordtest.Member) string {
	return "**Gate** opens at 8, @everyone @here <@" + who.ID + "> <#" + who.ID + "> #" + who.ID + " `code` ~~no~~ ||hush|| [map](https://hill.example)"
}

// marked finds what would be markup or a call.
var marked = regexp.MustCompile("(^|[^\\\\])([*_~`|]|<[@#:/]|\\[)|[@#](everyone|here|\\d)")

// plainWords wants no markup in the words of a message below its heading.
func (c trio) plainWords(m discordtest.Message) {
	c.t.Helper()
	_, words, _ := strings.Cut(m.Content, "**\n")
	words, _, _ = strings.Cut(words, "\n")
	if found := marked.FindString(words); found != "" || !strings.Contains(words, "hill.example") {
		c.t.Errorf("it carries %q: %s", found, words)
	}
}

func TestAnOrganisersMessage(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, c trio) {
		day := func(n int) string { return time.Now().AddDate(0, 0, n).UTC().Format(time.DateOnly) }
		c.olga.Type(`/event add name:"Spring day" starts:"` + day(9) + ` 09:00" ends:"` + day(9) + ` 17:00"`)
		lee := c.member.Guild.Member("lee")
		for _, who := range []*discordtest.Member{c.kim, lee} {
			who.Type(`/car add name:"Red hatch" drive:front engine:front`)
			who.Type(`/event enter`)
		}
		c.says(c.robin.Type(`/event enter`), "The organiser may message you about it; /me set messages:off stops that.")
		c.kim.Type(`/me set messages:off`)
		c.says(c.olga.Type(`/event tell text:" "`), "Say in text what")
		told := c.says(c.olga.Type(`/event tell text:"`+nasty(c.kim)+`"`), "Message to 2 people in Spring day", "1 other wants no messages")
		if !told.Private() {
			t.Error("everybody reads how many take no messages")
		}
		c.beat()
		c.beat()
		c.arrived(c.kim, 0)
		c.arrived(lee, 1)
		m := c.arrived(c.robin, 1)
		if !strings.HasPrefix(m.Content, "**Spring day: message from olga**\n“") {
			t.Errorf("it reads %s", m.Content)
		}
		c.plainWords(m)
		c.says(c.robin.Directly().Press(m, "The event"), "Spring day")
		c.says(c.robin.Directly().Press(m, "No more messages"), "Messages: off.")
		c.says(c.olga.Type(`/event tell text:"Bring water."`), "Message to 1 person in Spring day", "2 others want no messages")
		c.says(c.olga.Type(`/event tell text:"And a hat."`), "have had 2 messages today: the next can go from")
		c.beat()
		c.arrived(c.robin, 1)
		c.arrived(lee, 2)
	})
}

func TestACoachsMessages(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, c trio) {
		lee := c.member.Guild.Member("lee")
		lee.Type(`/car add name:"Red hatch" drive:front engine:front`)
		lee.Type(`/damper fit axle:both ways:two clicks:16 count:soft`)
		for _, who := range []*discordtest.Member{c.robin, lee} {
			c.kim.Type(`/coach ask member:` + who.Name)
			c.says(who.Type(`/coach accept member:kim`), "/me set messages:off stops that.")
		}
		c.says(c.kim.Type(`/coach note member:<@`+c.robin.ID+`> and:"<@`+lee.ID+`>, <@`+c.robin.ID+`>" text:"`+nasty(lee)+`"`), "Note left for robin and lee")
		c.beat()
		c.beat()
		note := c.arrived(c.robin, 1)
		c.arrived(lee, 1)
		if !strings.HasPrefix(note.Content, "**A note from kim**\n“") {
			t.Errorf("it reads %s", note.Content)
		}
		c.plainWords(note)
		c.says(c.robin.Type(`/symptom what:understeer where:entry`), "kim left you a note")
		c.says(c.robin.Directly().Press(note, "Read"), "From your coaches", "Gate")
		if again := c.robin.Type(`/symptom what:understeer where:entry`); strings.Contains(again.Text(), "kim left you a note") {
			t.Errorf("what was read is told again:\n%s", again.Text())
		}

		c.says(c.kim.Type(`/coach suggest member:robin and:lee at:rear adjuster:rebound to:10 why:"It pushes."`), "Suggested to robin and lee", "→ 10 from hard", "→ 10 from soft")
		c.beat()
		c.beat()
		c.arrived(lee, 2)
		suggestion := c.arrived(c.robin, 2)
		if !strings.HasPrefix(suggestion.Content, "**kim suggests for Blue hatch: Rear rebound") || !strings.Contains(suggestion.Content, "“It pushes.”") || !strings.Contains(suggestion.Content, "never past the stop") {
			t.Errorf("it reads %s", suggestion.Content)
		}
		if labels := suggestion.Buttons(); !slices.Equal(labels, []string{"Look", "Done", "Decline", "No more messages"}) {
			t.Errorf("it offers %q", labels)
		}
		c.says(c.robin.Type(`/symptom what:understeer where:entry`), "kim suggested a change of Blue hatch")
		c.says(c.robin.Directly().Press(suggestion, "Done"), "Noted: Rear rebound")
		c.says(c.robin.Directly().Press(suggestion, "Decline"), "no suggestion")

		c.kim.Type(`/coach note member:robin text:"One more."`)
		c.robin.Type(`/coach end member:kim`)
		c.beat()
		c.arrived(c.robin, 2)
	})
}

// A message to sixty is sent at the platform's pace, once each, while members
// ask and are answered.
func TestAMessageToSixty(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, c trio) {
		day := time.Now().AddDate(0, 0, 9).UTC().Format(time.DateOnly)
		c.olga.Type(`/event add name:"Spring day" starts:"` + day + ` 09:00" ends:"` + day + ` 17:00"`)
		var people []*discordtest.Member
		who := tuning.Who{Club: discord.Place + ":" + c.robin.Guild.ID, Person: c.olga.ID, Name: c.olga.Name}
		_, err := c.db.Once(t.Context(), who, time.Now(), "sixty", func(b *store.Book) ([]byte, error) {
			event, err := b.Event(t.Context(), "Spring day")
			for n := 0; n < 60 && err == nil; n++ {
				m := c.robin.Guild.Member(fmt.Sprint("member", n))
				people = append(people, m)
				err = enterOne(t.Context(), b, event, m)
			}
			return nil, err
		})
		if err != nil {
			t.Fatal(err)
		}
		c.says(c.olga.Type(`/event tell text:"Bring water."`), "Message to 60 people in Spring day")
		sent := make(chan struct{})
		go func() { // one process: each keeps to the platform's pace by itself
			defer close(sent)
			if err := c.heartOne.Drain(t.Context()); err != nil {
				t.Error(err)
			}
		}()
		for asked := true; asked; {
			c.says(c.robin.Type(`/clicks show`), "FL")
			select {
			case <-sent:
				asked = false
			default:
			}
		}
		c.beat()
		for _, m := range people {
			c.arrived(m, 1)
		}
	})
}

// enterOne enters a new car of a member's.
func enterOne(ctx context.Context, b *store.Book, event tuning.Event, m *discordtest.Member) error {
	if err := b.SaveMember(ctx, tuning.Member{Person: m.ID, Name: m.Name, Reminders: true}); err != nil {
		return err
	}
	car, err := b.SaveCar(ctx, tuning.Car{Owner: m.ID, Name: "Red hatch", Drive: tuning.FrontDrive, Engine: tuning.FrontEngine})
	if err != nil {
		return err
	}
	return b.Enter(ctx, event, tuning.Entrant{Car: car, Reminded: true})
}
