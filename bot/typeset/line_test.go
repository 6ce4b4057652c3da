package typeset

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// idsOf are the glyphs of a line from left to right.
func idsOf(l Line) (ids []uint32) {
	for _, c := range l.Clusters {
		for _, g := range c.Glyphs {
			ids = append(ids, g.ID)
		}
	}
	return ids
}

// TestGlyphsOfSixScripts reads each word back by another library's look-up:
// the glyphs from left to right are those of these characters, in the font of
// the script. Joined Arabic letters are looked up by their presentation forms.
func TestGlyphsOfSixScripts(t *testing.T) {
	for _, c := range []struct{ name, file, text, drawn string }{
		{"Han", "han", "蓝色闪电", "蓝色闪电"},
		{"kana", "han", "あおいハヤテ", "あおいハヤテ"},
		{"Hangul", "hangul", "푸른번개", "푸른번개"},
		{"Hebrew", plainFile, "רכב כחול", "לוחכ בכר"},
		{"Arabic", "arabic", "سيارة", "ﺓﺭﺎﻴﺳ"},
		{"Arabic ligature", "arabic", "سلام", "ﻡﻼﺳ"},
		{"Thai", "thai", "รถ", "รถ"},
		{"Cyrillic", plainFile, "Синий", "Синий"},
		{"Greek", plainFile, "Μπλε", "Μπλε"},
		{"Georgian", "georgian", "ლურჯი", "ლურჯი"},
		{"Armenian", "armenian", "Հայկ", "Հայկ"},
		{"Amharic", "ethiopic", "ሰማያዊ", "ሰማያዊ"},
		{"Tamil, vowel sign before its letter", "tamil", "கெ", "\u0bc6க"},
	} {
		f := other(t, c.file)
		var want []uint32
		for _, r := range c.drawn {
			id, err := f.GlyphIndex(nil, r)
			if err != nil || id == 0 {
				t.Fatalf("%s: %s has no %q", c.name, c.file, r)
			}
			want = append(want, uint32(id))
		}
		if got := idsOf(Set(c.text, Regular)); fmt.Sprint(sameShapes(t, f, got)) != fmt.Sprint(sameShapes(t, f, want)) {
			t.Errorf("%s: %q is drawn with the glyphs %v, want %v", c.name, c.text, got, want)
		}
	}
}

// sameShapes are glyphs by their outlines, since fonts have one shape under
// several numbers.
func sameShapes(t *testing.T, f *sfnt.Font, ids []uint32) []string {
	t.Helper()
	var shapes []string
	for _, id := range ids {
		segments, err := f.LoadGlyph(nil, sfnt.GlyphIndex(id), 64*1000, nil)
		if err != nil {
			t.Fatal(err)
		}
		shapes = append(shapes, fmt.Sprint(segments))
	}
	return shapes
}

// TestDevanagari: the vowel sign i is drawn before the consonant that it
// follows in writing, and a conjunct of two letters is one glyph.
func TestDevanagari(t *testing.T) {
	f := other(t, "devanagari")
	ka, _ := f.GlyphIndex(nil, 'क')
	if got := idsOf(Set("कि", Regular)); len(got) != 2 || got[1] != uint32(ka) || got[0] == uint32(ka) {
		t.Errorf("ki is drawn with %v, want the sign and then %d", got, ka)
	}
	if got := Set("क्ष", Regular); len(got.Clusters) != 1 || len(got.Clusters[0].Glyphs) != 1 || got.Clusters[0].Text != "क्ष" {
		t.Errorf("ksha is %d clusters", len(got.Clusters))
	}
}

// TestMarks: a combining mark makes one cluster with its letter, takes no room
// and stands over or under it.
func TestMarks(t *testing.T) {
	for _, c := range []struct {
		name, text string
		above      bool
	}{
		{"Latin", "x\u030c", true}, {"Cyrillic", "а\u0301", true}, {"Thai tone", "ก้", true},
		{"Hebrew vowel", "ב\u05b8", false}, {"Arabic vowel", "ب\u064e", true},
	} {
		line, alone := Set(c.text, Regular), Set(string([]rune(c.text)[:1]), Regular)
		if len(line.Clusters) != 1 || len(line.Clusters[0].Glyphs) != 2 {
			t.Errorf("%s: %d clusters, want one of two glyphs", c.name, len(line.Clusters))
			continue
		}
		if math.Abs(line.Width-alone.Width) > 1e-9 {
			t.Errorf("%s: %.3f em wide, %.3f without its mark", c.name, line.Width, alone.Width)
		}
		glyphs := line.Clusters[0].Glyphs
		mark := boxOf(glyphs[0])
		if other := boxOf(glyphs[1]); c.above == (other.top > mark.top) {
			mark = other
		}
		letter := boxOf(alone.Clusters[0].Glyphs[0])
		if middle := (mark.left + mark.right) / 2; middle < letter.left-0.1 || middle > letter.right+0.1 {
			t.Errorf("%s: the mark stands at %.2f em, its letter from %.2f to %.2f", c.name, middle, letter.left, letter.right)
		}
		if c.above && mark.bottom < letter.top-0.1 || !c.above && mark.top > letter.bottom+0.1 {
			t.Errorf("%s: the mark is drawn through its letter: %+v, %+v", c.name, mark, letter)
		}
	}
}

// box is a pen that only looks how far an outline reaches.
type box struct{ left, right, bottom, top float64 }

func boxOf(g Glyph) box {
	b := box{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
	g.Draw(&b)
	return b
}

func (b *box) Move(x, y float64) {
	b.left, b.right, b.bottom, b.top = min(b.left, x), max(b.right, x), min(b.bottom, y), max(b.top, y)
}
func (b *box) Line(x, y float64)             { b.Move(x, y) }
func (b *box) Quad(_, _, x, y float64)       { b.Move(x, y) }
func (b *box) Cube(_, _, _, _, x, y float64) { b.Move(x, y) }
func (b *box) Close()                        {}

// TestBold: Liberation has bold letters; what stands beside them in another
// script is to be emboldened.
func TestBold(t *testing.T) {
	line := Set("n車", Bold)
	if n, car := line.Clusters[0].Glyphs[0], line.Clusters[1].Glyphs[0]; n.Embolden != 0 || car.Embolden <= 0 {
		t.Errorf("strokes of %g and %g em", n.Embolden, car.Embolden)
	}
	if regular := Set("n車", Regular); regular.Width >= line.Width || regular.Clusters[1].Glyphs[0].Embolden != 0 {
		t.Error("bold is no broader than regular")
	}
}

func TestCut(t *testing.T) {
	for _, text := range []string{"short", "A long name of many letters", "رقم طويل جدا من الحروف الكثيرة", strings.Repeat("長", 40)} {
		whole, cut := Set(text, Regular), Cut(text, Regular, 6)
		if width := Set(cut, Regular).Width; width > 6 {
			t.Errorf("%q is still %.1f em wide", cut, width)
		}
		if whole.Width <= 6 != (cut == text) || whole.Width > 6 != strings.HasSuffix(cut, "…") {
			t.Errorf("%q of %.1f em became %q", text, whole.Width, cut)
		}
	}
}

func BenchmarkSet(b *testing.B) {
	for b.Loop() {
		Set("Blue רכב 12 سيارة 車", Regular)
	}
}
