package main

import (
	"os"
	"strings"
	"testing"
)

func TestDemoPlaysTheDay(t *testing.T) {
	out, errs, code := execute(t, "demo")
	if code != exitAnswered || errs != "" {
		t.Fatalf("status %d, %s", code, errs)
	}
	for _, words := range []string{
		"Start Blue hatch at", "Rear rebound 3 stiffer, both sides: 16 → 13 from hard", "Already noted",
		"did you mean symptom", "Kim suggests for Blue hatch", "Taken back:", "1 car, 1 answer in",
		"Your own order: front rebound helped 1 of 1 time, about half a mark better.", "Learned on Blue hatch: 3 remedies",
	} {
		if !strings.Contains(out, words) {
			t.Errorf("the day lacks %q", words)
		}
	}
	checkReadmeAnswer(t, out)
	if n := strings.Count(out, "I do not know"); n != 1 {
		t.Errorf("%d lines are not known, want the one slip", n)
	}
}

// checkReadmeAnswer sees that the answer that the README shows is the demo's,
// with the labels of its buttons.
func checkReadmeAnswer(t *testing.T, played string) {
	t.Helper()
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(readme), "```\n")
	shown, _, _ := strings.Cut(rest, "\n```")
	words, labels, ok := strings.Cut(shown, "\n[")
	if !ok || !strings.Contains(played, words) {
		t.Errorf("the README's answer is not the demo's:\n%s", words)
	}
	_, after, _ := strings.Cut(played, words+"\n")
	answer, _, _ := strings.Cut(after, "\n\n")
	for label := range strings.SplitSeq("["+labels, "] ") {
		if !strings.Contains(answer, strings.TrimSuffix(label, "]")+"]  /") {
			t.Errorf("the demo's answer has no button %s", label)
		}
	}
}
