package discord

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"detent/bot/discord/discordtest"
)

// TestSignatures sees what is not the platform's, or old, turned away.
func TestSignatures(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	h, err := w.bot.Posted(strings.Repeat("0", 64))
	if err != nil {
		t.Fatal(err)
	}
	h.(*posted).key = w.PublicKey()
	server := httptest.NewServer(h)
	defer server.Close()
	for name, test := range map[string]struct {
		tampering discordtest.Tampering
		want      int
	}{
		"genuine":         {discordtest.Tampering{}, http.StatusOK},
		"four minutes":    {discordtest.Tampering{Age: 4 * time.Minute}, http.StatusOK},
		"six minutes":     {discordtest.Tampering{Age: 6 * time.Minute}, http.StatusUnauthorized},
		"from the future": {discordtest.Tampering{Age: -6 * time.Minute}, http.StatusUnauthorized},
		"forged":          {discordtest.Tampering{Forge: true}, http.StatusUnauthorized},
		"unsigned":        {discordtest.Tampering{Omit: true}, http.StatusUnauthorized},
	} {
		if status, body := w.Ping(server.URL, test.tampering); status != test.want {
			t.Errorf("%s: %d %s", name, status, body)
		}
	}
	for _, body := range []string{"", strings.Repeat("x", maxPost+1)} {
		r, err := http.Post(server.URL, "application/json", strings.NewReader(body))
		if err != nil {
			t.Fatal(err)
		}
		r.Body.Close()
		if r.StatusCode != http.StatusUnauthorized && r.StatusCode != http.StatusRequestEntityTooLarge {
			t.Errorf("%d bytes from a stranger are answered with %d", len(body), r.StatusCode)
		}
	}
	if r, err := http.Get(server.URL); err != nil || r.StatusCode != http.StatusMethodNotAllowed {
		t.Errorf("a visit: %v %v", r, err)
	}
}

func TestKeys(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	for _, key := range []string{"", "00", strings.Repeat("0", 66), strings.Repeat("z", 64)} {
		if _, err := w.bot.Posted(key); err == nil {
			t.Errorf("%q is taken for a key", key)
		}
	}
}

// TestEqualProcesses sees several processes answer in turn, one knowing nothing
// of what another said.
func TestEqualProcesses(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register()
	w.post(w.adapter(), w.adapter())
	for range 6 {
		w.alice.Type("/help")
	}
	if got := len(w.asks()); got != 6 {
		t.Errorf("asked %d times", got)
	}
}
