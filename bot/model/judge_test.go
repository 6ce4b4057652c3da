package model_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/unit"
)

var golden = flag.Bool("golden", false, "write the golden replies anew")

// modelled is what the model has a part in of a reply.
func modelled(r bot.Reply) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n", r.Title, r.Text)
	for _, remedy := range r.Remedies {
		if m := remedy.Model; m != nil {
			shown, err := json.Marshal(m)
			if err != nil {
				panic(err)
			}
			fmt.Fprintf(&b, "remedy %d: %s\n", remedy.Rank, shown)
		}
	}
	for _, note := range r.Notes {
		fmt.Fprintf(&b, "note: %s\n", note)
	}
	for _, a := range r.Assumed {
		fmt.Fprintf(&b, "assumed: %s\n", a)
	}
	for _, a := range r.Actions {
		fmt.Fprintf(&b, "%s: %s\n", a.Label, a.Ask)
	}
	if r.Picture != nil {
		fmt.Fprintf(&b, "picture: %s\n", r.Picture.Alt)
	}
	return b.String()
}

func TestGoldenReplies(t *testing.T) {
	for name, c := range map[string]struct {
		car  func(testing.TB) *shelf
		line string
	}{
		"symptom":        {hatch, "/symptom what:understeer where:entry"},
		"baseline":       {hatch, "/baseline"},
		"baseline-table": {coupe, "/baseline"},
		"symptom-exit":   {coupe, "/symptom what:oversteer where:exit"},
		"hops":           {hatch, "/symptom what:hops"},
		"settle":         {coupe, "/symptom what:slow-settle"},
		"window":         {hatch, "/window surface:bumpy"},
		"window-table":   {coupe, "/window surface:rough"},
		"car":            {hatch, "/car show"},
		"car-table":      {coupe, "/car show"},
	} {
		got := modelled(c.car(t).answer(t, c.line))
		path := filepath.Join("testdata", name+".txt")
		if *golden {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s: %s(go test ./bot/model -run TestGoldenReplies -golden writes it anew)", c.line, diff)
		}
	}
}

// Whatever is assumed is listed, marked and warned of; the words stay short
// enough for a phone; the pictures are small.
func TestModelledReplies(t *testing.T) {
	lines := []string{"/baseline", "/baseline weather:wet", "/window", "/window surface:bumpy", "/car show"}
	for _, w := range tuning.Whats {
		lines = append(lines, "/symptom axle:rear where:exit what:"+string(w.What), "/symptom axle:front what:"+string(w.What))
	}
	for _, s := range []*shelf{hatch(t), coupe(t)} {
		for _, line := range lines {
			r := s.answer(t, line)
			if n := utf8.RuneCountInString(r.Text); n > 900 {
				t.Errorf("%s: a text of %d characters", line, n)
			}
			warned := false
			for _, c := range r.Cautions {
				warned = warned || c == say.Caution(tuning.Estimate)
			}
			if warned != (len(r.Assumed) > 0) {
				t.Errorf("%s of %s: warned of estimates %v, assumed %q", line, s.of.Car.Name, warned, r.Assumed)
			}
			for _, remedy := range r.Remedies {
				checkVerdict(t, line, remedy)
			}
			if all := modelled(r); strings.Contains(all, "NaN") || strings.Contains(all, "Inf") {
				t.Errorf("%s: %s", line, all)
			}
			if p := r.Picture; p != nil && (p.Type != "image/png" || len(p.PNG) == 0 || len(p.PNG) > 200_000 || utf8.RuneCountInString(p.Alt) > 1024) {
				t.Errorf("%s: a %s of %d bytes with %d characters", line, p.Type, len(p.PNG), utf8.RuneCountInString(p.Alt))
			}
		}
	}
}

// checkVerdict asserts what holds of every verdict: none where the model has no
// measure, and otherwise at most two sentences without a sign or a third figure.
func checkVerdict(t *testing.T, line string, r bot.Remedy) {
	t.Helper()
	silent := strings.Contains(line, "what:slow-turn-in") || strings.Contains(line, "what:nervous") || strings.HasPrefix(line, "/baseline")
	if (r.Model == nil) != silent {
		t.Errorf("%s: remedy %d has the verdict %+v; figures.asks says what the model can measure of a complaint", line, r.Rank, r.Model)
	}
	if r.Model == nil {
		return
	}
	if n := strings.Count(r.Model.Say, ". ") + 1; n > 2 || !strings.HasSuffix(r.Model.Say, ".") || !strings.HasPrefix(r.Model.Say, r.Model.Does) {
		t.Errorf("%s: %d sentences: %q, of which %q", line, n, r.Model.Say, r.Model.Does)
	}
	if odd := threeFigures.FindString(r.Model.Say); odd != "" {
		t.Errorf("%s: %q has more than two figures or a sign: %q", line, odd, r.Model.Say)
	}
	if !slices.Contains([]string{"with", "against", "either"}, r.Model.Leans) || (r.Model.Peak == nil) != (r.Model.At == nil) {
		t.Errorf("%s: %+v", line, r.Model)
	}
}

// threeFigures is a sign before a figure, or three figures that count.
var threeFigures = regexp.MustCompile(`[-+−]\d|\b[1-9]\d*\.?\d*[1-9]\d*[1-9]\b`)

// A message has the model under Why: verdicts, and the line that a driver could
// use, come only where all of the reply is wanted.
func TestModelInAnswer(t *testing.T) {
	s := hatch(t)
	quick := s.quickly(t, "/symptom what:understeer where:exit")
	if strings.Contains(quick.Text, "model") {
		t.Errorf("the model has nothing to say, and says %q", quick.Text)
	}
	for _, r := range quick.Remedies {
		if r.Model != nil {
			t.Errorf("remedy %d carries a verdict nobody asked for: %+v", r.Rank, r.Model)
		}
	}
	whole := s.answer(t, "/symptom what:understeer where:exit")
	if whole.Text != quick.Text || whole.Title != quick.Title {
		t.Errorf("the whole reply says %q, the answer %q", whole.Text, quick.Text)
	}
	for _, corner := range tuning.Rear.Corners() {
		s.of.Setting[corner][tuning.Bump], s.of.Setting[corner][tuning.Rebound] = 29, 29
	}
	if apart := s.answer(t, "/symptom what:understeer where:entry"); !strings.Contains(strings.Join(apart.Notes, " "), "times as hard") {
		t.Errorf("front and rear are far apart, and it notes %q", apart.Notes)
	}
}

// The trade answers where the model cannot, in the same order.
func TestTradeAnswersWithoutModel(t *testing.T) {
	sound, broken := hatch(t), hatch(t)
	broken.of.Car.Mass, broken.of.Car.FrontShare, broken.of.Car.Ends[tuning.Front].Unsprung = 700, 0.2, 90
	for _, line := range []string{"/symptom what:oversteer where:exit", "/baseline", "/car show"} {
		want, got := sound.answer(t, line), broken.answer(t, line)
		if line != "/car show" && (got.Title != want.Title || cmp.Diff(want.Corners, got.Corners) != "") {
			t.Errorf("%s: %q, want %q", line, got.Title, want.Title)
		}
		if len(got.Assumed) > 0 {
			t.Errorf("%s assumes %q without a model", line, got.Assumed)
		}
		for i, remedy := range got.Remedies {
			if remedy.Model.Verdict != "unknown" || remedy.Say != want.Remedies[i].Say {
				t.Errorf("%s: %s: %s", line, remedy.Say, remedy.Model.Say)
			}
		}
		if !strings.Contains(modelled(got), "The front wheels weigh more than the front axle carries") {
			t.Errorf("%s does not say why the model is silent", line)
		}
	}
	if r := broken.ask(t, "/window"); r.Problem == nil || r.Problem.Kind != tuning.Invalid {
		t.Errorf("/window without a model: %+v", r)
	}
}

// A car of wild figures whose dampers pull nothing down at some clicks: what has
// no measure is said to have none, and every answer is JSON.
func TestWithoutMeasureIsSaid(t *testing.T) {
	bars := [tuning.Axles]unit.Stiffness{0, 2.182537518441677}
	wild := hatch(t)
	wild.of.Car.Engine, wild.of.Car.Drive, wild.of.Car.Tyre = tuning.RearEngine, tuning.FourDrive, tuning.RoadTyre
	wild.of.Car.Mass, wild.of.Car.FrontShare, wild.of.Car.CGHeight = 0, 0, 0
	wild.of.Car.Ends = [tuning.Axles]tuning.End{
		{Spring: 40526.176858082414, MotionRatio: 1.7193829112214043, Unsprung: 5, Bar: &bars[tuning.Front]},
		{Spring: 339604.150100708, MotionRatio: 0.2, Unsprung: 6.962315231561661, TyreRate: 50e3, Bar: &bars[tuning.Rear]},
	}
	d := tuning.Damper{Ways: 3, Count: tuning.FromHard}
	for _, a := range d.Adjusters() {
		d.Range[a] = 3
	}
	wild.of.Car.Dampers = [tuning.Axles]tuning.Damper{d, d}
	const say = "The vehicle model cannot say how much this remedy changes: there was nothing before to compare with."
	unmeasured := 0
	for n := range 4 * 4 {
		for corner := range wild.of.Setting {
			at := &wild.of.Setting[corner]
			at[tuning.Rebound], at[tuning.Bump], at[tuning.LowBump], at[tuning.HighBump] = n/4, 0, n%4, n%4
		}
		r := wild.ask(t, "/symptom axle:front what:packs-down")
		if _, err := json.Marshal(r); err != nil {
			t.Errorf("rebound %d, bump %d: %v", n/4, n%4, err)
		}
		for _, remedy := range r.Remedies {
			if remedy.Model != nil && remedy.Model.Say == say && remedy.Model.Verdict == "unknown" {
				unmeasured++
			}
		}
	}
	if unmeasured == 0 {
		t.Error("no remedy is said to have no measure")
	}
}
