package discord

import (
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"detent/bot"
	"detent/tuning"
)

// Whoever looks after the program reads why it cannot answer, and nothing of
// what the database said.
func TestNotReadySaysWhy(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	for want, err := range map[string]error{
		"ready":                        nil,
		"The clocks are apart.":        &bot.Problem{Kind: tuning.Internal, Say: "The clocks are apart.", Err: errors.New("secret")},
		"the database does not answer": errors.New("secret"),
	} {
		answer := httptest.NewRecorder()
		w.bot.Health(false, func(context.Context) error { return err }).ServeHTTP(answer, httptest.NewRequest(http.MethodGet, "/readyz", nil))
		if got := strings.TrimSpace(answer.Body.String()); got != want || (answer.Code == http.StatusOK) != (err == nil) {
			t.Errorf("for %v it says %d %q, want %q", err, answer.Code, got, want)
		}
	}
}
