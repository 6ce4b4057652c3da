package discord

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord/discordtest"
	"detent/bot/discord/rest"
)

// soakSize is how many interactions the soak makes: a few in every test run,
// as many as DETENT_SOAK says otherwise.
func soakSize(t *testing.T) int {
	n, err := strconv.Atoi(os.Getenv("DETENT_SOAK"))
	if err != nil {
		n = 500
	}
	t.Logf("%d interactions; DETENT_SOAK sets another number", n)
	return n
}

// TestSoak has many people ask at once while the platform misbehaves at random:
// every interaction is answered once or lost for a reason that is the
// platform's, the bot is asked of each at most once, and nothing grows.
func TestSoak(t *testing.T) {
	for _, way := range []string{"gateway", "posted"} {
		t.Run(way, func(t *testing.T) {
			w := newAdapterClub(t).register()
			// An answer that was taken, and its news lost, is sent again; and what
			// was given up while the bot was away may reach it later.
			w.Tolerate(discordtest.AnswerTwice, discordtest.AnswerLate, discordtest.AnswerFirst)
			if way == "gateway" {
				w.join()
			} else {
				w.post(w.adapter())
			}
			soak(t, w, way == "gateway")
		})
	}
}

// figures of a soak.
type figures struct {
	answered, lost atomic.Int64
	mu             sync.Mutex
	reasons        map[string]int
}

const (
	people = 20
	batch  = 500
)

func soak(t *testing.T, w *adapterClub, overGateway bool) {
	w.bot.pace.deferral = 20 * time.Millisecond
	dice := rand.New(rand.NewPCG(7, 11))
	w.answer = moody()
	f := &figures{reasons: map[string]int{}}
	n := soakSize(t)
	w.round(f, min(n, people)) // what is made once is made
	before := held()
	w.BreakBy(mishaps(dice))
	for done := 0; done < n; done += batch {
		if overGateway && done > 0 {
			w.stumble(dice.IntN(4))
		}
		w.round(f, min(batch, n-done))
		if slow := w.repeated(); len(slow) > 0 {
			t.Fatalf("asked more than once: %v", slow)
		}
		w.Forget()
	}
	w.BreakBy(nil)
	after := held()
	until(t, "the goroutines to end", func() bool { return runtime.NumGoroutine() <= before.goroutines+30 })
	t.Logf("answered %d, lost %d %v; heap %d → %d KiB, goroutines %d → %d", f.answered.Load(), f.lost.Load(), f.reasons,
		before.heap>>10, after.heap>>10, before.goroutines, runtime.NumGoroutine())
	if after.heap > before.heap+16<<20 {
		t.Errorf("the heap grew from %d to %d KiB", before.heap>>10, after.heap>>10)
	}
	if lost := f.lost.Load(); lost*20 > int64(n) {
		t.Errorf("%d of %d were lost", lost, n)
	}
	for why := range f.reasons {
		if why != "the bot is not connected" {
			t.Errorf("lost: %s", why)
		}
	}
}

// moody answers at once or late, breaks now and then, and asks to be pressed.
func moody() func(context.Context, bot.Ask) bot.Reply {
	var turn atomic.Int64
	return func(ctx context.Context, ask bot.Ask) bot.Reply {
		switch turn.Add(1) % 10 {
		case 0:
			panic("a bug")
		case 1:
			rest.Wait(ctx, 40*time.Millisecond)
		}
		return bot.Reply{Title: ask.Line.String(), Actions: []bot.Action{{Label: "Done", Ask: "/apply advice:7"}, {Label: "Worse", Ask: "/feel better:no"}}}
	}
}

// mishaps break one request in ten.
func mishaps(dice *rand.Rand) func(discordtest.Route) discordtest.Fault {
	kinds := []discordtest.Fault{
		discordtest.Status(503), discordtest.HTML(502), discordtest.Drop(), discordtest.Drop().Done(), discordtest.Status(500).Done(),
		discordtest.RateLimited(20 * time.Millisecond), discordtest.RateLimitedGlobally(20 * time.Millisecond).Bare(), discordtest.Slow(30 * time.Millisecond),
	}
	var mu sync.Mutex
	return func(route discordtest.Route) discordtest.Fault {
		mu.Lock()
		defer mu.Unlock()
		if dice.IntN(10) > 0 || route == discordtest.GetGateway {
			return discordtest.Fault{}
		}
		return kinds[dice.IntN(len(kinds))]
	}
}

// stumble loses the gateway in one of its ways, or delivers some things twice.
func (w *adapterClub) stumble(how int) {
	switch how {
	case 0:
		w.Gateway.Drop()
	case 1:
		w.Gateway.Reconnect()
	case 2:
		w.Gateway.Invalidate(false)
	default:
		w.DeliverTwice(20)
	}
}

// round has everybody ask something, n times in all.
func (w *adapterClub) round(f *figures, n int) {
	var all sync.WaitGroup
	for p := range people {
		who := w.club.Member(fmt.Sprint("person", p))
		all.Go(func() {
			for k := p; k < n; k += people {
				w.one(f, who, k)
			}
		})
	}
	all.Wait()
}

// one asks in one of the ways there are.
func (w *adapterClub) one(f *figures, who *discordtest.Member, k int) {
	settle := func(r *discordtest.Reply) bool {
		why := r.Settle()
		if why == "" {
			f.answered.Add(1)
			return true
		}
		f.lost.Add(1)
		f.mu.Lock()
		defer f.mu.Unlock()
		f.reasons[why]++
		return false
	}
	r := who.Begin("/log")
	if !settle(r) || k%3 != 0 || !strings.Contains(r.Content(), "log") || len(r.Buttons()) == 0 {
		return
	}
	pressed := who.BeginPress(r.Message(), []string{"Done", "Worse"}[k%2])
	settle(pressed)
}

// repeated lists what the bot was asked more than once, and forgets the rest.
func (w *adapterClub) repeated() (ids []string) {
	w.script.mu.Lock()
	defer w.script.mu.Unlock()
	seen := map[string]bool{}
	for _, a := range w.asked {
		if seen[a.ID] {
			ids = append(ids, a.ID)
		}
		seen[a.ID] = true
	}
	w.asked = nil
	return ids
}

type holding struct {
	heap       uint64
	goroutines int
}

func held() holding {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return holding{m.HeapAlloc, runtime.NumGoroutine()}
}
