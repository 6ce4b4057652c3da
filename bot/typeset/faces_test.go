package typeset

import (
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// TestFontsAreSmallAndLicensed holds the fonts of the folder below 6 MB and
// their licences beside them.
func TestFontsAreSmallAndLicensed(t *testing.T) {
	entries, err := fontFiles.ReadDir("fonts")
	if err != nil {
		t.Fatal(err)
	}
	total, licences := 0, 0
	used := map[string]bool{}
	for _, b := range blocks {
		used[b.file+".ttf"] = true
	}
	for _, e := range entries {
		data, err := fontFiles.ReadFile("fonts/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(e.Name(), "LICENSE-") {
			licences++
			continue
		}
		total += len(data)
		if !used[e.Name()] {
			t.Errorf("no block is drawn with %s", e.Name())
		}
	}
	if total > 6_000_000 || total < 1_000_000 {
		t.Errorf("the fonts take %d bytes, want at most 6 MB", total)
	}
	if licences != 3 {
		t.Errorf("%d licences, want 3", licences)
	}
}

// TestBlocksAreWhatTheFontsDraw looks each block up in its font with another
// library's parser.
func TestBlocksAreWhatTheFontsDraw(t *testing.T) {
	for i, b := range blocks {
		if i > 0 && b.first <= blocks[i-1].last {
			t.Errorf("block %X begins inside the one before", b.first)
		}
		f, drawn := other(t, b.file), 0
		for r := b.first; r <= b.last; r++ {
			if id, err := f.GlyphIndex(nil, r); err == nil && id != 0 {
				drawn++
			}
		}
		if drawn < int(b.last-b.first)/10 {
			t.Errorf("%s draws %d characters of the block from %X to %X", b.file, drawn, b.first, b.last)
		}
	}
	han, hangul := other(t, "han"), other(t, "hangul")
	for r := rune(0x4E00); r <= 0x9FA5; r++ { // every Han character of Unicode 1.1
		if id, _ := han.GlyphIndex(nil, r); id == 0 {
			t.Fatalf("%c is not drawn", r)
		}
	}
	for r := rune(0xAC00); r <= 0xD7A3; r++ { // every Hangul syllable
		if id, _ := hangul.GlyphIndex(nil, r); id == 0 {
			t.Fatalf("%c is not drawn", r)
		}
	}
}

// other parses a font with the parser of the Go team, which shares no code
// with the shaper's.
func other(t *testing.T, file string) *sfnt.Font {
	t.Helper()
	f, err := sfnt.Parse(fontData(file))
	if err != nil {
		t.Fatal(file, err)
	}
	return f
}
