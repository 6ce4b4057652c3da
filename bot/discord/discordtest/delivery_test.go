package discordtest

import (
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"strconv"
	"sync/atomic"
	"testing"
	"time"
)

// genuine checks a signature as a bot must: it fits, and it is fresh.
func genuine(key ed25519.PublicKey, r *http.Request, body []byte) bool {
	timestamp := r.Header.Get("X-Signature-Timestamp")
	signature, err := hex.DecodeString(r.Header.Get("X-Signature-Ed25519"))
	seconds, bad := strconv.ParseInt(timestamp, 10, 64)
	return err == nil && bad == nil && time.Since(time.Unix(seconds, 0)).Abs() < 5*time.Second &&
		ed25519.Verify(key, append([]byte(timestamp), body...), signature)
}

// replier is a bot behind an HTTP address that gives its first answers as the
// bodies of its responses.
func replier(t *testing.T, p *Platform, reply func(a arrival, rw http.ResponseWriter)) string {
	server := httptest.NewServer(http.HandlerFunc(func(rw http.ResponseWriter, r *http.Request) {
		body, _ := io.ReadAll(r.Body)
		if !genuine(p.PublicKey(), r, body) {
			rw.WriteHeader(http.StatusUnauthorized)
			return
		}
		var a arrival
		if err := json.Unmarshal(body, &a); err != nil {
			t.Error(err)
		}
		rw.Header().Set("Content-Type", "application/json")
		if a.Type == kindPing {
			io.WriteString(rw, `{"type":1}`)
			return
		}
		reply(a, rw)
	}))
	t.Cleanup(server.Close)
	return server.URL
}

func TestSigned(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	var served [2]atomic.Int32
	equal := func(n int) string {
		return replier(t, w.Platform, func(a arrival, rw http.ResponseWriter) {
			served[n].Add(1)
			switch a.Type {
			case kindCommand:
				contentType, body := multipartBody(t, `{"type":4,"data":{"allowed_mentions":{"parse":[]},"content":"Here","flags":64,"attachments":[{"id":"0","description":"A picture"}],"components":[{"type":1,"components":[{"type":2,"style":1,"label":"Form","custom_id":"form"}]}]}}`, "grip.png", []byte("PNG"))
				rw.Header().Set("Content-Type", contentType)
				body.WriteTo(rw)
			case kindComponent:
				io.WriteString(rw, `{"type":9,"data":{"custom_id":"form","title":"Form","components":[{"type":1,"components":[{"type":4,"custom_id":"mass","label":"Mass","style":1}]}]}}`)
			case kindForm:
				io.WriteString(rw, `{"type":7,"data":{"allowed_mentions":{"parse":[]},"content":"Done","components":[]}}`)
			case kindAutocomplete:
				io.WriteString(rw, `{"type":8,"data":{"choices":[{"name":"Twelve","value":12}]}}`)
			}
		})
	}
	w.register(obj{"name": "go", "description": "Go", "options": list{with(option(4, "clicks"), "autocomplete", true)}})
	w.DeliverTo(equal(0), equal(1))

	reply := w.alice.Type("/go clicks:3")
	if files := reply.Files(); reply.Content() != "Here" || !reply.Private() || len(files) != 1 || files[0].Description != "A picture" {
		t.Errorf("reply: %+v", reply.Message())
	}
	if last := reply.Press("Form").Form().Fill(map[string]string{"Mass": "1250"}).Submit(); last.Content() != "Done" || len(last.Buttons()) != 0 {
		t.Errorf("last: %+v", last.Message())
	}
	if got := w.alice.Autocomplete("/go clicks:t"); len(got) != 1 || got[0].Name != "Twelve" {
		t.Errorf("offered %v", got)
	}
	if served[0].Load() != 2 || served[1].Load() != 2 {
		t.Errorf("served %d and %d", served[0].Load(), served[1].Load())
	}
	if len(w.record.errors) > 0 {
		t.Error(w.record.errors)
	}
}

func TestTampering(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	for name, test := range map[string]struct {
		tampering Tampering
		status    int
	}{
		"genuine": {Tampering{}, 200},
		"forged":  {Tampering{Forge: true}, 401},
		"omitted": {Tampering{Omit: true}, 401},
		"stale":   {Tampering{Age: time.Minute}, 401},
	} {
		if status, body := w.Ping(w.endpoint, test.tampering); status != test.status {
			t.Errorf("%s: %d %s", name, status, body)
		}
	}
}
