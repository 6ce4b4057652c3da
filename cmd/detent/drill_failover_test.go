//go:build drill

package main

import (
	"fmt"
	"net/http/httptest"
	"testing"
	"time"

	"detent/bot/discord"
	"detent/bot/discord/discordtest"
	"detent/store"
	"detent/tuning"
	"detent/tuning/calendar"
)

// TestDrillFailover loses a primary under load from two processes behind a load
// balancer and has its synchronous standby take over, as the README says. A killed
// one refuses connections; a silent one takes them and says nothing, until the
// program gives it up.
func TestDrillFailover(t *testing.T) {
	t.Run("killed", func(t *testing.T) { failOver(t, (*drillServer).kill, 5*time.Second) })
	t.Run("silent", func(t *testing.T) { failOver(t, (*drillServer).freeze, 45*time.Second) })
}

// failOver loses the primary and wants the first right answer within a time of
// promotion.
func failOver(t *testing.T, lose func(*drillServer), rightWithin time.Duration) {
	primary, standby := pair(t)
	for form, address := range map[string]string{
		"address":  "postgres://postgres@" + primary.address() + "," + standby.address() + "/detent?sslmode=disable&target_session_attrs=read-write",
		"keywords": "host=127.0.0.1,127.0.0.1 port=" + primary.port + "," + standby.port + " user=postgres dbname=detent sslmode=disable target_session_attrs=read-write",
	} {
		if err := store.Migrate(t.Context(), address); err != nil {
			t.Fatalf("%s: %v", form, err)
		}
	}
	url := "postgres://postgres@" + primary.address() + "," + standby.address() + "/detent?sslmode=disable&target_session_attrs=read-write"
	p := discordtest.New(t, discordtest.WithPatience(90*time.Second))
	// What one process has announced and the other answers is answered twice.
	p.Tolerate(discordtest.AnswerTwice, discordtest.AnswerLate)
	balancer := httptest.NewServer(&roundRobin{processes: []*drillProcess{servePosted(t, p, url), servePosted(t, p, url)}})
	t.Cleanup(balancer.Close)
	p.DeliverTo(balancer.URL)

	members := drillMembers(p, 24)
	busy, members := members[:8], members[8:]
	for _, m := range busy {
		m.Type(`/car add name:"Blue hatch" drive:front engine:front`)
	}
	remindMembers(t, url, members, 25*time.Second)
	load := loadFrom(t, busy)
	drillAwait(t, "load", 30*time.Second, func() bool { return load.noted(time.Time{}) > 200 })
	before := asked(members)

	lose(primary)
	lost := time.Now()
	time.Sleep(2 * time.Second) // the operator is no faster, and people go on asking
	standby.do("pg_ctl", "promote", "-D", standby.path("data"), "-w")
	promoted := time.Now()
	drillAwait(t, "a right answer", rightWithin+30*time.Second, func() bool { return load.noted(promoted) > 0 })
	right := time.Since(promoted)
	drillAwait(t, "load again", time.Minute, func() bool { return load.noted(promoted) > 200 })
	load.stop()
	drillAwait(t, "the reminders to go on", 2*time.Minute, func() bool { return once(asked(members)) })

	f := load.compare(standby.admin("detent"))
	t.Logf("failover: %v; promoted %v after the loss, first right answer %v after that; %d of %d reminders came before the loss",
		f, promoted.Sub(lost).Round(time.Millisecond), right.Round(time.Millisecond), sum(before), len(members))
	f.sound(t)
	if right > rightWithin {
		t.Errorf("the first right answer came %v after promotion, want %v", right, rightWithin)
	}
}

func sum(numbers []int) (all int) {
	for _, n := range numbers {
		all += n
	}
	return all
}

// drillMembers are so many members of a workspace.
func drillMembers(p *discordtest.Platform, n int) (members []*discordtest.Member) {
	club := p.Guild("Windy Hill")
	for k := range n {
		members = append(members, club.Member(fmt.Sprint("driver ", k)))
	}
	return members
}

// remindMembers gives each member a car and makes a question about an event fall
// due for each, spread over a span of time from now.
func remindMembers(t testing.TB, url string, members []*discordtest.Member, over time.Duration) {
	t.Helper()
	db, err := store.Open(t.Context(), url)
	drillMust(t, err)
	defer db.Close()
	now := time.Now()
	event := tuning.Event{Name: "Spring day", Starts: now.Add(-8 * time.Hour), Ends: now.Add(-4 * time.Hour)}
	for n, m := range members {
		who := tuning.Who{Club: discord.Place + ":" + m.Guild.ID, Person: m.ID, Name: m.Name}
		at := now.Add(over * time.Duration(n) / time.Duration(len(members)))
		ask := calendar.Due{Kind: calendar.AskFeel, At: at, Until: at.Add(10 * time.Hour)}
		_, err := db.Once(t.Context(), who, now, "remind "+m.ID, func(b *store.Book) ([]byte, error) {
			car := tuning.Car{Owner: who.Person, Name: "Blue hatch", Drive: tuning.FrontDrive, Engine: tuning.FrontEngine}
			if _, err := b.SaveCar(t.Context(), car); err != nil {
				return nil, err
			}
			return nil, prepare(t.Context(), b, &event, who, ask)
		})
		drillMust(t, err)
	}
}
