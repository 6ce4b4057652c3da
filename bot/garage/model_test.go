package garage_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"detent/bot"
	"detent/bot/garage"
	"detent/tuning"
	"detent/tuning/learn"
	"detent/tuning/unit"
)

var golden = flag.Bool("golden", false, "write the golden replies anew")

// shelf is a book that holds one car.
type shelf struct {
	bot.Book
	of    tuning.Case
	given []tuning.Advice
}

func (s *shelf) Club(context.Context) (tuning.Club, error) { return tuning.DefaultClub("hill"), nil }
func (s *shelf) Member(context.Context, string) (tuning.Member, error) {
	return tuning.Member{}, nil
}
func (s *shelf) Case(context.Context, string, string) (tuning.Case, error) { return s.of, nil }
func (s *shelf) Learned(context.Context, tuning.Car, tuning.RowKey) (learn.Evidence, error) {
	return learn.Evidence{}, nil
}
func (s *shelf) Notes(context.Context, string, int) ([]tuning.CoachNote, error) { return nil, nil }
func (s *shelf) NoteCautions(context.Context, string, string) error             { return nil }
func (s *shelf) SaveAdvice(_ context.Context, a tuning.Advice, _ tuning.Setting) (tuning.Advice, error) {
	s.given = append(s.given, a)
	a.ID = int64(len(s.given))
	return a, nil
}

func (s *shelf) Read(_ context.Context, _ tuning.Who, _ time.Time, fn func(bot.Book) error) error {
	return fn(s)
}

func (s *shelf) Once(_ context.Context, _ tuning.Who, _ time.Time, _ string, fn func(bot.Book) (bot.Reply, error)) (bot.Reply, error) {
	return fn(s)
}

// ask asks a line about the car on the shelf.
func (s *shelf) ask(t testing.TB, text string) bot.Reply {
	t.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		t.Fatal(err)
	}
	return bot.NewRouter(bot.NewCatalogue(garage.Commands()), s, slog.New(slog.DiscardHandler)).Answer(t.Context(), bot.Ask{
		Line: line, Whole: true, At: time.Date(2026, time.May, 16, 9, 0, 0, 0, time.UTC),
		Who: tuning.Who{Club: "hill", Person: "Kim", Name: "Kim", Role: tuning.MemberRole},
	})
}

// answer is ask for a line that must be answered.
func (s *shelf) answer(t testing.TB, text string) bot.Reply {
	t.Helper()
	reply := s.ask(t, text)
	if reply.Problem != nil {
		t.Fatalf("%s: %s", text, reply.Problem.Say)
	}
	return reply
}

// hatch is a car of which little is known, at its start.
func hatch(t testing.TB) *shelf {
	t.Helper()
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 30, 30
	return shelve(t, tuning.Car{ID: 1, Name: "Blue hatch", Main: true, Drive: tuning.FrontDrive, Engine: tuning.FrontEngine,
		Tyre: tuning.RoadTyre, Aero: tuning.NoAero, Use: tuning.TrackUse, Dampers: [tuning.Axles]tuning.Damper{d, d}})
}

func shelve(t testing.TB, car tuning.Car) *shelf {
	t.Helper()
	at, err := tuning.Baseline(car, tuning.Dry, tuning.DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	return &shelf{of: tuning.Case{Car: car, Setting: at}}
}

// coupe is a car of which all is known, with a force table at each end; its
// dampers are far too soft. Invented.
func coupe(t testing.TB) *shelf {
	t.Helper()
	s := hatch(t)
	car := s.of.Car
	car.Name, car.Drive, car.Tyre = "Grey coupé", tuning.RearDrive, tuning.SemiSlick
	car.Mass, car.FrontShare, car.Wheelbase, car.CGHeight = 1320, 0.51, 2.55, 0.49
	for axle := range car.Ends {
		bar := unit.Stiffness(20e3 - 12e3*float64(axle))
		car.Ends[axle] = tuning.End{Track: 1.52, Spring: 70e3, MotionRatio: 0.95, Bar: &bar, Unsprung: 40, TyreRate: 230e3}
		var csv strings.Builder
		csv.WriteString("click,speed_mm_s,bump_n,rebound_n\n")
		for click, force := range map[int]float64{0: 60, 15: 90, 30: 600} {
			force *= 1 - 0.8*float64(axle)
			for _, v := range []float64{30, 60, 300} {
				fmt.Fprintf(&csv, "%d,%g,%.1f,%.1f\n", click, v, force*min(v, 60+0.4*(v-60))/60, 2*force*min(v, 60+0.4*(v-60))/60)
			}
		}
		table, err := tuning.ParseForceTable(csv.String())
		if err != nil {
			t.Fatal(err)
		}
		car.Curves[axle] = table
	}
	return shelve(t, car)
}

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
		path := filepath.Join("testdata", "model", name+".txt")
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
			t.Errorf("%s: %s(go test ./bot/garage -run TestGoldenReplies -golden writes it anew)", c.line, diff)
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
				warned = warned || c == string(tuning.Estimate)
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

// quickly asks for an answer without every field.
func (s *shelf) quickly(t testing.TB, text string) bot.Reply {
	t.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		t.Fatal(err)
	}
	reply := bot.NewRouter(bot.NewCatalogue(garage.Commands()), s, slog.New(slog.DiscardHandler)).Answer(t.Context(), bot.Ask{
		Line: line, At: time.Date(2026, time.May, 16, 9, 0, 0, 0, time.UTC),
		Who: tuning.Who{Club: "hill", Person: "Kim", Name: "Kim", Role: tuning.MemberRole},
	})
	if reply.Problem != nil {
		t.Fatalf("%s: %s", text, reply.Problem.Say)
	}
	return reply
}

// The window's words fit a phone: 14 lines of 44 columns, where a longer line makes
// more.
func TestWindowFitsPhone(t *testing.T) {
	for _, surface := range []string{"smooth", "bumpy", "rough"} {
		for _, s := range []*shelf{hatch(t), coupe(t)} {
			r := s.answer(t, "/window surface:"+surface)
			lines := 0
			for _, line := range strings.Split(r.Title+"\n"+r.Text, "\n") {
				lines += (utf8.RuneCountInString(line) + 43) / 44
			}
			if n := utf8.RuneCountInString(r.Title + r.Text); lines > 14 || n > 700 {
				t.Errorf("%s of %s: %d lines, %d characters:\n%s\n%s", surface, s.of.Car.Name, lines, n, r.Title, r.Text)
			}
		}
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

// BenchmarkSymptom is the answer to a /symptom, but for the database: it fails at
// 6 ms of one core, of which the model has at most 5.
func BenchmarkSymptom(b *testing.B) {
	s := hatch(b)
	before := processorTime(b)
	for b.Loop() {
		s.quickly(b, "/symptom what:understeer where:entry")
	}
	atMost(b, before, 6*time.Millisecond)
}

// BenchmarkWholeSymptom is the same with every field: it fails at 40 ms of one
// core.
func BenchmarkWholeSymptom(b *testing.B) {
	s := hatch(b)
	before := processorTime(b)
	for b.Loop() {
		s.answer(b, "/symptom what:understeer where:exit")
	}
	atMost(b, before, 40*time.Millisecond)
}

// atMost fails a benchmark whose runs take more of one core, on the mean, since
// the process stood at before. Other programs on the machine do not count.
func atMost(b *testing.B, before, bound time.Duration) {
	b.Helper()
	each := (processorTime(b) - before) / time.Duration(b.N)
	b.ReportMetric(float64(each.Nanoseconds()), "core-ns/op")
	if each > bound {
		b.Errorf("%v of one core a run, more than %v", each, bound)
	}
}

// processorTime is what the process has had of all cores.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
