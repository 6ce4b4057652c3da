package bot

import (
	"slices"
	"strings"

	"detent/bot/phone"
)

// Message is what a person sees of a reply at once, in the same words on every
// way in. The rest of the reply stands behind its buttons.
type Message struct {
	Title   string // the action, or the refusal
	Text    string // the car, the complaint, what to watch for; or the lines of a list
	Line    string // the one line that applies, at most LineLength characters; "" for none
	Table   []Corner
	Grid    string // a table of something else than clicks
	Care    string // the cautions that this message carries, "" for none
	Actions []Action
	Picture *Picture
	Files   []File

	more int // buttons that a way in adds
}

// View is how much of a reply is shown at once, and what is shown of it beside
// its title and text.
type View struct {
	Size    phone.Size `json:"size,omitempty"`
	Line    string     `json:"line,omitempty"`     // the one line that applies, see LineLength
	NoTable bool       `json:"no_table,omitempty"` // no table is shown
	Moves   []Corner   `json:"moves,omitempty"`    // the table, where Corners is not it
	Care    Care       `json:"care,omitzero"`
	Grid    string     `json:"grid,omitempty"`    // a table of something else than clicks, for a fixed-width face
	Quiet   bool       `json:"quiet,omitempty"`   // checks, notes, figures and picture stand behind buttons
	Picture bool       `json:"picture,omitempty"` // a quiet reply's picture is shown all the same
	Show    bool       `json:"show,omitempty"`    // it is for one person, who may show it to all: a way in adds the button
	From    int        `json:"from,omitempty"`    // pieces of the text that were read already, see Paged
	More    *Action    `json:"more,omitempty"`    // asks for the pieces that follow
	Each    int        `json:"each,omitempty"`    // so many of the first actions belong to the first lines of the text, one each, and are shown with them; such lines are short
}

// LineLength is the longest that a message's one line may be, in characters.
const LineLength = 88

// Message makes a reply's message. What has no room in it is reached by the
// reply's own button for more; where it has none, the message shows that it was
// cut.
func (r Reply) Message() Message {
	m := Message{Title: r.Title, Care: r.View.Care.say(r.Cautions), Files: r.Files}
	if r.View.Show {
		m.more = 1
	}
	if !r.View.Quiet || r.View.Picture {
		m.Picture = r.Picture
	}
	if r.View.From == 0 {
		m.Line, m.Table, m.Grid = r.View.Line, r.table(), r.View.Grid
	}
	size := r.size()
	pieces := phone.Pieces(r.said())
	pieces = pieces[min(r.View.From, len(pieces)):]
	m.Actions = r.View.actions(r.Actions, len(pieces))
	if m.Text = strings.Join(pieces, "\n"); m.fits(size) {
		return m
	}
	m.shorten(size, pieces, r)
	return m
}

// size is the room that the reply has.
func (r Reply) size() phone.Size {
	if r.View.Care.Full && r.View.Size < phone.FirstOfDay {
		return phone.FirstOfDay
	}
	return r.View.Size
}

// table is what the message shows as a table: what moves, or where all stands.
func (r Reply) table() []Corner {
	switch {
	case r.View.NoTable:
		return nil
	case len(r.View.Moves) > 0:
		return r.View.Moves
	case len(r.Corners) == 0 && len(r.Remedies) > 0:
		return Moving(r.Remedies[0].Corners)
	}
	return r.Corners
}

// Moving are the corners that move.
func Moving(corners []Corner) []Corner {
	return slices.DeleteFunc(slices.Clone(corners), func(c Corner) bool { return c.From == c.To })
}

// said are the lines of the text, with the checks and notes below it unless
// they stand behind buttons.
func (r Reply) said() string {
	lines := []string{r.Text}
	if !r.View.Quiet {
		for _, check := range r.First {
			lines = append(lines, "- "+check)
		}
		lines = append(lines, r.Notes...)
		lines = append(lines, r.Assumed...)
	}
	return strings.TrimSpace(strings.Join(lines, "\n"))
}

// WithLines adds the lines to the text that the message has room for, in their
// order, and the others to the notes.
func (r Reply) WithLines(lines ...string) Reply {
	r, left := r.WithSpare(lines...)
	r.Notes = append(r.Notes[:len(r.Notes):len(r.Notes)], left...)
	return r
}

// WithSpare adds the lines to the text that the message has room for, in their
// order, and returns the others.
func (r Reply) WithSpare(lines ...string) (with Reply, left []string) {
	for _, line := range lines {
		longer := r
		longer.Text = strings.TrimSpace(r.Text + "\n" + line)
		if longer.Whole() {
			r = longer
			continue
		}
		left = append(left, line)
	}
	return r, left
}

// Whole tells whether the message has room for all that the reply shows at once,
// beside the button that shows it to all.
func (r Reply) Whole() bool {
	r.View.Show = r.Problem == nil // a refusal is nothing to show
	m := r.Message()
	return m.Text == r.said() && m.Line == r.View.Line && len(m.Actions) == len(r.Actions) && m.fits(r.size())
}

// fits tells whether the message has room in a size.
func (m Message) fits(size phone.Size) bool {
	lines, runes := m.Measure()
	mostLines, mostRunes := size.Room()
	return lines <= mostLines && runes <= mostRunes
}

// Measure counts the lines that a message takes on a phone and its characters,
// the labels of its buttons among them.
func (m Message) Measure() (lines, runes int) {
	lines, runes = phone.Measure(m.Words(), len(m.Actions)+m.more)
	runes += m.more * len("Show the channel")
	for _, a := range m.Actions {
		runes += len([]rune(a.Label))
	}
	return lines, runes
}

// actions are the buttons of a message that shows so many pieces.
func (v View) actions(all []Action, shown int) []Action {
	each := min(v.Each, len(all)) // a way in may have left some out
	if each == 0 {
		return all
	}
	first := min(v.From, each)
	return slices.Concat(all[first:min(first+shown, each)], all[each:])
}

// shorten leaves out what a message has no room for. A quiet reply has it all
// under Why: its last buttons go first, then its one line. Then as many pieces of
// the text stay as have room, the first at least; a button leads to the others.
func (m *Message) shorten(size phone.Size, pieces []string, r Reply) {
	if r.View.Quiet {
		for i := len(m.Actions) - 1; i > 0 && len(m.Actions)+m.more > phone.Row && !m.fits(size); i-- {
			if m.Actions[i].Label != whyLabel {
				m.Actions = slices.Delete(slices.Clone(m.Actions), i, i+1)
			}
		}
		if m.fits(size) {
			return
		}
		if m.Line = ""; m.fits(size) {
			return
		}
		r.Actions = m.Actions
	}
	most, _ := size.Room() // a piece takes a line at least
	for shown := min(len(pieces)-1, most); shown > 1; shown-- {
		if m.say(pieces, shown, r); m.fits(size) {
			return
		}
	}
	m.say(pieces, min(1, len(pieces)), r)
	for len(m.Actions) > phone.Row && !m.fits(size) { // the last buttons matter least
		m.Actions = slices.Clone(m.Actions[:len(m.Actions)-1])
	}
}

// say shows so many of the pieces, with their buttons.
func (m *Message) say(pieces []string, shown int, r Reply) {
	m.Text, m.Actions = strings.Join(pieces[:shown], "\n"), r.View.actions(r.Actions, shown)
	switch {
	case shown == len(pieces):
	case r.View.More == nil && r.View.Quiet: // it stands under Why
	case r.View.More == nil:
		m.Text += "\n…"
	default:
		m.Actions = append(slices.Clone(m.Actions), r.View.More.startingAt(r.View.From+shown))
	}
}

// Words are the message as plain lines, without its buttons.
func (m Message) Words() string {
	var parts []string
	for _, part := range []string{m.Title, m.Text, m.Line, m.TableText(), m.Care} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, "\n")
}

// TableText is the message's table. Its corner says which stop is counted from,
// unless a line above has said so; where the axles count from different stops,
// a line below the table does.
func (m Message) TableText() string {
	if len(m.Table) == 0 {
		return m.Grid
	}
	rows, counted := tableOf(m.Table, "")
	stop, _ := strings.CutPrefix(counted, "counted ")
	both := !strings.Contains(counted, ",")
	if both {
		counted = ""
	}
	if above := m.Title + m.Text; both && !strings.Contains(above, "from hard") && !strings.Contains(above, "from soft") {
		rows, _ = tableOf(m.Table, stop)
	}
	return strings.TrimRight(rows+counted, "\n")
}
