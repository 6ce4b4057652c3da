package typeset

import (
	"bytes"
	"embed"
	"fmt"
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"github.com/go-text/typesetting/font"
)

// Weight is how heavy the letters are. Only Latin, Greek, Cyrillic and Hebrew
// have bold letters of their own; see [Glyph.Embolden].
type Weight int

// The weights.
const (
	Regular Weight = iota
	Bold
)

//go:embed fonts/*.ttf fonts/LICENSE-*.txt
var fontFiles embed.FS

// block is a range of characters that a font of the fonts folder draws.
type block struct {
	first, last rune
	file        string
}

// blocks are in the order of the characters, as the Unicode Standard lays them
// out.
var blocks = []block{
	{0x0530, 0x058F, "armenian"}, {0x0600, 0x06FF, "arabic"}, {0x0750, 0x077F, "arabic"}, {0x08A0, 0x08FF, "arabic"},
	{0x0900, 0x097F, "devanagari"}, {0x0980, 0x09FF, "bengali"}, {0x0A00, 0x0A7F, "gurmukhi"}, {0x0A80, 0x0AFF, "gujarati"},
	{0x0B00, 0x0B7F, "oriya"}, {0x0B80, 0x0BFF, "tamil"}, {0x0C00, 0x0C7F, "telugu"}, {0x0C80, 0x0CFF, "kannada"},
	{0x0D00, 0x0D7F, "malayalam"}, {0x0D80, 0x0DFF, "sinhala"}, {0x0E00, 0x0E7F, "thai"}, {0x0E80, 0x0EFF, "lao"},
	{0x1000, 0x109F, "myanmar"}, {0x10A0, 0x10FF, "georgian"}, {0x1200, 0x139F, "ethiopic"},
	{0x1780, 0x17FF, "khmer"}, {0x19E0, 0x19FF, "khmer"}, {0x1C90, 0x1CBF, "georgian"}, {0x1CD0, 0x1CFF, "devanagari"},
	{0x2D00, 0x2D2F, "georgian"}, {0x2D80, 0x2DDF, "ethiopic"}, {0x3000, 0x312F, "han"}, {0x3130, 0x318F, "hangul"},
	{0x3190, 0x33FF, "han"}, {0x4E00, 0x9FFF, "han"}, {0xA8E0, 0xA8FF, "devanagari"}, {0xAB00, 0xAB2F, "ethiopic"},
	{0xAC00, 0xD7A3, "hangul"}, {0xF900, 0xFAFF, "han"}, {0xFB13, 0xFB17, "armenian"}, {0xFB50, 0xFDFF, "arabic"},
	{0xFE70, 0xFEFF, "arabic"}, {0xFF00, 0xFFEF, "han"},
}

// fileOf is the font that draws a character which Liberation lacks; "" for
// none.
func fileOf(r rune) string {
	for _, b := range blocks {
		if b.first <= r && r <= b.last {
			return b.file
		}
	}
	return ""
}

// parsed are the fonts that were needed so far, by file. The largest takes
// about 0.1 s to parse and 10 MB to keep, so each is parsed when first needed.
var parsed = struct {
	sync.Mutex
	fonts map[string]*font.Font
}{fonts: map[string]*font.Font{}}

// load parses a font once. It panics where the program was built with a broken
// one, which the tests would have shown.
func load(file string) *font.Font {
	parsed.Lock()
	defer parsed.Unlock()
	if known := parsed.fonts[file]; known != nil {
		return known
	}
	face, err := font.ParseTTF(bytes.NewReader(fontData(file)))
	if err != nil {
		panic(fmt.Sprintf("typeset: the font %s: %v", file, err))
	}
	parsed.fonts[file] = face.Font
	return face.Font
}

// The names of the two fonts that come from a library.
const (
	plainFile = "plain"
	boldFile  = "bold"
)

func fontData(file string) []byte {
	switch file {
	case plainFile:
		return liberationsansregular.TTF
	case boldFile:
		return liberationsansbold.TTF
	}
	data, err := fontFiles.ReadFile("fonts/" + file + ".ttf")
	if err != nil {
		panic(fmt.Sprintf("typeset: %v", err))
	}
	return data
}

// faces chooses fonts by character. A face caches what it looks up and so
// belongs to one user at a time; the fonts are shared.
type faces struct {
	main *font.Face // Liberation, in the weight that is wanted
	rest map[string]*font.Face
}

func newFaces(w Weight) *faces {
	file := plainFile
	if w == Bold {
		file = boldFile
	}
	return &faces{main: font.NewFace(load(file)), rest: map[string]*font.Face{}}
}

// ResolveFace is the face that draws a character; the main one where none
// does.
func (f *faces) ResolveFace(r rune) *font.Face {
	if face, ok := f.find(r); ok {
		return face
	}
	return f.main
}

// find tells whether there is a face that draws a character.
func (f *faces) find(r rune) (*font.Face, bool) {
	if _, has := f.main.NominalGlyph(r); has {
		return f.main, true
	}
	file := fileOf(r)
	if file == "" {
		return nil, false
	}
	face := f.rest[file]
	if face == nil {
		face = font.NewFace(load(file))
		f.rest[file] = face
	}
	_, has := face.NominalGlyph(r)
	return face, has
}
