package bot

import "testing"

func TestDidYouMean(t *testing.T) {
	for word, want := range map[string]string{"symptm": " (did you mean symptom?)", "SYMPTOM": " (did you mean symptom?)", "fl": "", "": "", "xyzxyz": ""} {
		if got := DidYouMean(word, []string{"symptom", "baseline"}); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}
