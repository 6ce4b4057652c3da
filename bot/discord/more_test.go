package discord

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"detent/bot"
	"detent/bot/bottest"
	"detent/tuning/unit"
)

// wide are more options than the platform lists, as a car with many figures
// would have them; the required one and the file stand where there is no room.
type wide struct {
	A01, A02, A03, A04, A05, A06, A07, A08, A09, A10 *unit.Mass
	A11, A12, A13, A14, A15, A16, A17, A18, A19, A20 *unit.Mass
	A21, A22, A23, A24                               *unit.Mass
	Clicks                                           *int
	Tyre                                             string
	Gap                                              *unit.Length
	Name                                             string
	Sheet                                            string
	Note                                             string
}

// Options declares them.
func (*wide) Options() []bot.Option {
	var all []bot.Option
	for f := range reflect.TypeFor[wide]().Fields() {
		all = append(all, bot.Option{Name: strings.ToLower(f.Name), Help: "an invented figure", Kind: bot.Quantity, Of: unit.OfMass})
	}
	last := all[24:]
	last[0].Kind, last[0].Max = bot.Whole, 40
	last[1].Kind, last[1].Choices = bot.Choice, []string{"road", "semi-slick", "slick"}
	last[2].Of = unit.OfLength
	last[3].Kind, last[3].Required = bot.Text, true
	last[4].Kind = bot.Upload
	last[5].Kind = bot.Text
	return all
}

// Give takes what was decoded.
func (w *wide) Give(option string, value any) {
	f := reflect.ValueOf(w).Elem().FieldByNameFunc(func(name string) bool { return strings.EqualFold(name, option) })
	if f.Kind() == reflect.Pointer {
		f.Set(reflect.New(f.Type().Elem()))
		f = f.Elem()
	}
	f.Set(reflect.ValueOf(value).Convert(f.Type()))
}

// wideAdapterClub is an adapterClub whose bot has one command of thirty options.
func wideAdapterClub(t *testing.T) *adapterClub {
	type options struct{ Wide wide }
	command := bot.Declare(bot.Command{Name: "rig edit", Help: "Change a rig"}, func(_ context.Context, _ bot.Call, _ bot.Book, o options) (bot.Reply, error) {
		w := o.Wide
		if w.A24 == nil || w.Clicks == nil || w.Gap == nil {
			return bot.Reply{Title: w.Name + " is unchanged"}, nil
		}
		return bot.Reply{Title: w.Name, Text: strings.Join([]string{unit.Show(unit.OfMass, float64(*w.A24), false), unit.Show(unit.OfLength, float64(*w.Gap), false), w.Tyre, w.Note, w.Sheet}, "; ")}, nil
	})
	if len(command.Options) != 30 {
		t.Fatalf("%d options, 30 are wanted", len(command.Options))
	}
	settings := bottest.NewSettings()
	person := bottest.Person{T: t, Commands: []bot.Command{command}, Book: &settings}
	w := newAdapterClub(t)
	w.bot.config.Lines = bot.NewCatalogue(person.Commands)
	w.answer = func(_ context.Context, ask bot.Ask) bot.Reply { return person.Ask(ask.Line.String()) }
	w.suggest = func(ask bot.Ask, option, typed string) []bot.Suggestion {
		return person.Suggests(ask.Line.String(), option, typed)
	}
	return w.register().join()
}

// TestMoreOptionsThanThePlatformLists registers them with the stand-in, which
// refuses a 26th as the platform does.
func TestMoreOptionsThanThePlatformLists(t *testing.T) {
	t.Parallel()
	w := wideAdapterClub(t)
	options := w.Commands(w.club)[0].Options[0].Options
	if len(options) != maxOptions {
		t.Fatalf("%d options are listed, want %d", len(options), maxOptions)
	}
	if first, last := options[0], options[maxOptions-1]; first.Name != "name" || !first.Required || last.Name != moreOption || !last.Autocomplete ||
		!strings.Contains(last.Description, "a23, a24, clicks, tyre, gap, note") {
		t.Errorf("first %+v, last %+v", first, last)
	}
	if sheet := options[maxOptions-2]; sheet.Name != "sheet" {
		t.Errorf("the file cannot be typed and has to be listed, there is %s", sheet.Name)
	}

	r := w.alice.Type(`/rig edit name:Press a01:20kg more:"a24:12,0kg tyre:semi-slick gap:12mm note:\"two words\" clicks:7"`)
	if got := r.Content(); !strings.Contains(got, "12 kg; 0.012 m; semi-slick; two words") {
		t.Errorf("answered %q", got)
	}
	if got := w.asks()[0].Line.String(); got != `/rig edit name:Press a01:20kg a24:12,0kg tyre:semi-slick gap:12mm note:"two words" clicks:7` {
		t.Errorf("the bot was asked %s", got)
	}
}

func TestMoreRefusesWhatItCannotRead(t *testing.T) {
	t.Parallel()
	w := wideAdapterClub(t)
	for typed, want := range map[string]string{
		`/rig edit name:Press more:heavy`:               "more takes name:value with spaces between, for these options: a23, a24, clicks, tyre, gap, note.",
		`/rig edit name:Press more:"note:\"open"`:       "more takes name:value",
		`/rig edit name:Press more:sheet:a.csv`:         "sheet is an option of its own",
		`/rig edit name:Press more:gop:12mm`:            "has no option gop (did you mean gap?)",
		`/rig edit name:Press a01:2kg more:a01:3kg`:     "You gave a01 twice",
		`/rig edit name:Press more:"clicks:7 clicks:8"`: "You gave clicks twice",
		`/rig edit name:Press more:clicks:41`:           "from 0 to 40",
	} {
		if r := w.alice.Type(typed); !strings.Contains(r.Content(), want) || !r.Private() {
			t.Errorf("%s: answered %q, want %q for the person alone", typed, r.Content(), want)
		}
	}
}

func TestSuggestionsInMore(t *testing.T) {
	t.Parallel()
	w := wideAdapterClub(t)
	for typed, want := range map[string][]string{
		`/rig edit name:Press more:`:                           {"a23:", "a24:", "clicks:", "tyre:", "gap:", "note:"},
		`/rig edit name:Press more:a2`:                         {"a23:", "a24:"},
		`/rig edit name:Press more:"gap:12mm t"`:               {"gap:12mm tyre:"},
		`/rig edit name:Press more:"gap:12mm "`:                {"gap:12mm a23:", "gap:12mm a24:", "gap:12mm clicks:", "gap:12mm tyre:", "gap:12mm note:"},
		`/rig edit name:Press more:"note:\"so far\" tyre:se"`:  {`note:"so far" tyre:semi-slick`},
		`/rig edit name:Press more:"note:\"a tyre:s"`:          nil,
		`/rig edit name:Press more:"heavy tyre:s"`:             nil,
		`/rig edit name:Press more:"gap:12mm note:very much "`: nil,
	} {
		var got []string
		for _, c := range w.alice.Autocomplete(typed) {
			got = append(got, c.Value.(string))
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s: offered %q, want %q", typed, got, want)
		}
	}
}

// TestNoCommandOfOursIsCalledMore sees to it that the option of that name is
// this way in's alone.
func TestNoCommandOfOursIsCalledMore(t *testing.T) {
	for _, c := range lines.Commands() {
		for _, o := range c.Options {
			if o.Name == moreOption {
				t.Errorf("/%s declares %s, which is kept for what the platform has no room for", c.Name, o.Name)
			}
		}
		if listed, more := listed(c); len(listed) > maxOptions || len(more) > 0 && len(listed) >= maxOptions {
			t.Errorf("/%s: %d options are listed", c.Name, len(listed))
		}
	}
}
