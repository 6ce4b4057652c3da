package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"detent/bot"
	"detent/store/storetest"
	"detent/tuning"
)

// crowd is many members of one club who ask the router at one moment, on a
// database of their own.
type crowd struct {
	testing.TB
	router *bot.Router
	at     time.Time
	asked  *int
}

func newCrowd(t testing.TB) crowd {
	db := storetest.New(t)
	return crowd{t, bot.NewRouter(lines, records{db}, slog.New(slog.NewTextHandler(io.Discard, nil))),
		time.Date(2026, 5, 16, 10, 0, 0, 0, time.UTC), new(int)}
}

// line is what one of the crowd asks.
type line struct {
	who  string
	role tuning.Role
	text string
}

func (c crowd) ask(id string, l line) bot.Reply {
	read, err := bot.ParseLine(l.text)
	if err != nil {
		return bot.Refuse(err)
	}
	return c.router.Answer(context.Background(), bot.Ask{Line: read, ID: id, At: c.at,
		Who: tuning.Who{Club: "paddock", Person: l.who, Name: l.who, Role: l.role}})
}

func (c crowd) does(l line) bot.Reply {
	c.Helper()
	*c.asked++
	reply := c.ask(fmt.Sprint("first ", *c.asked), l)
	if reply.Problem != nil {
		c.Fatalf("%s: %s", l.text, reply.Problem.Say)
	}
	return reply
}

// together asks lines at one moment, and returns the replies and how long each
// took.
func (c crowd) together(lines []line) ([]bot.Reply, []time.Duration) {
	replies, took := make([]bot.Reply, len(lines)), make([]time.Duration, len(lines))
	*c.asked++
	burst := *c.asked
	start := make(chan struct{})
	var all sync.WaitGroup
	for i, l := range lines {
		all.Go(func() {
			<-start
			began := time.Now()
			replies[i] = c.ask(fmt.Sprint("together ", burst, " ", i), l)
			took[i] = time.Since(began)
		})
	}
	close(start)
	all.Wait()
	return replies, took
}

// drivers adds people, each with a car on four-way dampers.
func (c crowd) drivers(n int) (names []string) {
	var cars []line
	for i := range n {
		name := fmt.Sprint("driver-", i)
		names = append(names, name)
		cars = append(cars, line{who: name, text: `/car add name:"Blue hatch" drive:front engine:front`})
	}
	for i := range cars {
		c.does(cars[i])
	}
	return names
}

// event plans a day with a limit, 0 for none.
func (c crowd) event(name, day string, limit int) {
	text := fmt.Sprintf(`/event add name:%q starts:"%s 09:00" ends:"%s 17:00"`, name, day, day)
	if limit > 0 {
		text += fmt.Sprint(" limit:", limit)
	}
	c.does(line{"Olga", tuning.OrganiserRole, text})
}

// counted fails unless so many were done and the others refused with these words.
func (c crowd) counted(replies []bot.Reply, done int, words ...string) {
	c.Helper()
	for _, r := range replies {
		if r.Problem == nil {
			done--
			continue
		}
		said := false
		for _, w := range words {
			said = said || strings.Contains(r.Problem.Say, w)
		}
		if !said || r.Problem.Kind == tuning.Internal {
			c.Errorf("somebody is told %s %q", r.Problem.Kind, r.Problem.Say)
		}
	}
	if done != 0 {
		c.Errorf("%d more should have been done", done)
	}
}

func TestSixtyEnterAtOnce(t *testing.T) {
	c := newCrowd(t)
	c.event("Open day", "2026-06-06", 0)
	c.event("Small day", "2026-06-13", 40)
	names := c.drivers(60)
	for event, places := range map[string]int{"Open day": 60, "Small day": 40} {
		var lines []line
		for _, name := range names {
			lines = append(lines, line{who: name, text: fmt.Sprintf(`/event enter name:%q`, event)})
		}
		replies, _ := c.together(lines)
		c.counted(replies, places, "is full: all 40 places are taken")
		shown := c.does(line{"Olga", tuning.OrganiserRole, fmt.Sprintf(`/event show name:%q`, event)})
		if !strings.Contains(shown.Text, fmt.Sprint(places)) {
			t.Errorf("of 60 who entered %s there are %q", event, shown.Text)
		}
	}
}

// Nobody gets into an event once it has been called off, though they were
// entering meanwhile.
func TestEnteringWhileItIsCalledOff(t *testing.T) {
	c := newCrowd(t)
	c.event("Open day", "2026-06-06", 0)
	var lines []line
	for _, name := range c.drivers(12) {
		lines = append(lines, line{who: name, text: `/event enter name:"Open day"`})
	}
	lines = append(lines, line{"Olga", tuning.OrganiserRole, `/event cancel name:"Open day"`})
	replies, _ := c.together(lines)
	in := 0
	for _, r := range replies[:12] {
		if r.Problem == nil {
			in++
		}
	}
	c.counted(replies, in+1, "cancelled")
}

func TestManySetTheClub(t *testing.T) {
	c := newCrowd(t)
	var lines []line
	for i := range 20 {
		lines = append(lines, line{fmt.Sprint("organiser-", i), tuning.OrganiserRole, fmt.Sprintf(`/club set remind-after:%dh`, i%5+1)})
	}
	replies, _ := c.together(lines)
	c.counted(replies, 20)
}

func TestManyAtOneCar(t *testing.T) {
	c := newCrowd(t)
	const robin = "Robin"
	c.does(line{who: robin, text: `/car add name:"Blue hatch" drive:front engine:front`})
	fit := `/damper fit axle:both ways:four clicks:30 count:hard`
	c.does(line{who: robin, text: fit})
	var lines []line
	for i := range 12 {
		lines = append(lines, line{who: robin, text: fit},
			line{who: robin, text: fmt.Sprintf(`/clicks set at:front adjuster:low-bump to:%d`, i+1)})
	}
	replies, _ := c.together(lines)
	var fits, sets []bot.Reply
	for i := range 12 {
		fits, sets = append(fits, replies[2*i]), append(sets, replies[2*i+1])
	}
	c.counted(fits, 12)
	done := 0
	for _, r := range sets {
		if r.Problem == nil {
			done++
		}
	}
	c.counted(sets, done, "a moment ago")

	replies, _ = c.together(slices.Repeat([]line{{who: robin, text: `/baseline`}}, 8))
	c.counted(replies, 8)
}

// Three times sixteen people each turn another adjuster of one car at one
// moment: all 48 changes stand.
func TestManyTurnDifferentAdjusters(t *testing.T) {
	c := newCrowd(t)
	const robin = "Robin"
	c.does(line{who: robin, text: `/car add name:"Blue hatch" drive:front engine:front`})
	c.does(line{who: robin, text: `/damper fit axle:both ways:four clicks:30 count:hard`})
	for _, to := range []int{3, 5, 7} {
		var lines []line
		for _, corner := range []string{"FL", "FR", "RL", "RR"} {
			for _, adjuster := range []string{"low-bump", "high-bump", "low-rebound", "high-rebound"} {
				lines = append(lines, line{who: robin, text: fmt.Sprintf(`/clicks set at:%s adjuster:%s to:%d`, corner, adjuster, to)})
			}
		}
		replies, _ := c.together(lines)
		c.counted(replies, 16)
		for _, at := range c.does(line{who: robin, text: `/clicks show`}).Corners {
			if at.Clicks != to && !strings.HasPrefix(at.Shown, fmt.Sprint(to, " ")) {
				t.Errorf("the %s %s stands at %q, want %d", at.Corner, at.Adjuster, at.Shown, to)
			}
		}
	}
	if newest := c.does(line{who: robin, text: `/log page:5`}); len(newest.Notes)+strings.Count(newest.Text, "\n") == 0 {
		t.Errorf("the log has no fifth page of ten: %+v", newest)
	}
}
