package main

import (
	"bytes"
	"context"
	"encoding/hex"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"detent/bot/discord/discordtest"
	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
)

// loud is a writer for several goroutines.
type loud struct {
	mu sync.Mutex
	bytes.Buffer
}

func (l *loud) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.Buffer.Write(p)
}

func (l *loud) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.Buffer.String()
}

// freeAddress is an address on this machine that nobody listens at.
func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// serving is the whole program serving a stand-in workspace.
type serving struct {
	*discordtest.Platform
	member       *discordtest.Member
	listen, http string
	log          *loud
	stop         context.CancelFunc
	status       chan int
}

// serve starts the program as it is started from a shell.
func serve(t *testing.T, url string, posted bool) *serving {
	t.Helper()
	s := &serving{Platform: discordtest.New(t, leastInvited), listen: freeAddress(t), log: &loud{}, status: make(chan int, 1)}
	s.member = s.Guild("Windy Hill").Member("robin")
	args := []string{"--database-url", url, "serve", "--token", s.Token(), "--api", s.URL(), "--listen", s.listen}
	if posted {
		s.http = freeAddress(t)
		args = append(args, "--http", s.http, "--public-key", hex.EncodeToString(s.PublicKey()))
	}
	ctx, stop := context.WithCancel(context.Background())
	s.stop = stop
	go func() { s.status <- run(ctx, args, os.Stdin, io.Discard, s.log) }()
	t.Cleanup(func() {
		stop()
		<-s.status
		s.status <- 0
	})
	s.AwaitRequests(discordtest.PutCommands, 1)
	s.await(t, "/readyz", "ready")
	if posted {
		s.DeliverTo("http://" + s.http)
	}
	return s
}

// awaitLog waits for words in the log.
func (s *serving) awaitLog(t *testing.T, want string) {
	t.Helper()
	for end := time.Now().Add(10 * time.Second); !strings.Contains(s.log.String(), want); {
		if time.Now().After(end) {
			t.Fatalf("the log lacks %q:\n%s", want, s.log)
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// await asks for a page of health until it is well and has what is wanted.
func (s *serving) await(t *testing.T, path, want string) {
	t.Helper()
	for end := time.Now().Add(10 * time.Second); ; {
		r, err := http.Get("http://" + s.listen + path)
		if err == nil {
			body, _ := io.ReadAll(r.Body)
			r.Body.Close()
			if r.StatusCode == http.StatusOK && strings.Contains(string(body), want) {
				return
			}
		}
		if time.Now().After(end) {
			t.Fatalf("%s does not show %q: %v\n%s", path, want, err, s.log)
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// TestServe runs the whole program over both ways in: it registers, answers,
// shows its health and figures, logs nothing that was said, and stops.
func TestServe(t *testing.T) {
	for name, posted := range map[string]bool{"gateway": false, "posted": true} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := serve(t, storetest.URL(t), posted)
			if got := s.member.Type(`/car add name:"Secret hatch" drive:front engine:front`).Content(); !strings.Contains(got, "Secret hatch is saved") {
				t.Fatalf("answered %q", got)
			}
			if code := run(t.Context(), []string{"health", "--listen", s.listen}, os.Stdin, io.Discard, io.Discard); code != exitAnswered {
				t.Errorf("health ends with %d", code)
			}
			for _, want := range []string{`detent_requests_total{command="car add",outcome="answered"} 1`, "detent_first_answer_seconds_count 1", "detent_due_messages 0"} {
				s.await(t, "/metrics", want)
			}
			s.stop()
			begun := time.Now()
			code := <-s.status
			s.status <- code
			if code != exitAnswered || time.Since(begun) > graceful {
				t.Errorf("stopped with %d after %v:\n%s", code, time.Since(begun), s.log)
			}
			for _, secret := range []string{s.Token(), "Secret hatch"} {
				if strings.Contains(s.log.String(), secret) {
					t.Errorf("the log holds %q", secret)
				}
			}
			if !strings.Contains(s.log.String(), `"command":"car add"`) {
				t.Errorf("the log lacks the answer:\n%s", s.log)
			}
			if code := run(t.Context(), []string{"health", "--listen", s.listen}, os.Stdin, io.Discard, io.Discard); code != exitProblem {
				t.Errorf("health of a program that is gone ends with %d", code)
			}
		})
	}
}

// The program warns once of a login that may do more than serving needs.
func TestServeWarnsOfTheOwner(t *testing.T) {
	t.Parallel()
	s := serve(t, storetest.URL(t), false) // as the server's superuser
	const warning = `"msg":"the database lets its user do more than serving needs`
	s.awaitLog(t, warning)
	if n := strings.Count(s.log.String(), warning); n != 1 {
		t.Errorf("it is told %d times:\n%s", n, s.log)
	}
}

func TestServeForgetsOldReplies(t *testing.T) {
	t.Parallel()
	url := storetest.URL(t)
	db, err := store.Open(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	runs := 0
	ask := func() {
		t.Helper()
		who, long := tuning.Who{Club: "harrow", Person: "robin"}, time.Now().AddDate(0, 0, -40)
		if _, err := db.Once(t.Context(), who, long, "r-1", func(*store.Book) ([]byte, error) { runs++; return nil, nil }); err != nil {
			t.Fatal(err)
		}
	}
	ask()
	serve(t, url, false).awaitLog(t, `"forgot old replies","many":1`)
	if ask(); runs != 2 {
		t.Error("what was asked long ago is still answered with the first reply")
	}
}

func TestServeRefusesWhatCannotWork(t *testing.T) {
	key := strings.Repeat("0", 64)
	for name, test := range map[string]struct {
		args []string
		say  string
	}{
		"no token":        {[]string{}, "DETENT_DISCORD_TOKEN"},
		"no key":          {[]string{"--token", "t", "--http", "127.0.0.1:0"}, "DETENT_DISCORD_PUBLIC_KEY"},
		"no such part":    {[]string{"--token", "t", "--shard", "2", "--shards", "2"}, "DETENT_DISCORD_SHARD"},
		"not an address":  {[]string{"--token", "t", "--api", "nowhere"}, "DETENT_DISCORD_API"},
		"another machine": {[]string{"--token", "t", "--api", "http://192.0.2.7:80"}, "loopback"},
		"a near name":     {[]string{"--token", "t", "--api", "http://localhost.example.org"}, "loopback"},
		"far, encrypted":  {[]string{"--token", "t", "--api", "https://api.example.org"}, "loopback"},
		"encrypted":       {[]string{"--token", "t", "--api", "https://127.0.0.1"}, "http://"},
		"half a key": {[]string{"--token", "t", "--http", "127.0.0.1:0", "--public-key", key[:62], "--listen", "127.0.0.1:0",
			"--api", "http://127.0.0.1:1"}, "DETENT_DISCORD_PUBLIC_KEY"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			errs := &loud{}
			args := append([]string{"--database-url", storetest.URL(t), "serve"}, test.args...)
			if code := run(t.Context(), args, os.Stdin, io.Discard, errs); code != exitWrongUse || !strings.Contains(errs.String(), test.say) {
				t.Errorf("ends with %d: %s", code, errs)
			}
		})
	}
}

// TestServeEndsForGood ends with a status of its own where starting again can
// never help.
func TestServeEndsForGood(t *testing.T) {
	t.Parallel()
	p := discordtest.New(t, leastInvited)
	p.Gateway.Refuse(discordtest.CloseDisallowedIntents)
	errs := &loud{}
	args := []string{"--database-url", storetest.URL(t), "serve", "--token", p.Token(), "--api", p.URL(), "--listen", "127.0.0.1:0"}
	if code := run(t.Context(), args, os.Stdin, io.Discard, errs); code != exitRefused || !strings.Contains(errs.String(), "4014") {
		t.Errorf("ends with %d: %s", code, errs)
	}
}
