package discord

import (
	"context"
	"net/http"
	"time"

	"detent/bot"
)

// Health serves how the bot is: /healthz whether it is alive, /readyz whether
// it can answer, /metrics in figures. Both ask for the gateway when that is how
// interactions come, and the second for what ready asks.
func (b *Bot) Health(overGateway bool, ready func(context.Context) error) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) {
		answerHealth(w, !overGateway || !b.gateway.Stuck(), "alive", "the gateway hangs")
	})
	mux.HandleFunc("GET /readyz", func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), 2*time.Second)
		defer cancel()
		if overGateway && !b.gateway.Joined() {
			answerHealth(w, false, "", absence(b.gateway.Held()))
			return
		}
		err := ready(ctx)
		answerHealth(w, err == nil, "ready", notReady(err))
	})
	mux.Handle("GET /metrics", b.metrics.Handler())
	return mux
}

// absence says why the bot is not at the gateway; heldUntil is when the platform
// allows a start again, nil where it allows one.
func absence(heldUntil *time.Time) string {
	if heldUntil != nil {
		return "not at the gateway: the platform allows no start before " + heldUntil.UTC().Format(time.RFC3339)
	}
	return "not at the gateway"
}

// notReady says why the record cannot be used.
func notReady(err error) string {
	if p, ok := bot.OperatorProblemOf(err); ok {
		return p.Say
	}
	return "the database does not answer"
}

// answerHealth answers with yes when all is well, and otherwise with no.
func answerHealth(w http.ResponseWriter, well bool, yes, no string) {
	if !well {
		http.Error(w, no, http.StatusServiceUnavailable)
		return
	}
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.Write([]byte(yes + "\n"))
}
