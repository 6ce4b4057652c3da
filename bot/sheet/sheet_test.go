package sheet

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf16"
)

var made = time.Date(2026, 5, 10, 12, 0, 0, 0, time.UTC)

// render writes a page and returns the file and the words on it.
func render(t *testing.T, p Page) (pdf []byte, words string) {
	t.Helper()
	var out bytes.Buffer
	if err := p.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), wordsOf(t, out.Bytes())
}

var (
	streams = regexp.MustCompile(`(?s)stream\r?\n(.*?)endstream`)
	shown   = regexp.MustCompile(`(?s)\(((?:\\.|[^\\)])*)\) ?Tj`)
)

// wordsOf reads the text that the page's content shows, a line each: strings
// of UTF-16, in streams that are deflated.
func wordsOf(t *testing.T, pdf []byte) string {
	t.Helper()
	var words strings.Builder
	for _, stream := range streams.FindAllSubmatch(pdf, -1) {
		r, err := zlib.NewReader(bytes.NewReader(stream[1]))
		if err != nil {
			continue
		}
		content, err := io.ReadAll(r)
		if err != nil || !bytes.Contains(content, []byte(" Tf ")) {
			continue // a font
		}
		for _, show := range shown.FindAllSubmatch(content, -1) {
			raw := regexp.MustCompile(`(?s)\\(.)`).ReplaceAllFunc(show[1], func(escaped []byte) []byte {
				if escaped[1] == 'r' {
					return []byte{'\r'}
				}
				return escaped[1:]
			})
			units := make([]uint16, len(raw)/2)
			for i := range units {
				units[i] = uint16(raw[2*i])<<8 | uint16(raw[2*i+1])
			}
			words.WriteString(string(utf16.Decode(units)) + "\n")
		}
	}
	return words.String()
}

func pages(pdf []byte) int { return len(regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(pdf, -1)) }

func paddock(rows int) Page {
	t := Table{Head: []string{"Clicks", "front", "rear"}, Center: true}
	for i := range rows {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i), fmt.Sprintf("%d (%d)", 2*i, 3*i), "a longer cell that has to be broken into lines to have room in its column"})
	}
	return Page{Title: "Größe Ωmega Тест (a) \\ b", Under: "Windy Hill 🏁", Made: made, Foot: "The foot.",
		Rows: [][]Section{{{Head: "Start", Table: t}}, {{Head: "Left", Points: []string{"one", "two"}}, {Head: "Right", Points: []string{"three"}}}}}
}

func TestPage(t *testing.T) {
	pdf, words := render(t, paddock(5))
	if n := pages(pdf); n != 1 || !bytes.HasPrefix(pdf, []byte("%PDF-")) {
		t.Errorf("%d pages, beginning %q", n, pdf[:8])
	}
	for _, want := range []string{"Größe Ωmega Тест (a) \\ b", "Windy Hill", "Start", "8 (12)", "one", "three", "The foot."} {
		if !strings.Contains(words, want+"\n") && !strings.Contains(words, want) {
			t.Errorf("the page lacks %q:\n%s", want, words)
		}
	}
	again, _ := render(t, paddock(5))
	if !bytes.Equal(pdf, again) {
		t.Error("the same page is another file")
	}
}

// TestFits fills a page more and more: it stays one page, and nothing on it
// runs off the foot.
func TestFits(t *testing.T) {
	for _, rows := range []int{0, 1, 20, 35, 48} {
		p := paddock(rows)
		pdf, words := render(t, p)
		if n := pages(pdf); n != 1 {
			t.Errorf("%d rows make %d pages", rows, n)
		}
		if !strings.Contains(words, "The foot.") {
			t.Errorf("%d rows leave no foot", rows)
		}
		if at := p.draw(p.paper(), p.Scale()); at > height-margin {
			t.Errorf("%d rows run off the foot by %.1f mm", rows, at-height+margin)
		}
	}
}

// TestGreys holds the page to black, white and greys.
func TestGreys(t *testing.T) {
	var out bytes.Buffer
	if err := paddock(4).Write(&out); err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, stream := range streams.FindAllSubmatch(out.Bytes(), -1) {
		r, err := zlib.NewReader(bytes.NewReader(stream[1]))
		if err != nil {
			continue
		}
		content, _ := io.ReadAll(r)
		for _, c := range regexp.MustCompile(`(?m)([\d.]+) ([\d.]+) ([\d.]+) (?:rg|RG)$`).FindAllSubmatch(content, -1) {
			checked++
			if !bytes.Equal(c[1], c[2]) || !bytes.Equal(c[2], c[3]) {
				t.Errorf("the colour %s is none of the greys", c[0])
			}
		}
		checked += len(regexp.MustCompile(`(?m)[\d.]+ [gG]$`).FindAll(content, -1))
	}
	if checked == 0 {
		t.Error("no colour was found to check")
	}
}
