//go:build drill

package main

import (
	"net/http"
	"syscall"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"detent/bot/discord/discordtest"
	"detent/store/storetest"
)

// TestDrillLeaving has one of two processes leave while it sends reminders, in
// each way that a process can: the other sends what is left within the lease,
// and nobody is asked twice.
func TestDrillLeaving(t *testing.T) {
	ways := map[string]func(victim *drillProcess){
		"killed": func(victim *drillProcess) { victim.signal(syscall.SIGKILL) },
		"told":   func(victim *drillProcess) { victim.signal(syscall.SIGTERM); victim.signal(syscall.SIGCONT) },
		"frozen": func(*drillProcess) {},
	}
	begin := map[string]func(testing.TB, *discordtest.Platform, string, string) *drillProcess{
		"gateway": func(t testing.TB, p *discordtest.Platform, url, shard string) *drillProcess {
			return serveBeside(t, p, url, "--shard", shard, "--shards", "2").ready()
		},
		"posted": func(t testing.TB, p *discordtest.Platform, url, _ string) *drillProcess {
			return servePosted(t, p, url)
		},
	}
	for door, start := range begin {
		for how, leave := range ways {
			t.Run(door+" "+how, func(t *testing.T) {
				t.Parallel()
				leaving(t, start, leave)
			})
		}
	}
}

func leaving(t *testing.T, start func(testing.TB, *discordtest.Platform, string, string) *drillProcess, leave func(*drillProcess)) {
	const (
		people = 24
		within = 60*time.Second + beat + 30*time.Second // the lease, the next look, and sending at this machine's pace
	)
	url := storetest.URL(t)
	p := discordtest.New(t, discordtest.WithPatience(90*time.Second))
	p.Tolerate(discordtest.Heartbeat)                           // which whoever is frozen misses
	p.BreakBy(func(route discordtest.Route) discordtest.Fault { // so that the victim leaves in the midst of it
		if route == discordtest.PostMessage {
			return discordtest.Slow(500 * time.Millisecond)
		}
		return discordtest.Fault{}
	})
	members := drillMembers(p, people)
	remindMembers(t, url, members, 0)
	victim := start(t, p, url, "0")
	drillAwait(t, "the first reminder", time.Minute, func() bool { return sum(asked(members)) > 0 })
	victim.signal(syscall.SIGSTOP) // nothing goes on until the other is there
	began, left := sum(asked(members)), time.Now()
	start(t, p, url, "1")
	leave(victim)
	drillAwait(t, "all reminders", within, func() bool { return sum(asked(members)) >= people })
	took := time.Since(left)

	// Whoever was frozen goes on in the midst of sending, and then leaves.
	victim.signal(syscall.SIGCONT)
	victim.signal(syscall.SIGTERM)
	select {
	case <-victim.ended:
	case <-time.After(time.Minute):
		t.Error("it does not leave")
	}
	if times := asked(members); !once(times) {
		t.Errorf("they were asked %v times", times)
	}
	settled := func() (open int) {
		admin, err := sqlx.Open("postgres", url)
		drillMust(t, err)
		defer admin.Close()
		drillMust(t, admin.Get(&open, `select count(*) from due where outcome is distinct from 'sent'`))
		return open
	}
	drillAwait(t, "all to be settled", within, func() bool { return settled() == 0 })
	again := -people
	for _, r := range p.Requests(discordtest.PostMessage) {
		if r.Status == http.StatusOK {
			again++
		}
	}
	t.Logf("it left after %d of %d reminders; all had come %v later, each once; %d were sent again under the same name",
		began, people, took.Round(100*time.Millisecond), again)
}
