package chart

import (
	"fmt"
	"image/color"
	"image/png"
	"io"
	"math"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"detent/bot/typeset"
)

// board is an empty picture for what no plot with two axes shows. It is filled
// from the top down.
type board struct {
	draw.Canvas
	image *vgimg.Canvas
	y     vg.Length // how far down it is filled
}

// The edges of a board, and the size of the words on it.
const (
	boardLeft  = vg.Length(34)
	boardRight = side - 14
	boardFoot  = vg.Length(8)
	wordSize   = vg.Length(14)
	wordLine   = vg.Length(18)
)

// newBoard is a board with its title.
func newBoard(title string) *board {
	canvas := vgimg.NewWith(vgimg.UseWH(side, side), vgimg.UseDPI(dotsAnInch), vgimg.UseBackgroundColor(color.White))
	b := &board{Canvas: draw.New(canvas), image: canvas, y: side - 30}
	b.say(typeset.Cut(title, typeset.Regular, titleRoom), side/2, b.y+6, titleSize, draw.XCenter)
	return b
}

// encode writes the board as PNG, cut off below what is filled.
func (b *board) encode(out io.Writer) error {
	picture := grey(b.image.Image())
	seen := picture.Rect
	seen.Max.Y = min(seen.Max.Y, int(math.Ceil(float64(side-b.y+boardFoot)/vg.Inch.Points()*dotsAnInch)))
	return png.Encode(out, picture.SubImage(seen))
}

// say writes words with their foot at a height.
func (b *board) say(words string, x, foot, size vg.Length, align text.XAlignment) {
	b.FillText(styleOf(size, align), vg.Point{X: x, Y: foot}, words)
}

func styleOf(size vg.Length, align text.XAlignment) text.Style {
	return text.Style{Color: ink, Font: face(size), Handler: writing, XAlign: align}
}

// line goes down a line of words and writes it, cut to the board.
func (b *board) line(words string) {
	b.y -= wordLine
	b.say(typeset.Cut(words, typeset.Regular, float64((boardRight-boardLeft)/wordSize)), boardLeft, b.y+4, wordSize, draw.XLeft)
}

// stroke draws a path.
func (b *board) stroke(width vg.Length, c color.Color, dashes []vg.Length, points ...vg.Point) {
	b.StrokeLines(draw.LineStyle{Width: width, Color: c, Dashes: dashes}, points)
}

// box draws an outlined area.
func (b *board) box(low, high vg.Point, fill color.Color) {
	corners := []vg.Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}
	b.FillPolygon(fill, corners)
	b.stroke(thin, edge, nil, append(corners, low)...)
}

// placed is a word and a place of it: its middle in a row, its left end in a flow.
type placed struct {
	x   vg.Length
	say string
}

// row writes words side by side, each in the middle of its place but from left
// on, as far as they have room: one that would touch the word before it is left
// out.
func (b *board) row(left vg.Length, words []placed) {
	const apart = vg.Length(5)
	style, end := styleOf(wordSize, draw.XLeft), left-apart
	for _, w := range words {
		wide := style.Width(w.say)
		x := min(max(w.x-wide/2, left), boardRight+8-wide)
		if x < end+apart {
			continue
		}
		b.say(w.say, x, b.y, wordSize, draw.XLeft)
		end = x + wide
	}
}

// flow goes down so many lines as it writes, words one after the other.
func (b *board) flow(lines [][]placed) {
	for _, line := range lines {
		b.y -= wordLine
		for _, w := range line {
			b.say(w.say, w.x, b.y+4, wordSize, draw.XLeft)
		}
	}
}

// flowing parts words into at most so many lines. In the place of those that have
// no room it says how many they are.
func flowing(words []string, most int) (lines [][]placed) {
	const apart = vg.Length(14)
	style, x := styleOf(wordSize, draw.XLeft), boardRight
	for i, w := range words {
		w = typeset.Cut(w, typeset.Regular, longestEvent)
		wide := style.Width(w)
		if x+wide > boardRight && len(lines) < most {
			lines, x = append(lines, nil), boardLeft
		}
		room := wide
		more := restOf(len(words) - i)
		if len(lines) == most && i+1 < len(words) {
			room += apart + style.Width(more)
		}
		last := &lines[len(lines)-1]
		if x+room > boardRight {
			*last = append(*last, placed{x, more})
			return lines
		}
		*last = append(*last, placed{x, w})
		x += wide + apart
	}
	return lines
}

// longestEvent is how long the name of an event may be in a flow, in ems.
const longestEvent = 14

// restOf says how many events are not named.
func restOf(n int) string { return fmt.Sprintf("and %d more", n) }
