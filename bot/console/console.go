// Package console is the way in from a terminal: lines as they are typed, one
// or a whole session of them, and replies as text or JSON.
package console

import (
	"context"
	"encoding/json"
	"io"
	"time"

	"detent/bot"
	"detent/tuning"
)

// Answerer answers asks: the bot's router.
type Answerer interface {
	Answer(ctx context.Context, ask bot.Ask) bot.Reply
	Suggest(ctx context.Context, ask bot.Ask, option, typed string) []bot.Suggestion
}

// Desk is one person at a terminal.
type Desk struct {
	Bot   Answerer
	Lines *bot.Catalogue // what can be asked
	Who   tuning.Who
	Now   func() time.Time
	Files string // the folder that pictures and files are put in
	JSON  bool
	Full  bool // all of a reply is printed, not its message alone
	Out   io.Writer
	Err   error // the first trouble with writing out
}

// Ask answers one line and prints the reply.
func (d *Desk) Ask(ctx context.Context, id, text string) bot.Reply {
	reply := d.Keep(d.answer(ctx, id, text), d.Who)
	if err := d.print(reply); err != nil && d.Err == nil {
		d.Err = err
	}
	return reply
}

// Keep puts the reply's picture and files on disk, among those of the person
// it is for, and names them in it.
func (d *Desk) Keep(reply bot.Reply, whose tuning.Who) bot.Reply {
	if err := d.keep(&reply, whose); err != nil {
		reply.Notes = append(reply.Notes, notPut(d.Files, err))
	}
	return reply
}

func (d *Desk) answer(ctx context.Context, id, text string) bot.Reply {
	ask := bot.Ask{ID: id, Who: d.Who, At: d.Now(), Whole: true}
	var err error
	if ask.Line, err = bot.ParseLine(text); err == nil {
		ask.Files, err = d.uploads(ctx, ask.Line)
	}
	if err != nil {
		return bot.Refuse(err)
	}
	return d.Bot.Answer(ctx, ask)
}

func (d *Desk) keep(reply *bot.Reply, whose tuning.Who) (err error) {
	folder := folderOf(d.Files, whose)
	if reply.Picture != nil && len(reply.Picture.PNG) > 0 {
		if reply.Picture.File, err = putFile(folder, "picture.png", d.Now(), reply.Picture.PNG); err != nil {
			return err
		}
	}
	for i, f := range reply.Files {
		if reply.Files[i].File, err = putFile(folder, f.Name, d.Now(), f.Data); err != nil {
			return err
		}
	}
	return nil
}

// askable are the buttons as a terminal shows them, which has no forms to ask for
// the rest of a line: a person reads what is to be typed, and JSON leaves such
// buttons out.
func (d *Desk) askable(actions []bot.Action) (shown []bot.Action) {
	for _, a := range actions {
		typed, opens := d.Lines.ToType(a.Ask)
		switch {
		case d.Lines.Complete(a.Ask):
			shown = append(shown, a)
		case opens && !d.JSON:
			shown = append(shown, bot.Action{Label: a.Label, Ask: typed})
		}
	}
	return shown
}

func (d *Desk) print(reply bot.Reply) error {
	reply.Actions = d.askable(reply.Actions)
	if d.JSON {
		enc := json.NewEncoder(d.Out)
		enc.SetEscapeHTML(false)
		return enc.Encode(reply)
	}
	text := Text(reply)
	if d.Full {
		text = Full(reply)
	}
	_, err := io.WriteString(d.Out, text)
	return err
}
