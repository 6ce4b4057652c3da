package bot

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"unicode/utf8"

	"detent/tuning"
)

// A line that was refused, and one that has no room in a button, is kept as a
// draft for a day. "/correct draft:12" opens a form filled with what was typed,
// and with what came back of the form asks the line corrected; "/resume
// draft:12" asks it as it was kept.
const (
	correctWord = "correct"
	resumeWord  = "resume"
	draftOption = "draft"
	wholeLine   = "line" // the field for a line of more options than a form has
)

const mostFields = 5 // of a form

// Drafts keeps lines for a day, each for whoever asked it.
type Drafts interface {
	// SaveDraft keeps a line of the person who asks and returns its number.
	SaveDraft(ctx context.Context, line string) (int64, error)
	// Draft finds a line that the person who asks had kept.
	Draft(ctx context.Context, id int64) (string, error)
}

// Form tells whether a button that was pressed opens a form, and what stands in
// it already.
func (r *Router) Form(ctx context.Context, ask Ask) (Form, bool) {
	if !ask.Line.only(correctWord) {
		return r.catalogue.FormFor(ask.Line)
	}
	text, err := r.draft(ctx, ask)
	if err != nil {
		return Form{}, false
	}
	form := Form{Title: "Correct it"}
	line, err := ParseLine(text)
	command, unknown := r.catalogue.Find(line)
	if err == nil && unknown == nil {
		form.Fields = command.corrections(line)
	}
	if form.Fields == nil {
		form.Fields = []Field{{Option{Name: wholeLine, Help: "the whole line"}, text}}
	}
	return form, true
}

// corrections are the fields for what a person typed in a line, and for what
// else the command's form asks; nil where that is too much for a form.
func (c Command) corrections(line Line) []Field {
	var fields []Field
	for _, g := range line.Options {
		o, known := c.binding(g.Name)
		switch _, pressed := numberOf(g.Value); {
		case !known:
			return nil
		case !pressed:
			fields = append(fields, Field{o.Option, g.Value})
		}
	}
	if len(fields) > mostFields {
		return nil
	}
	for _, name := range c.Form {
		if o, ok := c.binding(name); ok && len(fields) < mostFields && !line.gives(name) {
			fields = append(fields, Field{Option: o.Option})
		}
	}
	return fields
}

// resumed is the ask that a draft stands for: corrected with what came back of
// its form. Any other ask it returns as it is.
func (r *Router) resumed(ctx context.Context, ask Ask) (Ask, error) {
	if !ask.Line.only(correctWord) && !ask.Line.only(resumeWord) {
		return ask, nil
	}
	text, err := r.draft(ctx, ask)
	if err != nil {
		return ask, err
	}
	corrections := ask.Line.Without(draftOption).Options
	for _, g := range corrections {
		if g.Name == wholeLine {
			ask.Line, err = ParseLine(g.Value)
			return ask, err
		}
	}
	line, err := ParseLine(text)
	if err == nil && len(corrections) > 0 {
		line.Options = slices.DeleteFunc(line.Options, func(g Given) bool { _, pressed := numberOf(g.Value); return !pressed })
		line.Options = append(line.Options, corrections...)
	}
	ask.Line = line
	return ask, err
}

// draft reads the line that an ask names by its number.
func (r *Router) draft(ctx context.Context, ask Ask) (text string, err error) {
	var id int64
	for _, g := range ask.Line.Options {
		if g.Name == draftOption {
			id, _ = strconv.ParseInt(g.Value, 10, 64)
		}
	}
	err = r.records.Read(ctx, ask.Who, ask.At, func(b Book) error {
		text, err = b.Draft(ctx, id)
		return err
	})
	return text, err
}

// correctable adds to a refusal what it takes to mend the line with a form:
// Correct it, where no other button does, and a draft behind each button whose
// line has no room in it.
func (r *Router) correctable(ctx context.Context, ask Ask, reply Reply) Reply {
	if !ask.Forms || reply.Problem == nil {
		return reply
	}
	long := slices.ContainsFunc(reply.Actions, Action.tooLong)
	correct := len(reply.Actions) == 0 && r.mendable(ask, reply.Problem.Kind)
	if !long && !correct {
		return reply
	}
	kept, err := r.records.Once(ctx, ask.Who, ask.At, ask.ID+" draft", func(b Book) (Reply, error) {
		kept := Reply{Actions: slices.Clone(reply.Actions)}
		for i, a := range kept.Actions {
			if !a.tooLong() {
				continue
			}
			id, err := b.SaveDraft(ctx, a.Line())
			if err != nil {
				return Reply{}, err
			}
			kept.Actions[i].Press = fmt.Sprintf("/%s %s:%d", resumeWord, draftOption, id)
		}
		if correct {
			id, err := b.SaveDraft(ctx, ask.Line.String())
			if err != nil {
				return Reply{}, err
			}
			kept.Actions = append(kept.Actions, Action{Label: "Correct it", Ask: fmt.Sprintf("/%s %s:%d", correctWord, draftOption, id)})
		}
		return kept, nil
	})
	if err != nil {
		r.log.Warn("a draft was not kept", "id", ask.ID, "err", err)
		return reply
	}
	reply.Actions = kept.Actions
	return reply
}

// tooLong tells whether a button's line has no room in it.
func (a Action) tooLong() bool {
	const longest = 78 // beside the number of its workspace
	return utf8.RuneCountInString(a.Line()) > longest
}

// mendable tells whether other words could make a refused line good: a person
// typed some, and what they sent along can be sent again.
func (r *Router) mendable(ask Ask, kind tuning.Kind) bool {
	switch kind {
	case tuning.Internal, tuning.Forbidden:
		return false
	}
	typed := false
	for _, g := range ask.Line.Options {
		if _, pressed := numberOf(g.Value); !pressed {
			typed = true
		}
		if r.catalogue.TakesFile(ask.Line, g.Name) {
			return false
		}
	}
	const longest = 4000 // that a form takes
	return typed && utf8.RuneCountInString(ask.Line.String()) <= longest
}

// only tells whether a line's only word is a word.
func (l Line) only(word string) bool { return len(l.Words) == 1 && l.Words[0] == word }
