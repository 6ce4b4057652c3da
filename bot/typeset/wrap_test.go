package typeset

import (
	"strings"
	"testing"
)

func TestWrap(t *testing.T) {
	for _, text := range []string{
		"A sentence of several words that is broken",
		"שם ארוך מאוד שנשבר לכמה שורות",
		"اسم طويل جدا ينقسم إلى عدة أسطر",
		strings.Repeat("車輪", 12),
		"एक लंबा नाम जो कई पंक्तियों में टूटता है",
		"Aworldlongwordthatfitsnolineatall",
	} {
		lines := Wrap(text, Regular, 8)
		var read []string
		for _, l := range lines {
			if l.Width > 8 {
				t.Errorf("%q is %.2f em wide", l.Text(), l.Width)
			}
			read = append(read, l.Text())
		}
		if len(lines) < 2 {
			t.Errorf("%q is %d lines", text, len(lines))
		}
		squeeze := strings.NewReplacer(" ", "")
		if got := squeeze.Replace(strings.Join(read, "")); got != squeeze.Replace(text) {
			t.Errorf("%q reads %q", text, got)
		}
	}
	if lines := Wrap("one\n\nשתיים", Regular, 8); len(lines) != 3 || lines[0].Text() != "one" || lines[2].Text() != "שתיים" {
		t.Errorf("%d lines", len(lines))
	}
}
