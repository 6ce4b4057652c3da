package discordtest

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strconv"
	"time"
)

// delivery is how interactions reach the bot: over the gateway, or posted to
// one of its addresses in turn.
type delivery struct {
	urls   []string
	turn   int
	double int
	hold   int
	held   []*interaction
}

// DeliverTo posts interactions to the bot's addresses in turn from now on,
// signed, instead of sending them over the gateway. As the platform does when
// an address is entered, it first asks each for a PONG and tries it with a
// forged signature.
func (p *Platform) DeliverTo(urls ...string) {
	p.tb.Helper()
	for _, url := range urls {
		status, body := p.Ping(url, Tampering{})
		forged, _ := p.Ping(url, Tampering{Forge: true})
		var pong struct{ Type int }
		bad := json.Unmarshal(body, &pong)
		p.mu.Lock()
		if status != http.StatusOK || bad != nil || pong.Type != answerPong {
			p.violate(PingUnproved, "%s answered PING with %d %s", url, status, body)
		}
		if forged != http.StatusUnauthorized {
			p.violate(SignatureOpen, "%s answered a forged signature with %d", url, forged)
		}
		p.mu.Unlock()
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.delivery.urls = urls
}

// DeliverTwice doubles the next n interactions.
func (p *Platform) DeliverTwice(n int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.delivery.double = n
}

// HoldBack keeps the next n interactions until all are there and delivers them
// in reverse order.
func (p *Platform) HoldBack(n int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.delivery.hold = n
}

// deliver sends an interaction on its way; p.mu is held.
func (p *Platform) deliver(i *interaction) {
	d := &p.delivery
	if d.hold > 0 {
		d.held = append(d.held, i)
		if d.hold--; d.hold > 0 {
			return
		}
		slices.Reverse(d.held)
		for _, held := range d.held {
			p.send(held)
		}
		d.held = nil
		return
	}
	p.send(i)
}

func (p *Platform) send(i *interaction) {
	i.born = p.now()
	times := 1
	if p.delivery.double > 0 {
		p.delivery.double--
		times = 2
	}
	body := p.interactionJSON(i)
	for range times {
		if urls := p.delivery.urls; len(urls) > 0 {
			url := urls[p.delivery.turn%len(urls)]
			p.delivery.turn++
			go p.post(url, i, body)
			continue
		}
		guild := ""
		if i.by.Guild != nil {
			guild = i.by.Guild.ID
		}
		if !p.Gateway.dispatch(guild, "INTERACTION_CREATE", json.RawMessage(body)) {
			i.failure = "the bot is not connected"
		}
	}
	p.changed.Broadcast()
}

// post sends an interaction to the bot's address and takes what comes back as
// its first answer.
func (p *Platform) post(url string, i *interaction, body []byte) {
	status, header, data, err := p.postSigned(url, body, Tampering{})
	p.mu.Lock()
	defer p.mu.Unlock()
	defer p.changed.Broadcast()
	if p.closed {
		return
	}
	p.requests = append(p.requests, Request{Route: PostedInteraction, Path: url, At: p.now(), Payload: data, Status: status})
	switch {
	case status == http.StatusOK && len(data) > 0:
		payload, files, parts, err := readPayload(header.Get("Content-Type"), data)
		if err != nil {
			p.violate(MalformedBody, "the answer to the %s: %v", i, err)
			i.failure = err.Error()
			return
		}
		if a := p.firstAnswer(i, payload, files, parts); a.status >= 400 && i.answered == unanswered {
			i.failure = fmt.Sprintf("its answer was refused: %v", a.body)
		}
	case status == http.StatusAccepted || status == http.StatusNoContent || i.answered != unanswered:
		// The first answer came, or will come, through the API.
	case err != nil:
		i.failure = err.Error()
	default:
		i.failure = fmt.Sprintf("%s answered %d %.200s", url, status, data)
	}
}

// Tampering is what is wrong with a posted interaction; the zero value is genuine.
type Tampering struct {
	Age   time.Duration // how old the timestamp is
	Forge bool          // the signature does not fit
	Omit  bool          // there is none
}

// Ping posts a PING to the bot's address and returns what it answers.
func (p *Platform) Ping(url string, tampering Tampering) (status int, body []byte) {
	p.tb.Helper()
	ping := fmt.Sprintf(`{"id":"1","application_id":%q,"type":1,"token":"ping","version":1}`, p.app)
	status, _, body, err := p.postSigned(url, []byte(ping), tampering)
	if err != nil {
		p.tb.Errorf("discordtest: %v", err)
	}
	return status, body
}

// postSigned signs timestamp and body, as the documentation of interactions
// over HTTP says, and posts them. The timestamp is the real time, not the
// platform's, because the bot holds it against its own clock.
func (p *Platform) postSigned(url string, body []byte, t Tampering) (int, http.Header, []byte, error) {
	ctx, cancel := context.WithTimeout(context.Background(), p.patience)
	defer cancel()
	go func() {
		select {
		case <-p.done:
			cancel()
		case <-ctx.Done():
		}
	}()
	request, err := http.NewRequestWithContext(ctx, http.MethodPost, url, bytes.NewReader(body))
	if err != nil {
		return 0, nil, nil, err
	}
	timestamp := strconv.FormatInt(p.clock().Add(-t.Age).Unix(), 10)
	signature := ed25519.Sign(p.key, append([]byte(timestamp), body...))
	if t.Forge {
		signature[0] ^= 1
	}
	request.Header.Set("Content-Type", "application/json")
	request.Header.Set("X-Signature-Timestamp", timestamp)
	if !t.Omit {
		request.Header.Set("X-Signature-Ed25519", hex.EncodeToString(signature))
	}
	response, err := p.server.Client().Do(request)
	if err != nil {
		return 0, nil, nil, err
	}
	defer response.Body.Close()
	data, err := io.ReadAll(response.Body)
	return response.StatusCode, response.Header, data, err
}
