package rest

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"io"
	"math/rand/v2"
	"net/http"
	"net/url"
	"time"
)

const (
	apiBase   = "https://discord.com/api/v10"
	userAgent = "DiscordBot (detent, 1)"

	// maxAnswer is the most that is read of an answer.
	maxAnswer = 16 << 20
)

// Client makes requests. It holds no lock while it sends, so one slow answer
// keeps nobody waiting, and it ends with the context.
type Client struct {
	Token   string              // the bot's secret
	Backoff time.Duration       // the longest wait before the second attempt; it doubles with each
	Retried func(method string) // told of every attempt after the first, nil for nobody
	http    *http.Client
}

// NewClient returns a client that reaches the platform by a transport.
func NewClient(token string, transport http.RoundTripper) *Client {
	return &Client{Token: token, Backoff: 200 * time.Millisecond, http: &http.Client{Transport: newLimiter(transport)}}
}

// Transport is the way to the platform within its limits, for requests that are
// made elsewhere.
func (c *Client) Transport() http.RoundTripper { return c.http.Transport }

// Attempts is how often a request is made at most.
const Attempts = 6

// Do makes a request until it succeeds, is refused for good, or the context
// ends. Unsure tells of its error whether the platform may have done it all the
// same. Whether an answer that failed is worth another attempt is judged by its
// status: what stands between the platform and us answers with pages.
func (c *Client) Do(ctx context.Context, q Call, into any) error {
	body, kind, err := Encode(q.Body, q.Files)
	if err != nil {
		return err
	}
	unsure := false
	for n := 0; ; n++ {
		err = c.once(ctx, q, body, kind, into)
		unsure = unsure || err != nil && !surelyUndone(err)
		if err == nil || n == Attempts-1 || ctx.Err() != nil || !worthAnother(err, q.Again) {
			return doubted(err, unsure)
		}
		if c.Retried != nil {
			c.Retried(q.Method)
		}
		if Wait(ctx, rand.N(c.Backoff<<n)) != nil {
			return doubted(err, unsure)
		}
	}
}

func worthAnother(err error, again bool) bool {
	r, refused := AsRefusal(err)
	switch {
	case !refused: // no answer, or half of one
		return again
	case r.Status == http.StatusTooManyRequests: // nothing was done; the limiter knows until when to wait
		return true
	}
	return r.Status >= 500 && again
}

func (c *Client) once(ctx context.Context, q Call, body []byte, kind string, into any) error {
	ctx, cancel := context.WithTimeout(ctx, cmp.Or(q.Patience, patience))
	defer cancel()
	request, err := http.NewRequestWithContext(ctx, q.Method, apiBase+q.Path, bytes.NewReader(body))
	if err != nil {
		return err
	}
	request.Header.Set("User-Agent", userAgent)
	if kind != "" {
		request.Header.Set("Content-Type", kind)
	}
	if !byToken(q.Path) {
		request.Header.Set("Authorization", "Bot "+c.Token)
	}
	response, err := c.http.Do(request)
	if err != nil {
		return WithoutAddress(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(io.LimitReader(response.Body, maxAnswer))
	if err != nil {
		return WithoutAddress(err)
	}
	if response.StatusCode >= 300 {
		r := &Refusal{}
		if json.Unmarshal(text, r) != nil {
			r.Message = "not JSON"
		}
		r.Status = response.StatusCode
		return r
	}
	if into == nil {
		return nil
	}
	return json.Unmarshal(text, into)
}

// WithoutAddress drops the address from an error: those of files carry a key,
// those of interactions their token.
func WithoutAddress(err error) error {
	if e, ok := errors.AsType[*url.Error](err); ok {
		return e.Err
	}
	return err
}
