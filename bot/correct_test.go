package bot_test

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/reading"
	"detent/tuning"
)

// desk is a ledger with drafts.
type desk struct {
	ledger
	kept []string
}

func (d *desk) SaveDraft(_ context.Context, line string) (int64, error) {
	d.kept = append(d.kept, line)
	return int64(len(d.kept)), nil
}

func (d *desk) Draft(_ context.Context, id int64) (string, error) {
	if id < 1 || id > int64(len(d.kept)) {
		return "", bot.Problemf(tuning.NotFound, "That line is no longer kept: type it again.")
	}
	return d.kept[id-1], nil
}

func (d *desk) Read(_ context.Context, _ tuning.Who, _ time.Time, fn func(bot.Book) error) error {
	return fn(d)
}

func (d *desk) Once(_ context.Context, _ tuning.Who, _ time.Time, _ string, fn func(bot.Book) (bot.Reply, error)) (bot.Reply, error) {
	return fn(d)
}

type runOptions struct {
	Grip  int              `name:"grip" help:"a mark" required:"yes" min:"1" max:"10"`
	End   reading.AxleWord `name:"end" help:"an end" required:"yes" ask:"Which end?"`
	Notes string           `name:"notes" help:"words"`
	Entry *int             `name:"entry" help:"a mark" min:"-3" max:"3"`
	Mid   *int             `name:"mid" help:"a mark" min:"-3" max:"3"`
	Exit  *int             `name:"exit" help:"a mark" min:"-3" max:"3"`
	bot.CarOption
}

// asker asks lines of a small catalogue, from a way in that opens forms.
type asker struct {
	*testing.T
	*desk
	router *bot.Router
}

func newAsker(t *testing.T) asker {
	d := &desk{}
	run := bot.Declare(bot.Command{Name: "run", Help: "Run", Form: []string{"grip", "notes"}}, func(_ context.Context, call bot.Call, _ bot.Book, o runOptions) (bot.Reply, error) {
		return bot.Reply{Title: call.Ask.Line.String()}, nil
	})
	return asker{t, d, bot.NewRouter(bot.NewCatalogue([]bot.Command{run}), d, slog.New(slog.DiscardHandler))}
}

func (a asker) ask(text string) bot.Ask {
	a.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		a.Fatal(err)
	}
	return bot.Ask{Line: line, Forms: true, Who: tuning.Who{Role: tuning.MemberRole}}
}

func (a asker) answer(text string) bot.Reply {
	a.Helper()
	return a.router.Answer(a.Context(), a.ask(text))
}

// fields are what stands in the form that a line opens.
func (a asker) fields(text string) []string {
	a.Helper()
	form, ok := a.router.Form(a.Context(), a.ask(text))
	if !ok {
		a.Fatalf("%s opens no form", text)
	}
	var all []string
	for _, f := range form.Fields {
		all = append(all, f.Name+"="+f.Value)
	}
	return all
}

// A refused line comes back in a form, filled with what was typed, without what
// a button put into it.
func TestCorrectIt(t *testing.T) {
	a := newAsker(t)
	refused := a.answer(`/run grip:lots end:rear car:#7`)
	if refused.Problem == nil || len(refused.Actions) != 1 || refused.Actions[0].Label != "Correct it" {
		t.Fatalf("%+v", refused)
	}
	press := refused.Actions[0].Line()
	if got := fmt.Sprint(a.fields(press)); got != "[grip=lots end=rear notes=]" {
		t.Errorf("the form has %s", got)
	}
	if got := a.answer(press + ` grip:7 end:front`); got.Title != "/run car:#7 grip:7 end:front" {
		t.Errorf("corrected it asks %s", got.Title)
	}
	if again := a.answer(press + ` grip:some end:front`); len(again.Actions) != 1 || again.Actions[0].Line() == press {
		t.Errorf("refused again it offers %+v", again.Actions)
	}
}

// More options than a form has are one field with the whole line.
func TestCorrectAWholeLine(t *testing.T) {
	a := newAsker(t)
	typed := `/run grip:7 end:rear notes:"a b" entry:9 mid:0 exit:0`
	press := a.answer(typed).Actions[0].Line()
	if got := a.fields(press); len(got) != 1 || got[0] != "line="+typed {
		t.Fatalf("the form has %q", got)
	}
	if got := a.answer(press + ` line:"/run grip:7 end:rear entry:-1"`); got.Title != "/run grip:7 end:rear entry:-1" {
		t.Errorf("corrected it asks %s", got.Title)
	}
	if got := a.fields(a.answer(`/rnu grip:7`).Actions[0].Line()); len(got) != 1 || got[0] != "line=/rnu grip:7" {
		t.Errorf("of an unknown command the form has %q", got)
	}
}

// A question whose answer has no room in a button is kept behind it.
func TestLongQuestions(t *testing.T) {
	a := newAsker(t)
	notes := strings.Repeat("slides ", 20)
	question := a.answer(`/run grip:7 notes:"` + notes + `"`)
	if question.Title != "Which end?" || len(question.Actions) != 2 {
		t.Fatalf("%+v", question)
	}
	press := question.Actions[1]
	if len(press.Line()) > 60 || !strings.Contains(press.Ask, "end:rear") {
		t.Errorf("the button asks %s", press.Line())
	}
	if got := a.answer(press.Line()); got.Title != `/run grip:7 notes:"`+notes+`" end:rear` {
		t.Errorf("pressed, it asks %s", got.Title)
	}
}

func TestWhatCannotBeCorrected(t *testing.T) {
	a := newAsker(t)
	for _, line := range []string{`/run`, `/run car:#7`, `/rnu`} {
		if got := a.answer(line); len(got.Actions) > 0 || len(a.kept) > 0 {
			t.Errorf("%s offers %+v", line, got.Actions)
		}
	}
	terminal := a.ask(`/run grip:lots end:rear`)
	terminal.Forms = false
	if got := a.router.Answer(t.Context(), terminal); len(got.Actions) > 0 || len(a.kept) > 0 {
		t.Errorf("where no form opens it offers %+v", got.Actions)
	}
	if got := a.answer(`/correct draft:99`); got.Problem == nil || got.Problem.Kind != tuning.NotFound {
		t.Errorf("what is no longer kept: %+v", got)
	}
	if _, ok := a.router.Form(t.Context(), a.ask(`/correct draft:99`)); ok {
		t.Error("what is no longer kept opens a form")
	}
}
