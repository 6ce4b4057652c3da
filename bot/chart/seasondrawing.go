package chart

import (
	"fmt"
	"image/color"
	"io"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Rooms of a season's picture.
const (
	tallestLane  = vg.Length(120)
	tallestGrip  = vg.Length(170)
	shortestGrip = vg.Length(64)
	tallestClick = vg.Length(12)
	leastSpan    = 4 // clicks that a lane has room for at least
	eventLines   = 3
)

// Draw writes the picture as PNG.
func (s Season) Draw(out io.Writer) error {
	if len(s.Days) == 0 || len(s.Lanes) == 0 && len(s.Grips) == 0 {
		return fmt.Errorf("there is no season to draw")
	}
	d := seasonDrawing{Season: s, board: newBoard(s.Title), span: leastSpan}
	for _, l := range s.Lanes {
		low, high := l.reach()
		d.span = max(d.span, high-low)
	}
	names := flowing(s.numbered(), eventLines)
	lane, grip := s.heights(d.y, len(names))
	if len(s.Lanes) > 0 {
		d.line(s.key())
	}
	if len(s.Events) > 0 {
		d.numbers()
	}
	for _, l := range s.Lanes {
		d.lane(l, lane)
	}
	if len(s.Grips) > 0 {
		d.grips(grip)
	}
	d.dates()
	d.flow(names)
	return d.encode(out)
}

// heights share the room below a height, beside so many lines of names, among the
// lanes and the grip.
func (s Season) heights(y vg.Length, names int) (lane, grip vg.Length) {
	rows := 1 + len(s.Lanes) + names
	if len(s.Lanes) > 0 {
		rows++
	}
	if len(s.Grips) > 0 {
		rows++
	}
	if len(s.Events) > 0 {
		rows++
	}
	left := y - boardFoot - vg.Length(rows)*wordLine
	if len(s.Grips) > 0 {
		grip = max(shortestGrip, min(tallestGrip, left/vg.Length(len(s.Lanes)+1)*1.5))
		left -= grip
	}
	if len(s.Lanes) > 0 {
		lane = min(tallestLane, left/vg.Length(len(s.Lanes)))
	}
	return lane, grip
}

// seasonDrawing is a season being drawn.
type seasonDrawing struct {
	Season
	*board
	span int // clicks that each lane has room for
}

// x is a place of the season on the board.
func (d seasonDrawing) x(at int) vg.Length {
	return boardLeft + (boardRight-boardLeft)*vg.Length(at)/vg.Length(d.Days[len(d.Days)-1].To)
}

// bands marks the events in an area, every other one in grey: their edges tell
// them from days between events.
func (d seasonDrawing) bands(bottom, top vg.Length) {
	for i, b := range d.eventDays() {
		fill := color.Color(shade)
		if i%2 == 1 {
			fill = color.White
		}
		d.box(vg.Point{X: d.x(b.From), Y: bottom}, vg.Point{X: d.x(b.To), Y: top}, fill)
	}
}

// eventDays are the days of events, those of one event that follow each other as
// one.
func (s Season) eventDays() (days []Day) {
	for _, day := range s.Days {
		if n := len(days); n > 0 && days[n-1].Event == day.Event && days[n-1].To == day.From {
			days[n-1].To = day.To
		} else if day.Event != 0 {
			days = append(days, day)
		}
	}
	return days
}

// numbers writes the numbers of the events above their bands.
func (d seasonDrawing) numbers() {
	d.y -= wordLine - 5
	var words []placed
	for _, day := range d.eventDays() {
		words = append(words, placed{(d.x(day.From) + d.x(day.To)) / 2, fmt.Sprint(day.Event)})
	}
	d.say("No.", boardLeft-5, d.y, wordSize, draw.XRight)
	d.row(boardLeft, words)
	d.y -= 5
}

// dates writes the days below all.
func (d seasonDrawing) dates() {
	d.y -= wordLine - 4
	var words []placed
	for i := 0; i < len(d.Days); {
		from, date := d.Days[i].From, d.Days[i].Date
		for i++; i < len(d.Days) && d.Days[i].Date == ""; i++ {
		}
		words = append(words, placed{(d.x(from) + d.x(d.Days[i-1].To)) / 2, date})
	}
	d.row(boardLeft-30, words)
	d.y -= 4
}

// lane draws an adjuster below its words.
func (d seasonDrawing) lane(l Lane, tall vg.Length) {
	const pad = vg.Length(3)
	d.line(l.say())
	top, bottom := d.y, d.y-tall
	d.y = bottom
	d.bands(bottom, top-1)
	low, high := l.reach()
	click := min(tallestClick, (tall-2*pad)/vg.Length(d.span))
	height := func(at int) vg.Length {
		return (top+bottom)/2 + click*(vg.Length(at)-vg.Length(low+high)/2)
	}
	began := height(l.Steps[0].Left)
	d.stroke(0.8, faint, dotted, vg.Point{X: boardLeft, Y: began}, vg.Point{X: boardRight, Y: began})
	if l.apart() {
		d.stroke(thin, ink, dashed, d.course(l, height, func(s Step) int { return s.Right })...)
	}
	d.stroke(2.2, ink, nil, d.course(l, height, func(s Step) int { return s.Left })...)
}

// course is the line of one side.
func (d seasonDrawing) course(l Lane, height func(int) vg.Length, side func(Step) int) []vg.Point {
	var points []vg.Point
	for i, s := range l.Steps {
		at := vg.Point{X: d.x(s.At), Y: height(side(s))}
		if i > 0 {
			points = append(points, vg.Point{X: at.X, Y: points[len(points)-1].Y})
		}
		points = append(points, at)
	}
	return append(points, vg.Point{X: boardRight, Y: points[len(points)-1].Y})
}

// grips draws the marks of the grip.
func (d seasonDrawing) grips(tall vg.Length) {
	const pad = vg.Length(7)
	words := "Grip, 1 to 10"
	if slices.ContainsFunc(d.Season.Grips, func(g Grip) bool { return g.Damp }) {
		words += "; a ring is damp or wet"
	}
	d.line(words + ".")
	top, bottom := d.y, d.y-tall
	d.y = bottom
	d.bands(bottom, top-1)
	height := func(mark int) vg.Length {
		return bottom + pad + (tall-2*pad)*vg.Length(mark-leastGrip)/(mostGrip-leastGrip)
	}
	for _, mark := range []int{leastGrip, 5, mostGrip} {
		d.stroke(0.8, faint, dotted, vg.Point{X: boardLeft, Y: height(mark)}, vg.Point{X: boardRight, Y: height(mark)})
		d.say(fmt.Sprint(mark), boardLeft-5, height(mark)-5, wordSize, draw.XRight)
	}
	radius := min(5, max(2, (d.x(1)-d.x(0))*0.4))
	for _, g := range d.Season.Grips {
		at := vg.Point{X: d.x(g.At), Y: height(g.Mark)}
		d.DrawGlyph(draw.GlyphStyle{Color: ink, Radius: radius, Shape: draw.CircleGlyph{}}, at)
		if g.Damp {
			d.DrawGlyph(draw.GlyphStyle{Color: color.White, Radius: radius * 0.55, Shape: draw.CircleGlyph{}}, at)
		}
	}
}
