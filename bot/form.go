package bot

// Form is what a button asks before its line can be answered: the long
// entries, which nobody wants to type as one line on a phone.
type Form struct {
	Title  string
	Fields []Option
}

// FormFor tells whether a line opens a form: its command asks for one, and the
// line gives none of what the form asks for.
func FormFor(line Line) (Form, bool) {
	command, err := find(Commands(), line.Words)
	if err != nil || len(command.Form) == 0 {
		return Form{}, false
	}
	form := Form{Title: command.Help}
	for _, name := range command.Form {
		if line.gives(name) {
			return Form{}, false
		}
		if o, ok := command.option(name); ok {
			form.Fields = append(form.Fields, o)
		}
	}
	return form, true
}

func (l Line) gives(option string) bool {
	for _, g := range l.Options {
		if g.Name == option {
			return true
		}
	}
	return false
}

// String writes the line as ParseLine reads it.
func (l Line) String() string {
	text := "/"
	for i, w := range l.Words {
		if i > 0 {
			text += " "
		}
		text += w
	}
	for _, g := range l.Options {
		text += " " + g.Name + ":" + Quote(g.Value)
	}
	return text
}

// Complete tells whether a line gives all that its command requires, so that
// it can be asked as it stands.
func Complete(text string) bool {
	line, err := ParseLine(text)
	if err != nil {
		return false
	}
	command, err := find(Commands(), line.Words)
	for _, o := range command.Options {
		if o.Required && !line.gives(o.Name) {
			return false
		}
	}
	return err == nil
}

// Lookup finds the command that a line asks.
func Lookup(line Line) (Command, bool) {
	command, err := find(Commands(), line.Words)
	return command, err == nil
}

// Hint says what an option is for and how its value is written.
func (o Option) Hint() string {
	switch o.Kind {
	case Text, Whole:
		return o.Help
	}
	return o.Help + ": " + o.form()
}
