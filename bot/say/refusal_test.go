package say

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/figures"
)

// refusals are all refusals, with what a member reads of them.
var refusals = map[string][]tuning.Refusal{
	"Missing": {
		tuning.Missing{What: tuning.CarThing}, tuning.Missing{What: tuning.CarThing, Name: "Blue hatch"},
		tuning.Missing{What: tuning.EventThing}, tuning.Missing{What: tuning.EventThing, Name: "Spring day"},
		tuning.Missing{What: tuning.MemberThing, Name: "Sam"}, tuning.Missing{What: tuning.AdviceThing, Name: "7"},
		tuning.Missing{What: tuning.KeptThing, Name: "Dry"},
		tuning.Missing{What: tuning.SuggestionThing, Name: "7"},
	},
	"Gone":        {tuning.Gone{What: tuning.CarThing, Name: "Blue hatch"}, tuning.Gone{What: tuning.KeptThing}, tuning.Gone{What: tuning.EventThing, Name: "Spring day"}},
	"Ambiguous":   {tuning.Ambiguous{What: tuning.CarThing, Among: []string{"Blue hatch", "Red racer"}}, tuning.Ambiguous{What: tuning.MemberThing, Name: "Sam"}},
	"Taken":       {tuning.Taken{What: tuning.CarThing}, tuning.Taken{What: tuning.KeptThing}, tuning.Taken{What: tuning.EventThing, Name: "Spring day"}},
	"NoSearch":    {tuning.NoSearch{Car: "Blue hatch", Weather: tuning.Dry}},
	"Overlaps":    {tuning.Overlaps{Event: "Spring day"}},
	"Cancelled":   {tuning.Cancelled{Event: "Spring day"}},
	"Full":        {tuning.Full{Event: "Spring day", Places: 40}},
	"Entered":     {tuning.Entered{Car: "Blue hatch", Event: "Spring day"}},
	"NotEntered":  {tuning.NotEntered{Car: "Blue hatch", Event: "Spring day"}},
	"Overtaken":   {tuning.Overtaken{Logged: tuning.Logged{Change: tuning.Change{Reason: tuning.ByFitting}}}},
	"Moved":       {tuning.Moved{Move: tuning.Move{Corner: tuning.FL, Adjuster: tuning.Rebound}}},
	"Unfitted":    {tuning.Unfitted{}, tuning.Unfitted{Car: "Blue hatch", Axle: tuning.Rear}},
	"NoDampers":   {tuning.NoDampers{Car: "Blue hatch"}},
	"NoBump":      {tuning.NoBump{Car: "Blue hatch"}},
	"BadRange":    {tuning.BadRange{Adjuster: tuning.HighBump}, tuning.BadRange{Adjuster: tuning.HighBump, Clicks: 200}},
	"NoAdjuster":  {tuning.NoAdjuster{Ways: 2, Adjuster: tuning.HighBump}},
	"PastStop":    {tuning.PastStop{Adjuster: tuning.Rebound, Typed: 31, Most: 30, Count: tuning.FromHard}},
	"NameTooLong": {tuning.NameTooLong{Characters: 90}},
	"BadMark":     {tuning.BadMark{Where: tuning.Exit}},
	"NoRemedy":    {tuning.NoRemedy{What: tuning.Understeer}},
	"OutOfBounds": {tuning.Car{CGHeight: 4.8}.Validate().(tuning.Refusal)},
	"ClockSkew":   {tuning.ClockSkew{Apart: 6e11}},
	"NewerSchema": {tuning.NewerSchema{Has: 9, Knows: 8}},
	"NoZone":      {calendar.NoZone{Name: "Nowhere"}},
	"HeavyWheels": {figures.HeavyWheels{}},
	"TableFault":  {},
	"Unanswered":  {},
	"Plain":       {},
	"Outage":      {},
}

func init() {
	for p := range maps.Keys(plainRefusals) {
		refusals["Plain"] = append(refusals["Plain"], p)
	}
	for o := range maps.Keys(outages) {
		refusals["Outage"] = append(refusals["Outage"], o)
	}
	for _, why := range tuning.TableFaultKinds {
		refusals["TableFault"] = append(refusals["TableFault"], tuning.TableFault{Why: why, Line: 3, Values: 5, Column: "bump force", Click: 4, Softer: 2})
	}
	for _, task := range figures.Tasks {
		refusals["Unanswered"] = append(refusals["Unanswered"], figures.Unanswered{Task: task, Err: errors.New("it is too stiff")})
	}
}

// Each refusal that tuning declares has a sentence, for members and for whoever
// runs the program; and only they read of the settings of the program.
func TestEveryRefusalHasASentence(t *testing.T) {
	types, constants := declared(t)
	for name := range types {
		if len(refusals[name]) == 0 {
			t.Errorf("%s has no sentence", name)
		}
	}
	for of, values := range constants {
		for _, value := range values {
			has := plainRefusals[tuning.Plain(value)]
			if of == "Outage" {
				has = outages[tuning.Outage(value)].member
			}
			if has == "" {
				t.Errorf("%s %q has no sentence", of, value)
			}
		}
	}
	said := map[string]tuning.Refusal{}
	for _, all := range refusals {
		for _, r := range all {
			member, ok := Refusal(r)
			operator, told := OperatorRefusal(r)
			if !ok || !told || !plain(member) || !plain(operator) {
				t.Errorf("%#v: %q, %q", r, member, operator)
			}
			if strings.Contains(member, "DETENT_") {
				t.Errorf("%#v tells members of a setting: %s", r, member)
			}
			if strings.Contains(r.Error(), " /") || r.Refuses() == "" {
				t.Errorf("%#v is %q, %s", r, r.Error(), r.Refuses())
			}
			if other, again := said[operator]; again {
				t.Errorf("%#v and %#v are both %q", r, other, operator)
			}
			said[operator] = r
		}
	}
}

// plain tells whether a text is sentences with nothing left to fill in.
func plain(s string) bool {
	begins := s != "" && !unicode.IsLower([]rune(s)[0]) || strings.HasPrefix(s, "cg-height")
	return begins && strings.HasSuffix(s, ".") && !strings.Contains(s, "%!") && !strings.Contains(s, "  ")
}

// declared reads which types of tuning refuse, and the constants of those that
// are words.
func declared(t *testing.T) (types map[string]bool, constants map[string][]string) {
	types, constants = map[string]bool{}, map[string][]string{}
	read := func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.FuncDecl:
			if n.Name.Name == "Refuses" && n.Recv != nil {
				types[n.Recv.List[0].Type.(*ast.Ident).Name] = true
			}
		case *ast.ValueSpec:
			if of, ok := n.Type.(*ast.Ident); ok && (of.Name == "Plain" || of.Name == "Outage") && len(n.Values) == 1 {
				value, err := strconv.Unquote(n.Values[0].(*ast.BasicLit).Value)
				if err != nil {
					t.Fatal(err)
				}
				constants[of.Name] = append(constants[of.Name], value)
			}
		}
		return true
	}
	err := filepath.WalkDir("../../tuning", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err == nil {
			ast.Inspect(file, read)
		}
		return err
	})
	if err != nil || len(types) < 20 || len(constants["Plain"]) < 10 || len(constants["Outage"]) < 5 {
		t.Fatalf("reading tuning found %v and %v: %v", slices.Sorted(maps.Keys(types)), constants, err)
	}
	return types, constants
}

// What reads as it should aloud, one of each kind.
func TestRefusalsRead(t *testing.T) {
	for want, r := range map[string]tuning.Refusal{
		"cg-height lies between 0.15 m and 1.2 m, for example cg-height:0.48m.":                            tuning.Car{CGHeight: 4.8}.Validate().(tuning.Refusal),
		"A two-way damper has no high-speed bump; it has bump and rebound.":                                tuning.NoAdjuster{Ways: 2, Adjuster: tuning.HighBump},
		"31 is past the stop: the rebound goes from 0 to 30, counted from hard.":                           tuning.PastStop{Adjuster: tuning.Rebound, Typed: 31, Most: 30, Count: tuning.FromHard},
		"Line 3 of the force table: the bump force must be a number, 0 or more.":                           tuning.TableFault{Why: tuning.BadValue, Line: 3, Column: "bump force"},
		"The vehicle model cannot make the rear damper: it is too stiff.":                                  figures.Unanswered{Task: figures.MakeDamper, Axle: tuning.Rear, Err: errors.New("it is too stiff")},
		"The bot's database does not answer: try again in a minute.":                                       tuning.Unreachable,
		`Which car: car:"A", car:"B" or another? /car main names the one that is meant when none is said.`: tuning.Ambiguous{What: tuning.CarThing, Among: []string{"A", "B"}},
	} {
		if got, _ := Refusal(r); got != want {
			t.Errorf("%#v: %q, want %q", r, got, want)
		}
	}
	if got, _ := OperatorRefusal(tuning.ClockSkew{Apart: 6*60e9 + 1}); got != "The clocks of this machine and of the database are 6 minutes apart: set them right." {
		t.Error(got)
	}
}
