package discordtest

import (
	"crypto/ed25519"
	"encoding/hex"
	"net/http"
	"strconv"
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
