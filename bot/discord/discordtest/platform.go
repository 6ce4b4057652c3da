package discordtest

import (
	"crypto/ed25519"
	"crypto/rand"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// Platform is one stand-in. Nothing in it is global: tests may run side by side.
type Platform struct {
	// Gateway is the websocket side, with its ways to misbehave.
	Gateway *Gateway

	tb       testing.TB
	server   *httptest.Server
	spec     *spec
	clock    func() time.Time
	patience time.Duration
	deadline time.Duration // of first answers
	key      ed25519.PrivateKey
	token    string
	app, bot string // ids of the application and of its user

	mu      sync.Mutex
	changed *sync.Cond // told of every change of what follows
	closed  bool
	done    chan struct{} // closed with the stand-in, frees hanging answers
	skew    time.Duration
	lastID  uint64

	expected   map[Rule]bool // true once it came, or need not come
	violations []Violation
	requests   []Request
	faults     []pendingFault
	chance     func(Route) Fault
	limits     limits

	guilds       map[string]*Guild // by name
	channels     map[string]*Channel
	people       map[string]*Person // by id
	commands     map[string][]Command
	interactions map[string]*interaction // by token
	messages     map[string]*message
	files        map[string]*storedFile
	nonces       map[string]*message
	opened       []time.Time // when direct message channels were opened
	openLimit    int
	openPer      time.Duration
	invited      *uint64 // what the bot alone may in each guild, nil for what everybody may

	delivery delivery
}

// Setting adjusts a stand-in at its making.
type Setting func(*Platform)

// WithClock replaces the clock that the ages of tokens, answers and
// attachments are measured by.
func WithClock(now func() time.Time) Setting { return func(p *Platform) { p.clock = now } }

// WithPatience sets how long a test waits for something to be shown before it
// fails; ten seconds unless said otherwise.
func WithPatience(d time.Duration) Setting { return func(p *Platform) { p.patience = d } }

// WithFirstAnswer sets how long a first answer is waited for; three seconds, as
// the platform's, unless said otherwise. A test of something else gives a busy
// machine more.
func WithFirstAnswer(d time.Duration) Setting { return func(p *Platform) { p.deadline = d } }

// WithHeartbeat sets the interval that the gateway asks clients to beat at.
func WithHeartbeat(d time.Duration) Setting { return func(p *Platform) { p.Gateway.interval = d } }

// WithInvitation takes the bot into every guild with these permissions alone,
// where everybody else may do nothing by themselves.
func WithInvitation(bits uint64) Setting { return func(p *Platform) { p.invited = &bits } }

// New starts a stand-in that ends with the test.
func New(tb testing.TB, settings ...Setting) *Platform {
	tb.Helper()
	_, key, err := ed25519.GenerateKey(rand.Reader)
	if err != nil {
		tb.Fatal(err)
	}
	p := &Platform{
		tb: tb, key: key, clock: time.Now, patience: 10 * time.Second, deadline: firstAnswerWithin, done: make(chan struct{}),
		token:    "stand-in.token",
		expected: map[Rule]bool{},
		guilds:   map[string]*Guild{}, channels: map[string]*Channel{}, people: map[string]*Person{},
		commands: map[string][]Command{}, interactions: map[string]*interaction{},
		messages: map[string]*message{}, files: map[string]*storedFile{}, nonces: map[string]*message{},
		spec: loadSpec(tb),
	}
	p.changed = sync.NewCond(&p.mu)
	p.app, p.bot = p.newID(), p.newID()
	p.Gateway = newGateway(p)
	for _, set := range settings {
		set(p)
	}
	p.server = httptest.NewServer(p.handler())
	tb.Cleanup(p.close)
	return p
}

// URL is the stand-in's address, scheme and host, for a program that takes the
// platform's address from its configuration.
func (p *Platform) URL() string { return p.server.URL }

// Token is the bot's secret, without the "Bot " before it.
func (p *Platform) Token() string { return p.token }

// ApplicationID is the id of the bot's application.
func (p *Platform) ApplicationID() string { return p.app }

// PublicKey is what signed interactions are checked against.
func (p *Platform) PublicKey() ed25519.PublicKey { return p.key.Public().(ed25519.PublicKey) }

// Now is the platform's own time.
func (p *Platform) Now() time.Time {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.now()
}

// Advance moves the platform's time, so that tokens and attachments age without
// anybody waiting.
func (p *Platform) Advance(d time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.skew += d
	p.changed.Broadcast()
}

// Forget drops what was kept of the past (requests, messages, files and
// interactions that are over), so that a long run does not fill the memory.
func (p *Platform) Forget() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.requests, p.violations = nil, nil
	clear(p.messages)
	clear(p.files)
	clear(p.nonces)
	for token, i := range p.interactions {
		if i.settled() || p.lost(i) {
			delete(p.interactions, token)
		}
	}
	for _, channel := range p.channels {
		channel.messages = nil
	}
}

func (p *Platform) now() time.Time { return p.clock().Add(p.skew) }

// newID makes an id that is unique here, in its low bits, and spreads over
// shards as real ones do, in the bits from 22 on that shards are told by.
func (p *Platform) newID() string {
	p.lastID++
	spread := p.lastID * 0x9E3779B97F4A7C15 >> 44 // multiplicative hashing by the golden ratio, 20 bits
	return strconv.FormatUint(1<<60|spread<<22|p.lastID&(1<<22-1), 10)
}

// handler joins the API, the gateway and the file host on one address.
func (p *Platform) handler() http.Handler {
	api := p.api()
	mux := http.NewServeMux()
	mux.Handle("/api/v9/", http.StripPrefix("/api/v9", api))
	mux.Handle("/api/v10/", http.StripPrefix("/api/v10", api))
	mux.Handle("/gateway/", p.Gateway)
	mux.HandleFunc("GET /attachments/{channel}/{file}/{name}", p.serveFile)
	mux.HandleFunc("GET /ephemeral-attachments/{channel}/{file}/{name}", p.serveFile)
	return mux
}

// close ends the stand-in and reports the violations that were announced but
// did not come.
func (p *Platform) close() {
	p.mu.Lock()
	for rule, met := range p.expected {
		if !met {
			p.tb.Errorf("discordtest: a violation of %s was expected and did not happen", rule)
		}
	}
	p.closed = true
	close(p.done)
	p.mu.Unlock()
	p.Gateway.closeAll()
	p.server.Close() // waits for the answers that are on their way
}

// await waits until done holds, and fails the test when patience ends.
func (p *Platform) await(what string, done func() bool) {
	p.tb.Helper()
	end := time.Now().Add(p.patience)
	wake := time.AfterFunc(p.patience, func() {
		p.mu.Lock()
		defer p.mu.Unlock()
		p.changed.Broadcast()
	})
	defer wake.Stop()
	p.mu.Lock()
	defer p.mu.Unlock()
	for !done() {
		if !time.Now().Before(end) {
			p.tb.Fatalf("discordtest: waited %v in vain for %s", p.patience, what)
		}
		p.changed.Wait()
	}
}

// hosts are the platform's own; the bot may speak to no other.
var hosts = []string{"discord.com", "cdn.discordapp.com", "media.discordapp.net"}

// Client is an HTTP client that finds the stand-in under the platform's three
// host names and reaches nothing else.
func (p *Platform) Client() *http.Client { return &http.Client{Transport: redirect{p}} }

type redirect struct{ p *Platform }

func (r redirect) RoundTrip(request *http.Request) (*http.Response, error) {
	for _, host := range hosts {
		if request.URL.Host == host {
			here := request.Clone(request.Context())
			here.URL.Scheme = "http"
			here.URL.Host = strings.TrimPrefix(r.p.server.URL, "http://")
			here.Host = host
			return r.p.server.Client().Transport.RoundTrip(here)
		}
	}
	r.p.mu.Lock()
	defer r.p.mu.Unlock()
	r.p.violate(ForeignHost, "asked for %s", request.URL.Host)
	return nil, fmt.Errorf("discordtest: no such host: %s", request.URL.Host)
}
