package discordtest

import (
	"context"
	"io"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"
)

// fetch asks for the bot's user and returns the answer whole.
func (w *httpClub) fetch(ctx context.Context) (*http.Response, string, error) {
	request, err := http.NewRequestWithContext(ctx, "GET", "https://discord.com/api/v9/users/@me", nil)
	if err != nil {
		w.t.Fatal(err)
	}
	request.Header.Set("Authorization", "Bot "+w.Token())
	response, err := w.Client().Do(request)
	if err != nil {
		return nil, "", err
	}
	defer response.Body.Close()
	body, err := io.ReadAll(response.Body)
	return response, string(body), err
}

func TestFaults(t *testing.T) {
	t.Parallel()
	for name, test := range map[string]struct {
		fault  Fault
		status int
		body   string
		header map[string]string
	}{
		"status":       {Status(503), 503, `"message":"503: Service Unavailable"`, map[string]string{"Content-Type": "application/json"}},
		"page":         {HTML(502), 502, "<html>", map[string]string{"Content-Type": "text/html; charset=UTF-8"}},
		"limited":      {RateLimited(1500 * time.Millisecond), 429, `"retry_after":1.5`, map[string]string{"X-RateLimit-Reset-After": "1.500", "X-RateLimit-Remaining": "0", "X-RateLimit-Global": "", "Retry-After": "2"}},
		"everywhere":   {RateLimitedGlobally(time.Second), 429, `"global":true`, map[string]string{"X-RateLimit-Global": "true", "X-RateLimit-Scope": "global"}},
		"bare":         {RateLimitedGlobally(time.Second).Bare(), 429, `"retry_after":1`, map[string]string{"X-RateLimit-Global": "", "X-RateLimit-Remaining": "", "Retry-After": ""}},
		"limited page": {RateLimited(time.Second).Page(), 429, "<html>", map[string]string{"Retry-After": "2"}},
		"slow":         {Slow(time.Millisecond), 200, `"bot":true`, nil},
		"nothing":      {Fault{}, 200, `"bot":true`, map[string]string{"X-RateLimit-Remaining": "999"}},
		"after it":     {Status(500).Done(), 500, `"code":0`, nil},
		"bad gateway":  {Status(502), 502, `"code":0`, nil},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newHTTPClub(t)
			w.Break(GetMe, test.fault)
			response, body, err := w.fetch(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			if response.StatusCode != test.status || !strings.Contains(body, test.body) {
				t.Errorf("%d %s", response.StatusCode, body)
			}
			for key, want := range test.header {
				if got := response.Header.Get(key); got != want {
					t.Errorf("%s: %q, want %q", key, got, want)
				}
			}
		})
	}
}

// TestLostConnections sees the faults that give no answer at all, and that the
// route is well again after them.
func TestLostConnections(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	w.Break(AnyRoute, Times(3, Drop())...) // three: the transport tries a GET again by itself
	if _, _, err := w.fetch(t.Context()); err == nil {
		t.Error("a dropped connection answers")
	}
	w.mu.Lock()
	w.faults = nil
	w.mu.Unlock()
	w.Break(GetMe, Hang())
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	if _, _, err := w.fetch(ctx); err == nil || ctx.Err() == nil {
		t.Errorf("a hanging route answers: %v", err)
	}
	if response, _, err := w.fetch(t.Context()); err != nil || response.StatusCode != 200 {
		t.Errorf("afterwards: %v, %v", response, err)
	}
}

// TestChance lets a test decide about every request, and tolerates what comes of it.
func TestChance(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	w.Tolerate(RateIgnored, RateGlobal)
	n := 0
	w.BreakBy(func(route Route) Fault {
		if n++; route == GetMe && n%2 == 0 {
			return Status(500)
		}
		return Fault{}
	})
	w.Break(GetMe, Status(503))
	var got []int
	for range 4 {
		status, _ := w.ask("GET", "/users/@me", nil)
		got = append(got, status)
	}
	if !slices.Equal(got, []int{503, 200, 500, 200}) {
		t.Errorf("got %v", got)
	}
}

// TestPauses sees how far a 429 reaches and that keeping still is enough.
func TestPauses(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	get := func(path string) int { status, _ := w.ask("GET", path, nil); return status }

	w.Break(GetMe, RateLimited(time.Minute))
	if a, b := get("/users/@me"), get("/gateway"); a != 429 || b != 200 {
		t.Errorf("one route: %d, another %d", a, b)
	}
	w.Advance(time.Minute)
	if got := get("/users/@me"); got != 200 {
		t.Errorf("after the pause: %d", got)
	}

	_, a := w.begin()
	w.Break(GetMe, RateLimitedGlobally(time.Minute))
	get("/users/@me")
	w.Expect(RateIgnored)
	w.Advance(time.Second)
	if got := get("/gateway"); got != 429 {
		t.Errorf("another route in a global pause: %d", got)
	}
	if status, _ := w.answer(a, answerMessage, obj{"content": "x"}); status != 204 {
		t.Errorf("an answer to an interaction in a global pause: %d", status)
	}
	if len(w.record.errors) > 0 {
		t.Error(w.record.errors)
	}
}

// TestLostAnswer sees that a message whose answer was lost is not doubled when
// it is sent again with its nonce.
func TestLostAnswer(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	reminder := obj{"content": "Tomorrow", "nonce": "reminder-7", "enforce_nonce": true}
	w.Break(PostMessage, Status(502).Done())
	if status, _ := w.post(reminder); status != 502 {
		t.Errorf("first: %d", status)
	}
	if status, _ := w.post(reminder); status != 200 {
		t.Errorf("again: %d", status)
	}
	if n := len(w.general.Messages()); n != 1 {
		t.Errorf("%d messages", n)
	}
	w.post(obj{"content": "Tomorrow", "nonce": "reminder-7"})
	if n := len(w.general.Await(2)); n != 2 {
		t.Errorf("%d messages without enforcing", n)
	}
}

// TestLostInteractions sees what the person is told when nobody answers.
func TestLostInteractions(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	w.register(obj{"name": "go", "description": "Go"})
	if why := w.alice.Begin("/go").WaitLost(); why != "the bot is not connected" {
		t.Errorf("without a bot: %s", why)
	}
	reply, _ := w.begin()
	w.Advance(firstAnswerWithin + time.Millisecond)
	if why := reply.WaitLost(); !strings.Contains(why, "3s") {
		t.Errorf("without an answer: %s", why)
	}
	w.delivery.urls = []string{constant(t, http.StatusInternalServerError)}
	if why := w.alice.Begin("/go").WaitLost(); !strings.Contains(why, "answered 500") {
		t.Errorf("with an error: %s", why)
	}
}

func TestOrderOfDelivery(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	_, first := w.begin()
	w.DeliverTwice(1)
	w.alice.Begin("/go")
	if a, b := <-w.arrivals, <-w.arrivals; a != b || a == first {
		t.Errorf("doubled: %v and %v", a, b)
	}

	conn := w.dial()
	w.identify(conn, nil)
	w.expect(conn, "GUILD_CREATE")
	w.mu.Lock()
	w.delivery.urls = nil
	w.mu.Unlock()
	w.HoldBack(2)
	early, late := w.alice.Begin("/go"), w.alice.Begin("/go")
	for _, want := range []*Reply{late, early} {
		var message struct{ D arrival }
		if err := conn.ReadJSON(&message); err != nil || message.D.ID != want.i.id {
			t.Errorf("held back: %v, %v", message, err)
		}
	}
}

func TestAccess(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	bob := w.alice.Guild.Member("bob")
	open := func(m *Member) (int, int) {
		return w.ask("POST", "/users/@me/channels", obj{"recipient_id": m.ID})
	}
	direct := func(m *Member) (int, int) {
		return w.ask("POST", "/channels/"+m.Inbox().ID+"/messages", obj{"content": "x"})
	}
	w.LimitDirect(1, time.Minute)
	for _, step := range []struct {
		what         string
		do           func() (int, int)
		status, code int
	}{
		{"opening", func() (int, int) { return open(w.alice) }, 200, 0},
		{"opening the same", func() (int, int) { return open(w.alice) }, 200, 0},
		{"opening too fast", func() (int, int) { return open(bob) }, 400, 40003},
		{"opening later", func() (int, int) { w.Advance(2 * time.Minute); return open(bob) }, 200, 0},
		{"opening for nobody", func() (int, int) {
			return w.ask("POST", "/users/@me/channels", obj{"recipient_id": "42"})
		}, 400, 50033},
		{"direct", func() (int, int) { return direct(w.alice) }, 200, 0},
		{"closed", func() (int, int) { w.alice.CloseDirect(50007); return direct(w.alice) }, 403, 50007},
		{"no mutual guild", func() (int, int) { bob.CloseDirect(50278); return direct(bob) }, 403, 50278},
		{"open again", func() (int, int) { bob.OpenDirect(); return direct(bob) }, 200, 0},
		{"hidden", func() (int, int) { w.general.Hide(); return w.post(obj{"content": "x"}) }, 403, 50001},
		{"read only", func() (int, int) { w.general.Open().ReadOnly(); return w.post(obj{"content": "x"}) }, 403, 50013},
		{"welcome", func() (int, int) { w.general.Open(); return w.post(obj{"content": "x"}) }, 200, 0},
		{"removed", func() (int, int) { w.alice.Guild.Remove(); return w.post(obj{"content": "x"}) }, 403, 50001},
		{"a guild long gone", func() (int, int) { return w.ask("GET", "/guilds/"+w.alice.Guild.ID, nil) }, 404, 10004},
		{"no such channel", func() (int, int) { return w.ask("POST", "/channels/1/messages", obj{"content": "x"}) }, 404, 10003},
	} {
		if status, code := step.do(); status != step.status || code != step.code {
			t.Errorf("%s: %d %d, want %d %d", step.what, status, code, step.status, step.code)
		}
	}
	if len(w.record.errors) > 0 {
		t.Error(w.record.errors)
	}
}
