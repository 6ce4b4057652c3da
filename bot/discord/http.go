package discord

import (
	"context"
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"time"

	"github.com/bwmarrin/discordgo"

	"detent/bot/discord/rest"
)

const (
	// maxPost is the largest interaction that is read.
	maxPost = 4 << 20

	// signatureAge is how far the time of a signature may be from ours.
	signatureAge = 5 * time.Minute
)

// posted takes interactions that the platform posts, each signed. Any number
// of equal processes may stand behind one address.
type posted struct {
	b   *Bot
	key ed25519.PublicKey
}

// Posted returns the handler for the address that the platform posts
// interactions to. The key is the application's public key, in hexadecimal
// digits.
func (b *Bot) Posted(key string) (http.Handler, error) {
	k, err := hex.DecodeString(key)
	if err != nil || len(k) != ed25519.PublicKeySize {
		return nil, fmt.Errorf("DETENT_DISCORD_PUBLIC_KEY is not a public key: it has %d hexadecimal digits", 2*ed25519.PublicKeySize)
	}
	return &posted{b, k}, nil
}

func (p *posted) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodPost {
		http.Error(w, "interactions are posted here", http.StatusMethodNotAllowed)
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxPost))
	if err != nil {
		http.Error(w, "that is too much", http.StatusRequestEntityTooLarge)
		return
	}
	if !p.genuine(r.Header, body) {
		http.Error(w, "the signature is not the platform's, or it is old", http.StatusUnauthorized)
		return
	}
	i := &discordgo.Interaction{}
	unread := json.Unmarshal(body, i) // what could be read is answered all the same
	switch {
	case i.Type == discordgo.InteractionPing:
		writeAnswer(w, response{Type: pongAnswer})
	case i.ID == "" || i.Token == "":
		p.b.log.Warn("an interaction without its names", "err", unread)
		http.Error(w, "that is no interaction", http.StatusBadRequest)
	default:
		p.answer(w, r, i)
	}
}

// genuine tells whether the platform signed this, and lately.
func (p *posted) genuine(head http.Header, body []byte) bool {
	stamp := head.Get("X-Signature-Timestamp")
	seconds, err := strconv.ParseInt(stamp, 10, 64)
	if err != nil || p.b.config.Now().Sub(time.Unix(seconds, 0)).Abs() > signatureAge {
		return false
	}
	signature, err := hex.DecodeString(head.Get("X-Signature-Ed25519"))
	return err == nil && len(signature) == ed25519.SignatureSize &&
		ed25519.Verify(p.key, append([]byte(stamp), body...), signature)
}

// delivery is a first answer on its way to the post that waits for it.
type delivery struct {
	response
	written chan error
}

// answer holds the post open until the first answer is there, and writes it as
// the answer to the post. The announcement that an answer will follow goes as a
// callback instead: nothing may follow before the platform has it.
func (p *posted) answer(w http.ResponseWriter, r *http.Request, i *discordgo.Interaction) {
	answers, elsewhere, left := make(chan delivery), make(chan struct{}, 1), make(chan struct{})
	defer close(left)
	callback := func(ctx context.Context, out response) error {
		err := p.b.callback(ctx, i.ID, i.Token, out)
		select {
		case elsewhere <- struct{}{}:
		default:
		}
		return err
	}
	fresh := p.b.take(i, func(ctx context.Context, out response) error {
		if out.Type == deferredAnswer {
			return callback(ctx, out)
		}
		d := delivery{out, make(chan error, 1)}
		select {
		case answers <- d:
			return <-d.written
		case <-left:
			return callback(ctx, out)
		}
	})
	if !fresh {
		w.WriteHeader(http.StatusAccepted)
		return
	}
	select {
	case d := <-answers:
		d.written <- writeAnswer(w, d.response)
	case <-elsewhere:
		w.WriteHeader(http.StatusAccepted)
	case <-time.After(p.b.pace.first):
		w.WriteHeader(http.StatusAccepted)
	case <-r.Context().Done():
	}
}

// writeAnswer writes a first answer as the answer to the post that waits for it.
func writeAnswer(w http.ResponseWriter, r response) error {
	body, kind, err := rest.Encode(r, r.files)
	if err != nil {
		w.WriteHeader(http.StatusAccepted)
		return err
	}
	w.Header().Set("Content-Type", kind)
	_, err = w.Write(body)
	return err
}

// callback gives a first answer by a request of its own. It may be made again:
// the platform says when one is there already.
func (b *Bot) callback(ctx context.Context, id, token string, r response) error {
	return b.api.Do(ctx, rest.Call{Method: http.MethodPost, Path: "/interactions/" + id + "/" + token + "/callback",
		Body: r, Files: r.files, Again: true, Patience: b.pace.attempt}, nil)
}
