package discord

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord/discordtest"
	"detent/bot/discord/rest"
)

// TestFirstAnswersThatGoWrong breaks the callback in every way and sees each
// interaction answered once all the same.
func TestFirstAnswersThatGoWrong(t *testing.T) {
	t.Parallel()
	for name, faults := range map[string][]discordtest.Fault{
		"503 twice":             discordtest.Times(2, discordtest.Status(503)),
		"502 and a page":        {discordtest.HTML(502)},
		"cut":                   {discordtest.Drop()},
		"done, but a 500":       {discordtest.Status(500).Done()},
		"done, but cut":         {discordtest.Drop().Done()},
		"hangs":                 {discordtest.Hang()},
		"429":                   {discordtest.RateLimited(50 * time.Millisecond)},
		"429 without headers":   {discordtest.RateLimited(50 * time.Millisecond).Bare()},
		"429, global":           {discordtest.RateLimitedGlobally(50 * time.Millisecond)},
		"429, global, and bare": {discordtest.RateLimitedGlobally(50 * time.Millisecond).Bare()},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newAdapterClub(t).register().join()
			if strings.HasPrefix(name, "done") {
				w.Expect(discordtest.AnswerTwice)
			}
			if name == "hangs" {
				w.bot.pace.attempt = time.Second
				w.Tolerate(discordtest.AnswerTwice) // an attempt that is only slow is made again too
			}
			w.Break(discordtest.PostCallback, faults...)
			if got := w.alice.Type("/help").Content(); got != "**You said /help**" {
				t.Errorf("answered %q", got)
			}
			if strings.HasPrefix(name, "done") {
				w.AwaitRequests(discordtest.PostCallback, 2)
			}
			if len(w.asks()) != 1 {
				t.Errorf("the bot was asked %d times", len(w.asks()))
			}
		})
	}
}

// TestAnnouncementWithoutNews has an announcement taken and the news of it lost
// until it is too late to ask: the answer follows all the same.
func TestAnnouncementWithoutNews(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	w.bot.pace.deferral, w.bot.pace.first = time.Millisecond, time.Second
	w.answer = func(context.Context, bot.Ask) bot.Reply {
		w.AwaitRequests(discordtest.PostCallback, 1)
		return bot.Reply{Title: "At last"}
	}
	w.Tolerate(discordtest.AnswerTwice)
	w.Break(discordtest.PostCallback, append([]discordtest.Fault{discordtest.Status(500).Done()}, discordtest.Times(rest.Attempts, discordtest.Status(500))...)...)
	if got := w.alice.Type("/baseline").Content(); got != "**At last**" {
		t.Errorf("answered %q", got)
	}
}

// TestAnswerWaitsForItsAnnouncement has an answer overtake an announcement that is
// still on its way when the bot gives up hearing of it.
func TestAnswerWaitsForItsAnnouncement(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	w.bot.pace.deferral, w.bot.pace.first, w.bot.pace.attempt = time.Millisecond, 300*time.Millisecond, 50*time.Millisecond
	w.Tolerate(discordtest.AnswerTwice)
	w.Tolerate(discordtest.AnswerFirst)
	sent, arrive := make(chan struct{}), make(chan struct{})
	var once sync.Once
	w.BreakBy(func(route discordtest.Route) discordtest.Fault {
		if route != discordtest.PostCallback {
			return discordtest.Fault{}
		}
		once.Do(func() { close(sent) })
		return discordtest.Late(arrive)
	})
	w.answer = func(context.Context, bot.Ask) bot.Reply {
		<-sent
		return bot.Reply{Title: "At last"}
	}
	asked := w.alice.Begin("/baseline")
	if early := w.AwaitRequests(discordtest.EditReply, 1)[0]; early.Status != 404 {
		t.Errorf("the answer did not overtake: %d", early.Status)
	}
	close(arrive)
	asked.Wait()
	if got := asked.Content(); got != "**At last**" {
		t.Errorf("answered %q", got)
	}
}

// TestEditsThatGoWrong does the same to the answer that follows.
func TestEditsThatGoWrong(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().post()
	w.bot.pace.deferral = time.Millisecond
	w.answer = func(ctx context.Context, _ bot.Ask) bot.Reply {
		w.AwaitRequests(discordtest.PostCallback, 1)
		return bot.Reply{Title: "At last"}
	}
	w.Break(discordtest.EditReply, discordtest.Status(503), discordtest.HTML(504), discordtest.Drop(), discordtest.RateLimited(20*time.Millisecond))
	if got := w.alice.Type("/baseline").Content(); got != "**At last**" {
		t.Errorf("answered %q", got)
	}
}

// TestGlobalLimitHolds sees every route keep still after a global 429 that has
// no headers; the stand-in fails the test otherwise.
func TestGlobalLimitHolds(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	w.Break(discordtest.PostMessage, discordtest.RateLimitedGlobally(300*time.Millisecond).Bare())
	general := w.club.Channel("general")
	if err := w.bot.Post(t.Context(), general.ID, bot.Reply{Title: "First"}, "1"); err != nil {
		t.Fatal(err)
	}
	w.bot.api.Do(t.Context(), rest.Call{Method: "GET", Path: "/applications/@me"}, nil)
	if got := len(general.Messages()); got != 1 {
		t.Errorf("%d messages stand in the channel", got)
	}
}

// TestFiftyASecond sends more than the platform takes, as fast as it goes.
func TestFiftyASecond(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	var all sync.WaitGroup
	for n := range 70 {
		channel := w.club.Channel(fmt.Sprint("channel ", n))
		all.Go(func() {
			if err := w.bot.Post(t.Context(), channel.ID, bot.Reply{Title: "Hello"}, fmt.Sprint(n)); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
}

// TestFiveMessagesInAChannel sends more to one channel than it takes, all at
// once, and sees the others and the other routes not wait for them.
func TestFiveMessagesInAChannel(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	general, pits := w.club.Channel("general"), w.club.Channel("pits")
	begun := time.Now()
	var all sync.WaitGroup
	for n := range 7 {
		all.Go(func() {
			if err := w.bot.Post(t.Context(), general.ID, bot.Reply{Title: "Hello"}, fmt.Sprint(n)); err != nil {
				t.Error(err)
			}
		})
	}
	general.Await(5)
	if err := w.bot.Post(t.Context(), pits.ID, bot.Reply{Title: "Hello"}, "other"); err != nil || time.Since(begun) > 4*time.Second {
		t.Errorf("another channel: %v after %v", err, time.Since(begun))
	}
	all.Wait()
	if got := len(general.Messages()); got != 7 {
		t.Errorf("%d messages arrived", got)
	}
}

// TestOneSlowAnswerHoldsNobodyUp leaves one callback hanging while another
// person asks.
func TestOneSlowAnswerHoldsNobodyUp(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	onItsWay, answered := make(chan struct{}), make(chan struct{})
	first := true
	w.BreakBy(func(route discordtest.Route) discordtest.Fault {
		if route != discordtest.PostCallback || !first {
			return discordtest.Fault{}
		}
		first = false
		close(onItsWay)
		return discordtest.Held(answered)
	})
	slow := w.alice.Begin("/help")
	<-onItsWay
	w.club.Member("ben").Type("/help")
	close(answered)
	slow.Wait()
}

// TestStrangeForms is what the library hands over without its data.
func TestStrangeForms(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		r := w.alice.SubmitStrange().Wait()
		if !strings.Contains(r.Content(), "could not read that") || !r.Private() {
			t.Errorf("answered %q", r.Content())
		}
		until(t, "it to be counted", func() bool {
			return strings.Contains(w.figures(), `detent_requests_total{command="unknown",outcome="unread"} 1`)
		})
	})
}

func (w *adapterClub) figures() string {
	answer := httptest.NewRecorder()
	w.bot.metrics.Handler().ServeHTTP(answer, httptest.NewRequest(http.MethodGet, "/metrics", nil))
	return answer.Body.String()
}

// TestPanics sees what breaks answered.
func TestPanics(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.answer = func(context.Context, bot.Ask) bot.Reply { panic("a bug") }
		w.suggest = func(bot.Ask, string, string) []bot.Suggestion { panic("another") }
		if got := w.alice.Type("/help").Content(); !strings.Contains(got, "went wrong on our side") {
			t.Errorf("answered %q", got)
		}
		if got := w.alice.Autocomplete("/log car:b"); len(got) != 0 {
			t.Errorf("offered %v", got)
		}
	})
}

// TestAnswersThatNeverCome gives up waiting for a command that ignores its
// deadline, and says so.
func TestAnswersThatNeverCome(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.bot.pace.deferral, w.bot.pace.answer, w.bot.pace.suggest = time.Millisecond, 300*time.Millisecond, time.Millisecond
		hold := make(chan struct{})
		defer close(hold)
		w.answer = func(context.Context, bot.Ask) bot.Reply { <-hold; return bot.Reply{} }
		w.suggest = func(bot.Ask, string, string) []bot.Suggestion { <-hold; return nil }
		if got := w.alice.Type("/log").Content(); !strings.Contains(got, "took too long") {
			t.Errorf("answered %q", got)
		}
		if got := w.alice.Autocomplete("/log car:b"); len(got) != 0 {
			t.Errorf("offered %v", got)
		}
	})
}

// TestDoubled delivers every interaction twice, and several in the wrong order.
func TestDoubled(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.DeliverTwice(3)
		for range 3 {
			w.alice.Type("/help")
		}
		if got := len(w.asks()); got != 3 {
			t.Errorf("the bot was asked %d times", got)
		}
		w.HoldBack(2)
		first, second := w.alice.Begin("/help"), w.alice.Begin("/log")
		first.Wait()
		second.Wait()
	})
}

// TestNobodyIsPinged says everybody's name.
func TestNobodyIsPinged(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		ben := w.club.Member("ben")
		w.answer = func(context.Context, bot.Ask) bot.Reply {
			return bot.Reply{Title: "@everyone", Text: "<@" + ben.ID + "> @here <@&" + w.club.Role("coaches") + ">"}
		}
		if m := w.alice.Type("/baseline").Message(); len(m.Pings) != 0 {
			t.Errorf("%q calls %v", m.Content, m.Pings)
		}
		for _, r := range slices.Concat(w.Requests(discordtest.PostCallback), w.Requests(discordtest.PostedInteraction)) {
			if !strings.Contains(string(r.Payload), `"allowed_mentions":{"parse":[]}`) {
				t.Errorf("it does not say whom to call: %s", r.Payload)
			}
		}
	})
}

// TestTooMuchAtOnce asks more than can be in flight.
func TestTooMuchAtOnce(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().post()
	w.bot.work.most = 1
	hold := make(chan struct{})
	w.bot.pace.deferral = time.Millisecond
	w.answer = func(context.Context, bot.Ask) bot.Reply { <-hold; return bot.Reply{Title: "Here"} }
	first := w.alice.Begin("/baseline")
	first.WaitFirst()
	if got := w.alice.Type("/help"); !strings.Contains(got.Content(), "too busy") || !got.Private() {
		t.Errorf("one too many is told %q", got.Content())
	}
	close(hold)
	first.Wait()
}

// TestTooLate answers after the platform has stopped waiting, at first and at
// last: it is counted, and nothing else comes of it.
func TestTooLate(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	w.Expect(discordtest.AnswerLate)
	w.Expect(discordtest.TokenExpired)
	asked, hold := make(chan bool), make(chan bool)
	w.bot.pace.deferral = time.Hour
	w.answer = func(context.Context, bot.Ask) bot.Reply {
		asked <- true
		<-hold
		return bot.Reply{Title: "At last"}
	}
	late := w.alice.Begin("/log")
	<-asked
	w.Advance(busy + time.Second)
	late.WaitLost()
	hold <- true
	until(t, "the late answer to be counted", func() bool {
		return strings.Contains(w.figures(), `detent_requests_total{command="log",outcome="unanswered"} 1`)
	})

	w.bot.pace.deferral = time.Millisecond
	w.alice.Begin("/baseline").WaitFirst()
	<-asked
	w.Advance(16 * time.Minute)
	hold <- true
	until(t, "the expired token to be counted", func() bool {
		return strings.Contains(w.figures(), `detent_send_failures_total{what="follow"} 1`)
	})
}

// TestOldAndStrangeButtons press what another version of the bot has left.
func TestOldAndStrangeButtons(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	general := w.club.Channel("general")
	row := []component{{Type: rowType, Components: []component{
		{Type: buttonType, Style: secondary, Label: "No line", CustomID: "vote:7"},
		{Type: buttonType, Style: secondary, Label: "No command", CustomID: "/vote option:7"},
	}}}
	m := message{Content: "Old", Components: row, Mentions: mentions{Parse: []string{}}}
	if err := w.bot.send(t.Context(), "post", general.ID, m, "old"); err != nil {
		t.Fatal(err)
	}
	if got := w.alice.Press(general.Messages()[0], "No line"); !strings.Contains(got.Content(), "could not read that") || !got.Private() {
		t.Errorf("answered %q", got.Content())
	}
	if got := w.alice.Press(general.Messages()[0], "No command").Content(); got != "**You said /vote option:7**" {
		t.Errorf("answered %q", got)
	}
}
