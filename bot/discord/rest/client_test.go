package rest

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"testing"
)

// toward is a way that ends at a server, wherever it is meant to lead.
func toward(s *httptest.Server) http.RoundTripper { return redirect{s.Listener.Addr().String()} }

type redirect struct{ host string }

func (d redirect) RoundTrip(r *http.Request) (*http.Response, error) {
	r = r.Clone(r.Context())
	r.URL.Scheme, r.URL.Host = "http", d.host
	return http.DefaultTransport.RoundTrip(r)
}

// TestPageOfLimits is a 429 with a page in place of its figures, as a proxy in
// between answers: it is told by its status.
func TestPageOfLimits(t *testing.T) {
	t.Parallel()
	calls := 0
	server := httptest.NewServer(http.HandlerFunc(func(rw http.ResponseWriter, _ *http.Request) {
		if calls++; calls == 1 {
			rw.Header().Set("X-RateLimit-Reset-After", "0.05")
			rw.WriteHeader(http.StatusTooManyRequests)
			fmt.Fprint(rw, "<html>slow down</html>")
			return
		}
		fmt.Fprint(rw, `{"id":"7"}`)
	}))
	defer server.Close()
	c := NewClient("token", toward(server))
	var got struct{ ID string }
	if err := c.Do(t.Context(), Call{Method: "POST", Path: "/channels/1/messages"}, &got); err != nil || got.ID != "7" || calls != 2 {
		t.Errorf("%v after %d calls: %+v", err, calls, got)
	}
}
