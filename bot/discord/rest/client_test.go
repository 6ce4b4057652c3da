package rest

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"sync/atomic"
	"testing"
	"time"
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
	var calls atomic.Int64
	server := httptest.NewServer(http.HandlerFunc(func(rw http.ResponseWriter, _ *http.Request) {
		if calls.Add(1) == 1 {
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
	if err := c.Do(t.Context(), Call{Method: "POST", Path: "/channels/1/messages"}, &got); err != nil || got.ID != "7" || calls.Load() != 2 {
		t.Errorf("%v after %d calls: %+v", err, calls.Load(), got)
	}
}

// TestUnsure sees what is known of a request that failed: an attempt whose
// answer was lost may have been done, whatever became of the next.
func TestUnsure(t *testing.T) {
	t.Parallel()
	for name, test := range map[string]struct {
		answers []int // 0 is none
		unsure  bool
	}{
		"refused":                 {[]int{400}, false},
		"lost":                    {[]int{0, 0, 0, 0, 0, 0}, true},
		"broken":                  {[]int{500, 502, 503, 500, 502, 503}, true},
		"lost, and then refused":  {[]int{0, 403}, true},
		"too many":                {[]int{429, 429, 429, 429, 429, 429}, false},
		"lost, and then too many": {[]int{0, 429, 429, 429, 429, 429}, true},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var calls atomic.Int64
			server := httptest.NewServer(http.HandlerFunc(func(rw http.ResponseWriter, _ *http.Request) {
				status := test.answers[calls.Add(1)-1]
				if status == 0 {
					panic(http.ErrAbortHandler)
				}
				rw.WriteHeader(status)
				fmt.Fprint(rw, `{"retry_after":0.001}`)
			}))
			defer server.Close()
			c := NewClient("token", toward(server))
			c.Backoff = time.Microsecond
			err := c.Do(t.Context(), Call{Method: "POST", Path: "/channels/1", Again: true}, nil)
			if err == nil || Unsure(err) != test.unsure || int(calls.Load()) != len(test.answers) {
				t.Errorf("after %d calls: %v, unsure %v", calls.Load(), err, Unsure(err))
			}
		})
	}
}
