package main

import (
	"bytes"
	"image"
	"image/png"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"detent/bot"
	"detent/bot/phone"
	"detent/store/storetest"
)

// TestReadmeAnswer keeps the answer and the window that the README shows as the
// demo's club gets them.
func TestReadmeAnswer(t *testing.T) {
	t.Parallel()
	router := bot.NewRouter(lines, records{storetest.New(t)}, slog.New(slog.NewTextHandler(t.Output(), nil)))
	replies := map[string]bot.Reply{}
	for _, s := range paddockDay {
		line, err := bot.ParseLine(s.line)
		if err != nil {
			continue // the slip
		}
		reply := router.Answer(t.Context(), bot.Ask{ID: newID(), Who: s.who(), At: s.at(), Line: line})
		if _, ok := replies[line.Words[0]]; !ok {
			replies[line.Words[0]] = reply
		}
	}
	keepsInStep(t, "answer", "```\n"+onPhone(replies["symptom"])+"```\n")
	keepsPicture(t, filepath.Join("testdata", "window.png"), replies["window"].Picture)
}

// onPhone is a private reply as a phone shows it, in lines of its columns.
func onPhone(r bot.Reply) string {
	var b strings.Builder
	m := r.Message()
	for line := range strings.SplitSeq(m.Words(), "\n") {
		for _, shown := range phone.Wrap(line) {
			b.WriteString(shown + "\n")
		}
	}
	var labels []string
	for _, a := range m.Actions {
		labels = append(labels, "["+a.Label+"]")
	}
	for row := range slices.Chunk(append(labels, "[Show the channel]"), phone.Row) {
		b.WriteString(strings.Join(row, "  ") + "\n")
	}
	return b.String()
}

// keepsPicture holds a file to a picture, or writes it. Letters and lines may be
// drawn a shade otherwise on another kind of processor.
func keepsPicture(t *testing.T, file string, picture *bot.Picture) {
	t.Helper()
	if picture == nil {
		t.Fatal("the reply has no picture")
	}
	if *update {
		if err := os.WriteFile(file, picture.PNG, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var both [2]image.Image
	for i, data := range [][]byte{kept, picture.PNG} {
		if both[i], err = png.Decode(bytes.NewReader(data)); err != nil {
			t.Fatal(err)
		}
	}
	if both[0].Bounds() != both[1].Bounds() {
		t.Fatalf("%s is %v, the picture is %v: make readme writes it anew", file, both[0].Bounds(), both[1].Bounds())
	}
	other, all := 0, both[0].Bounds()
	for y := range all.Dy() {
		for x := range all.Dx() {
			r, g, b, _ := both[0].At(x, y).RGBA()
			r2, g2, b2, _ := both[1].At(x, y).RGBA()
			if max(r, r2)-min(r, r2)+max(g, g2)-min(g, g2)+max(b, b2)-min(b, b2) > 0x3000 {
				other++
			}
		}
	}
	if other*1000 > all.Dx()*all.Dy() {
		t.Errorf("%s differs from the picture in %d of %d points: make readme writes it anew", file, other, all.Dx()*all.Dy())
	}
}
