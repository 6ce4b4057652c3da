package discord

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"mime/multipart"
	"net/http"
	"net/textproto"
	"strings"
	"time"
)

const (
	apiBase   = "https://discord.com/api/v10"
	userAgent = "DiscordBot (detent, 1)"

	// maxAnswer is the most that is read of an answer.
	maxAnswer = 16 << 20
)

// client makes requests of the platform's HTTP API. It holds no lock while it
// sends, so one slow answer keeps nobody waiting, and it ends with the context.
type client struct {
	http    *http.Client
	token   string
	metrics *Metrics
	backoff time.Duration // the longest wait before the second attempt
}

func newClient(token string, transport http.RoundTripper, metrics *Metrics) *client {
	return &client{
		http: &http.Client{Transport: newLimiter(transport)}, token: token, metrics: metrics,
		backoff: 200 * time.Millisecond,
	}
}

// attempts bounds how often a request is made.
const attempts = 6

// call is one request. Again tells that making it twice does no harm; an
// attempt that takes longer than patience is given up for the next.
type call struct {
	method, path string
	body         any
	files        []file
	again        bool
	patience     time.Duration // 0 is ordinary
}

// ordinary is how long an attempt may take when nobody waits for it.
const ordinary = 10 * time.Second

// Refusal is the platform's no: the status, its own code and its words.
type Refusal struct {
	Status  int
	Code    int    `json:"code"`
	Message string `json:"message"`
}

func (r *Refusal) Error() string {
	return fmt.Sprintf("the platform answered %d, code %d: %s", r.Status, r.Code, r.Message)
}

// The platform's codes that mean something here.
const (
	codeNoMessage    = 10008 // the message is gone
	codeAnswered     = 40060 // a first answer is there already
	codeTooFast      = 40003 // direct messages are opened too fast
	codeNoDirect     = 50007 // the person takes no direct messages
	codeNoDirectHere = 50278 // nor from this bot, having no club in common
)

func asRefusal(err error) (*Refusal, bool) { return errors.AsType[*Refusal](err) }

func isRefusal(err error, code int) bool {
	r, ok := asRefusal(err)
	return ok && r.Code == code
}

// do makes a request until it succeeds, is refused for good, or the context
// ends. Whether an answer that failed is worth another attempt is judged by its
// status: what stands between the platform and us answers with pages.
func (c *client) do(ctx context.Context, q call, into any) error {
	body, kind, err := encode(q.body, q.files)
	if err != nil {
		return err
	}
	for n := 0; ; n++ {
		err = c.once(ctx, q, body, kind, into)
		if err == nil || n == attempts-1 || ctx.Err() != nil || !worthAnother(err, q.again) {
			return err
		}
		c.metrics.retried(q)
		select {
		case <-time.After(rand.N(c.backoff << n)):
		case <-ctx.Done():
			return err
		}
	}
}

func worthAnother(err error, again bool) bool {
	r, refused := asRefusal(err)
	switch {
	case !refused: // no answer, or half of one
		return again
	case r.Status == http.StatusTooManyRequests: // nothing was done; the limiter knows until when to wait
		return true
	}
	return r.Status >= 500 && again
}

func (c *client) once(ctx context.Context, q call, body []byte, kind string, into any) error {
	ctx, cancel := context.WithTimeout(ctx, cmp.Or(q.patience, ordinary))
	defer cancel()
	request, err := http.NewRequestWithContext(ctx, q.method, apiBase+q.path, bytes.NewReader(body))
	if err != nil {
		return err
	}
	request.Header.Set("User-Agent", userAgent)
	if kind != "" {
		request.Header.Set("Content-Type", kind)
	}
	if !byToken(q.path) {
		request.Header.Set("Authorization", "Bot "+c.token)
	}
	response, err := c.http.Do(request)
	if err != nil {
		return withoutAddress(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(io.LimitReader(response.Body, maxAnswer))
	if err != nil {
		return withoutAddress(err)
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

// callback gives the first answer to an interaction. It may be made again: the
// platform says when one is there already.
func (c *client) callback(ctx context.Context, id, token string, r response) error {
	return c.do(ctx, call{method: http.MethodPost, path: "/interactions/" + id + "/" + token + "/callback",
		body: r, files: r.files, again: true, patience: time.Second}, nil)
}

// byToken tells whether a path is opened by an interaction's token. Such paths
// need no secret and do not count towards the bot's requests in a second.
func byToken(path string) bool {
	return strings.Contains(path, "/interactions/") || strings.Contains(path, "/webhooks/")
}

// encode writes a body as JSON, or as a form with the files beside it.
func encode(body any, files []file) (data []byte, kind string, err error) {
	if body == nil {
		return nil, "", nil
	}
	data, err = json.Marshal(body)
	if err != nil || len(files) == 0 {
		return data, "application/json", err
	}
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	part := func(disposition, kind string, content []byte) {
		if err != nil {
			return
		}
		var p io.Writer
		if p, err = w.CreatePart(textproto.MIMEHeader{"Content-Disposition": {disposition}, "Content-Type": {kind}}); err == nil {
			_, err = p.Write(content)
		}
	}
	part(`form-data; name="payload_json"`, "application/json", data)
	for i, f := range files {
		part(fmt.Sprintf(`form-data; name="files[%d]"; filename=%q`, i, f.name), f.kind, f.data)
	}
	err = errors.Join(err, w.Close())
	return b.Bytes(), w.FormDataContentType(), err
}
