package bot

import "slices"

// Form is what a button asks before its line can be answered: the long
// entries, which nobody wants to type as one line on a phone.
type Form struct {
	Title  string
	Fields []Field
}

// Field is one entry of a form, with what stands in it already.
type Field struct {
	Option
	Value string
}

// Blank is the value of an option in the line of a button that asks for it with
// a form: "/damper fit ways:two clicks:?".
const Blank = "?"

// blanks lists the options that a line leaves to a form.
func (l Line) blanks() []string {
	var names []string
	for _, g := range l.Options {
		if g.Value == Blank {
			names = append(names, g.Name)
		}
	}
	return names
}

// WithoutBlanks returns the line without what it leaves to a form.
func (l Line) WithoutBlanks() Line {
	for _, name := range l.blanks() {
		l = l.Without(name)
	}
	return l
}

// FormFor tells whether the line of a button opens a form: it leaves blanks, or
// its command asks for one and the line gives none of what the form asks for.
func (c *Catalogue) FormFor(line Line) (Form, bool) {
	command, err := c.Find(line)
	if err != nil {
		return Form{}, false
	}
	names := line.blanks()
	if len(names) == 0 {
		if names = command.Form; slices.ContainsFunc(names, line.gives) {
			return Form{}, false
		}
	}
	form := Form{Title: command.Help}
	for _, name := range names {
		if o, ok := command.binding(name); ok {
			form.Fields = append(form.Fields, Field{Option: o.Option})
		}
	}
	return form, len(form.Fields) > 0
}
