package bot

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"detent/tuning"
	"detent/tuning/unit"
)

// everything is one option of each sort.
type everything struct {
	Name string `name:"name" help:"a text" required:"yes"`
	CarOption
	Weather *tuning.Weather `name:"weather" help:"a word of the trade"`
	Order   string          `name:"order" help:"a word of the tag" choices:"up,down"`
	Hop     *bool           `name:"hop" help:"yes or no"`
	Sure    bool            `name:"sure" help:"yes alone" choices:"yes"`
	Grip    int             `name:"grip" help:"a number" min:"1" max:"10"`
	Mark    *int            `name:"mark" help:"a number that may be 0" min:"-3" max:"3"`
	Advice  int64           `name:"advice" help:"a large number" min:"1" max:"4503599627370496"`
	Mass    *unit.Mass      `name:"mass" help:"a quantity"`
	Bar     *unit.Stiffness `name:"bar" help:"a quantity that may be 0" zero:"yes"`
	Lap     time.Duration   `name:"lap" help:"a lap" kind:"lap"`
	Quiet   *time.Duration  `name:"quiet" help:"a time of day" kind:"clock"`
	After   time.Duration   `name:"after" help:"a length" kind:"length"`
	Starts  time.Time       `name:"starts" help:"a moment"`
	File    string          `name:"file" help:"a file" kind:"upload"`
	Table   table
}

// table is two options that no tag declares.
type table map[string]float64

func (table) Options() []Option {
	return []Option{{Name: "height", Help: "a height", Kind: Quantity, Of: unit.OfLength}, {Name: "width", Help: "a width", Kind: Quantity, Of: unit.OfLength}}
}

func (t *table) Give(option string, value any) {
	if *t == nil {
		*t = table{}
	}
	(*t)[option] = value.(float64)
}

// given decodes what is typed behind "/try".
func given(t *testing.T, typed string) (got everything, err error) {
	t.Helper()
	command := Declare(Command{Name: "try", Help: "Try"}, noAnswer[everything])
	line, err := ParseLine("/try " + typed)
	if err != nil {
		t.Fatal(err)
	}
	err = command.decode(Ask{Line: line, Files: map[string]string{"file": "its content"}}, false, reflect.ValueOf(&got).Elem())
	return got, err
}

func TestOptionsAreDecoded(t *testing.T) {
	wet, yes, no, zero := tuning.Wet, true, false, 0
	mass, bar, midnight := unit.Mass(1250), unit.Stiffness(0), time.Duration(0)
	for typed, want := range map[string]everything{
		`name:x`:                           {Name: "x"},
		`name:"a b" car:"Blue hatch"`:      {Name: "a b", CarOption: CarOption{"Blue hatch"}},
		`name:x weather:damp order:Up`:     {Name: "x", Weather: &wet, Order: "up"},
		`name:x hop:y sure:yes`:            {Name: "x", Hop: &yes, Sure: true},
		`name:x hop:no grip:7 mark:0`:      {Name: "x", Hop: &no, Grip: 7, Mark: &zero},
		`name:x advice:4503599627370496`:   {Name: "x", Advice: 1 << 52},
		`name:x mass:1250kg bar:0N/mm`:     {Name: "x", Mass: &mass, Bar: &bar},
		`name:x lap:1:23.4 quiet:00:00`:    {Name: "x", Lap: 83400 * time.Millisecond, Quiet: &midnight},
		`name:x after:90m file:a.csv`:      {Name: "x", After: 90 * time.Minute, File: "its content"},
		`name:x starts:"2026-05-16 09:00"`: {Name: "x", Starts: time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)},
		`name:x width:50cm`:                {Name: "x", Table: table{"width": 0.5}},
	} {
		got, err := given(t, typed)
		if err != nil {
			t.Errorf("%s: %v", typed, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", typed, diff)
		}
	}
}

func TestOptionsAreRefused(t *testing.T) {
	for typed, words := range map[string]string{
		``:                       "Add name:TEXT to /try: a text.",
		`name:x name:y`:          "You gave name twice",
		`name:x nmae:y`:          "did you mean name?",
		`name:x weather:foggy`:   "weather cannot be \"foggy\". It takes dry or wet.",
		`name:x sure:no`:         "It takes yes.",
		`name:x grip:11`:         "grip takes a whole number from 1 to 10",
		`name:x mass:0kg`:        "mass cannot be zero",
		`name:x mass:heavy`:      "mass: ",
		`name:x lap:soon`:        "is not a lap time",
		`name:x quiet:25:00`:     "quiet takes a time of day",
		`name:x after:-1h`:       "after takes a length of time",
		`name:x starts:tomorrow`: "starts takes a date and a time",
		`name:x height:0`:        "height",
	} {
		if _, err := given(t, typed); tuning.KindOf(err) != tuning.Invalid || !strings.Contains(err.Error(), words) {
			t.Errorf("%s: %v, want %q", typed, err, words)
		}
	}
}

func TestGivesNothing(t *testing.T) {
	if got, _ := given(t, `name:""`); !GivesNothing(got.CarOption) || !GivesNothing(got) {
		t.Errorf("%+v gives something", got)
	}
	if got, _ := given(t, `name:x width:1m`); GivesNothing(got.Table) {
		t.Error("a table's option is nothing")
	}
}

// A mistake in a declaration is found when the catalogue is made.
func TestDeclarationsThatCannotBe(t *testing.T) {
	type twice struct {
		A string `name:"a" help:"a"`
		B string `name:"a" help:"b"`
	}
	for words, declare := range map[string]func(){
		"needs a name and a help": func() { Declare(Command{}, noAnswer[struct{ A string }]) },
		"declares a twice":        func() { Declare(Command{}, noAnswer[twice]) },
		"min:": func() {
			Declare(Command{}, noAnswer[struct {
				A int `name:"a" help:"a" max:"3"`
			}])
		},
		"there is no source": func() {
			Declare(Command{}, noAnswer[struct {
				A string `name:"a" help:"a" source:"boats"`
			}])
		},
		"there is no kind": func() {
			Declare(Command{}, noAnswer[struct {
				A time.Duration `name:"a" help:"a"`
			}])
		},
		"cannot be an option": func() {
			Declare(Command{}, noAnswer[struct {
				A []string `name:"a" help:"a"`
			}])
		},
		"asks for grip":        func() { Declare(Command{Form: []string{"grip"}}, noAnswer[CarOption]) },
		"no option grip to":    func() { Suggesting(Declare(Command{}, noAnswer[CarOption]), "grip", noOffer[CarOption]) },
		"/a is declared twice": func() { NewCatalogue([]Command{{Name: "a"}}, []Command{{Name: "a"}}) },
	} {
		if said := panicOf(declare); !strings.Contains(said, words) {
			t.Errorf("panics with %q, want %q", said, words)
		}
	}
}

func panicOf(do func()) (said string) {
	defer func() { said = fmt.Sprint(recover()) }()
	do()
	return ""
}
