package clubroom

import "testing"

func TestPrivacyLeadsToBothRights(t *testing.T) {
	_, _, robin := newMinutes(t)
	for i, want := range []string{"/me export", "/me erase"} {
		if got := robin.Does(`/privacy`).Actions[i].Line(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
