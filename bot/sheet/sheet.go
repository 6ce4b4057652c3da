// Package sheet makes sheets to print: one page of A4 each, black and light
// grey on white, so that any printer and any copier can take it.
package sheet

import (
	"cmp"
	"io"
	"sort"
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"detent/bot/typeset"
)

// Page is what stands on a sheet. Text is UTF-8, in any script that typeset
// draws and with its isolates round names; signs that no font draws are left
// out, so names with letters like that must not be given (typeset.Readable).
type Page struct {
	Title string
	Under string      // a line or more below the title
	Rows  [][]Section // from top to bottom; the sections of a row stand side by side
	Foot  string
	Made  time.Time
}

// Section is a heading with a picture, a table, points, or several of them below
// it.
type Section struct {
	Head    string
	Picture []byte // PNG
	Table   Table
	Points  []string
	Wide    float64 // beside the others of its row, in proportion; 0 is 1
}

// Table is rows of cells below a head. All rows are as long as the head.
type Table struct {
	Head   []string
	Rows   [][]string
	Widths []float64 // of the columns, in proportion; none for equal ones
	Center bool      // all columns but the first
	Roomy  bool      // rows to write in by hand
}

// The page, in millimetres.
const (
	width  = 210.0
	height = 297.0
	margin = 12.0
	gap    = 5.0 // between two sections side by side
)

// largest is how far the text grows to fill a sheet.
const largest = 1.2

// smallest is how far the text shrinks to keep a full sheet on one page; what
// is more than that runs off its foot.
const smallest = 0.5

// Write writes the page as a PDF, as large as it fits.
func (p Page) Write(w io.Writer) error {
	pdf := p.paper()
	p.draw(pdf, p.Scale())
	return pdf.Output(w)
}

// Scale is the largest scale at which the page holds all; 1 is the size that
// the letters are given in.
func (p Page) Scale() float64 {
	const steps = 70 // a hundredth of the size each
	scale := func(step int) float64 { return largest - float64(step)*(largest-smallest)/steps }
	scrap := p.paper()
	return scale(sort.Search(steps, func(step int) bool { return p.measure(scrap, scale(step)) <= height-margin }))
}

// measure tells how far down the page would reach at a scale.
func (p Page) measure(scrap *fpdf.Fpdf, scale float64) float64 {
	return p.lay(&pen{pdf: scrap, scale: scale, y: margin, dry: true})
}

// draw draws the page and returns how far down it reaches.
func (p Page) draw(pdf *fpdf.Fpdf, scale float64) float64 {
	return p.lay(&pen{pdf: pdf, scale: scale, y: margin})
}

// lay goes down the page with a pen and returns how far it got.
func (p Page) lay(n *pen) float64 {
	n.text(bold, 17, p.Title, margin, width-2*margin)
	n.text(regular, 10, p.Under, margin, width-2*margin)
	for _, row := range p.Rows {
		n.row(row)
	}
	n.space(1.5)
	n.text(regular, 7.5, p.Foot, margin, width-2*margin)
	return n.y
}

// row draws sections side by side and goes below the longest.
func (n *pen) row(sections []Section) {
	top, below, x, all := n.y, n.y, margin, 0.0
	for _, s := range sections {
		all += s.wide()
	}
	for _, s := range sections {
		w := (width - 2*margin - gap*float64(len(sections)-1)) * s.wide() / all
		n.y = top
		n.section(s, x, w)
		below = max(below, n.y)
		x += w + gap
	}
	n.y = below
}

// wide is the section's share of its row.
func (s Section) wide() float64 { return cmp.Or(s.Wide, 1) }

func (n *pen) section(s Section, x, w float64) {
	n.space(2.5)
	n.text(bold, 11, s.Head, x, w)
	n.space(0.5)
	n.picture(s.Picture, x, w)
	n.table(s.Table, x, w)
	if len(s.Table.Head) > 0 {
		n.space(1)
	}
	for _, point := range s.Points {
		top := n.y
		n.text(regular, body, "•", x, 4)
		n.y = top
		n.text(regular, body, point, x+3*n.scale, w-3*n.scale)
	}
}

func (n *pen) table(t Table, x, w float64) {
	if len(t.Head) == 0 {
		return
	}
	columns := t.columns(x, w)
	n.cells(bold, t.Head, columns, t.Center)
	n.rule(x, w)
	for i, cells := range t.Rows {
		if t.Roomy {
			n.space(roomy / 2)
			n.cells(regular, cells, columns, t.Center)
			n.space(roomy / 2)
			n.rule(x, w)
			continue
		}
		if i%2 == 1 {
			n.shade(x, w, n.tallest(regular, cells, columns))
		}
		n.cells(regular, cells, columns, t.Center)
	}
	if !t.Roomy {
		n.rule(x, w)
	}
}

// column is where a column of a table stands.
type column struct{ x, w float64 }

func (t Table) columns(x, w float64) []column {
	widths := t.Widths
	if len(widths) == 0 {
		widths = make([]float64, len(t.Head))
		for i := range widths {
			widths[i] = 1
		}
	}
	sum := 0.0
	for _, part := range widths {
		sum += part
	}
	columns := make([]column, len(widths))
	for i, part := range widths {
		columns[i] = column{x, w * part / sum}
		x += columns[i].w
	}
	return columns
}

// pen draws down one page.
type pen struct {
	pdf    *fpdf.Fpdf
	scale  float64
	y      float64        // how far down it is
	weight typeset.Weight // of the letters
	dry    bool           // it only measures
}

const (
	regular = ""
	bold    = "B"
	body    = 8.5 // points
)

// paper is an empty page. The same page is the same file, whenever and however
// often it is made.
func (p Page) paper() *fpdf.Fpdf {
	pdf := fpdf.New("P", "mm", "A4", "")
	pdf.AddUTF8FontFromBytes("sans", regular, liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes("sans", bold, liberationsansbold.TTF)
	pdf.SetTitle(typeset.Plain(p.Title), true)
	pdf.SetCreationDate(p.Made)
	pdf.SetModificationDate(p.Made)
	pdf.SetCatalogSort(true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetCellMargin(0)
	pdf.AddPage()
	return pdf
}

// space goes down by so many millimetres at full size.
func (n *pen) space(down float64) { n.y += down * n.scale }

// set chooses a font and returns the height of its lines.
func (n *pen) set(style string, points float64) (line float64) {
	n.weight = typeset.Regular
	if style == bold {
		n.weight = typeset.Bold
	}
	n.pdf.SetFont("sans", style, points*n.scale)
	return points * n.scale * 0.3528 * 1.25 // millimetres to a point, and some air
}

// text draws a paragraph and goes below it.
func (n *pen) text(style string, points float64, text string, x, w float64) {
	line := n.set(style, points)
	for _, words := range n.lines(text, w) {
		n.write(words, x, n.y, w, line, "L")
		n.y += line
	}
}

// roomy is the air in a row to write in, in millimetres at full size.
const roomy = 3.0

// pad is the air round the text of a cell, in millimetres at full size.
const pad = 0.8

// tallest is the height of a row of cells.
func (n *pen) tallest(style string, cells []string, columns []column) float64 {
	line, most := n.set(style, body), 1
	for i, c := range cells {
		most = max(most, len(n.lines(c, columns[i].w-2*pad*n.scale)))
	}
	return float64(most)*line + pad*n.scale
}

// cells draws a row of a table and goes below it.
func (n *pen) cells(style string, cells []string, columns []column, center bool) {
	tall, line := n.tallest(style, cells, columns), n.set(style, body)
	inset := pad * n.scale
	for i, c := range cells {
		align := "L"
		if center && i > 0 {
			align = "C"
		}
		for j, words := range n.lines(c, columns[i].w-2*inset) {
			n.write(words, columns[i].x+inset, n.y+inset/2+float64(j)*line, columns[i].w-2*inset, line, align)
		}
	}
	n.y += tall
}

// shade puts light grey where the next row comes.
func (n *pen) shade(x, w, tall float64) {
	if n.dry {
		return
	}
	n.pdf.SetFillColor(236, 236, 236)
	n.pdf.Rect(x, n.y, w, tall, "F")
}

func (n *pen) rule(x, w float64) {
	if n.dry {
		return
	}
	n.pdf.SetLineWidth(0.2)
	n.pdf.Line(x, n.y, x+w, n.y)
}
