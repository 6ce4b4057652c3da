package discordtest

import (
	"testing"
)

// TestDescription sees that the published description is in use.
func TestDescription(t *testing.T) {
	t.Parallel()
	if loadSpec(t) == nil {
		path, err := specPath()
		t.Skipf("payloads are not held against the platform's description: there is none at %s (%v); DETENT_PLATFORM_SPEC may say where it is", path, err)
	}
	w := newHTTPClub(t)
	w.Expect(PayloadSchema)
	if status, code := w.post(obj{"content": "x", "tts": "loud"}); status != 400 || code != 50035 {
		t.Errorf("%d %d", status, code)
	}
}
