package bot

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"detent/tuning"
)

func TestParseLine(t *testing.T) {
	for text, want := range map[string]Line{
		`/help`: {Words: []string{"help"}},
		`  /Car   ADD name:"Blue hatch" drive:front `: {Words: []string{"car", "add"}, Options: []Given{{"name", "Blue hatch"}, {"drive", "front"}}},
		`/feel lap:1:23.4 notes:"he said \"go\""`:     {Words: []string{"feel"}, Options: []Given{{"lap", "1:23.4"}, {"notes", `he said "go"`}}},
		`/car add name:“Blue hatch”`:                  {Words: []string{"car", "add"}, Options: []Given{{"name", "Blue hatch"}}},
		`/car show car:`:                              {Words: []string{"car", "show"}, Options: []Given{{"car", ""}}},
		`/symptom what: understeer where: "exit"`:     {Words: []string{"symptom"}, Options: []Given{{"what", "understeer"}, {"where", "exit"}}},
		`/feel lap: 1:23.4`:                           {Words: []string{"feel"}, Options: []Given{{"lap", "1:23.4"}}},
		`/car show car: page:2`:                       {Words: []string{"car", "show"}, Options: []Given{{"car", ""}, {"page", "2"}}},
		`/feel notes:"a \\ b"`:                        {Words: []string{"feel"}, Options: []Given{{"notes", `a \ b`}}},
	} {
		got, err := ParseLine(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", text, diff)
		}
	}
}

func TestParseLineRefuses(t *testing.T) {
	for _, text := range []string{``, `car list`, `/car add name:"open`, `/car name:x add`, `/car add name:"x"y`, `/car :x`, "/" + strings.Repeat("x", MaxLine)} {
		if line, err := ParseLine(text); err == nil || tuning.KindOf(err) == tuning.Internal {
			t.Errorf("%.40q was read as %+v, %v", text, line, err)
		}
	}
}

func TestQuoteReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.String().Draw(t, "value")
		line, err := ParseLine("/car show car:" + Quote(value))
		if err != nil {
			t.Fatal(err)
		}
		if got := line.Options[0].Value; got != value {
			t.Fatalf("%q reads back as %q", value, got)
		}
	})
}

func FuzzParseLine(f *testing.F) {
	for _, s := range []string{`/car add name:"Blue hatch" drive:front`, `/`, `/a b:"\`, "/x y:\u201cz\u201d", "/\xff:\xfe"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		line, err := ParseLine(text)
		if err != nil {
			if tuning.KindOf(err) != tuning.Invalid && tuning.KindOf(err) != tuning.Limit {
				t.Fatal(err)
			}
			return
		}
		for _, o := range line.Options {
			if o.Name == "" {
				t.Fatalf("an option without a name in %q", text)
			}
		}
	})
}
