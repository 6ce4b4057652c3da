package main

import (
	"fmt"
	"strings"
	"testing"

	"detent/bot"
	"detent/store/storetest"
)

func TestTheMainJob(t *testing.T) {
	p := newPaddock(t)
	p.does(`/car add name:"Blue hatch" drive:front engine:front mass:1080kg`)
	p.does(`/damper fit axle:both ways:two clicks:30 count:hard`)

	base := p.does(`/baseline`)
	if len(base.Corners) != 8 || base.Corners[0].Corner != "FL" || base.Corners[7].Corner != "RR" {
		t.Fatalf("the baseline lists %+v", base.Corners)
	}
	want := bot.Corner{Corner: "FL", Adjuster: "rebound", From: 11, To: 11, Range: 30, Clicks: 0, Turn: "none", Shown: "19 from hard"}
	if got := at(t, base.Corners, "FL", "rebound"); got != want {
		t.Errorf("front rebound starts at %+v, want %+v", got, want)
	}
	if len(base.Cautions) == 0 || len(base.First) == 0 {
		t.Error("the baseline comes without cautions or checks")
	}
	p.does(base.Actions[0].Ask)

	symptom := p.does(`/symptom what:understeer where:entry`)
	first := symptom.Remedies[0]
	if symptom.Title != "Rear rebound 3 stiffer, both sides: 16 → 13 from hard" {
		t.Errorf("the first line is not the action: %q", symptom.Title)
	}
	if n := len([]rune(symptom.Title + symptom.Text)); n > 900 {
		t.Errorf("%d characters before the details", n)
	}
	if len(first.Corners) != 2 || first.Corners[0].From != 14 || first.Corners[0].To != 17 || first.Corners[0].Turn != "stiffer" || first.Confidence != "common practice" {
		t.Errorf("first remedy %+v", first)
	}
	if again := p.does(`/symptom what:understeer where:entry`); len(symptom.First) == 0 || len(again.First) != 0 {
		t.Errorf("the checks come %d and then %d long, want once", len(symptom.First), len(again.First))
	}
	done := p.does(first.Apply)
	if got := at(t, done.Corners, "RR", "rebound"); got.To != 17 || got.Shown != "13 from hard" {
		t.Errorf("after applying, %+v", got)
	}
	p.does(`/feel grip:7 entry:0 mid:0 exit:-1 better:yes lap:1:42.6 notes:"turns in now"`)

	if got := p.does(`/undo`); at(t, got.Corners, "RL", "rebound").To != 14 {
		t.Errorf("undo leaves %+v", got.Corners)
	}
	log := p.does(`/log`)
	for _, words := range []string{"undo", "remedy for understeer on entry", "felt better", "start"} {
		if !strings.Contains(log.Text, words) {
			t.Errorf("the log lacks %q:\n%s", words, log.Text)
		}
	}
}

func TestOnceAnID(t *testing.T) {
	p := newPaddock(t).blueHatch()
	twice := p.as("--id", "r-1")
	line := `/clicks set at:front adjuster:rebound to:10`
	first := twice.does(line)
	p.does(`/clicks set at:front adjuster:rebound to:5`)
	if again := twice.does(line); fmt.Sprint(again) != fmt.Sprint(first) {
		t.Errorf("the same id answered %+v, first %+v", again, first)
	}
	if now := p.does(`/clicks show`); at(t, now.Corners, "FL", "rebound").Shown != "5 from hard" {
		t.Errorf("the same id changed something: %+v", now.Corners)
	}
	if other := twice.as("--as", "Kim").ask(`/clicks show`)[0]; other.Problem == nil {
		t.Error("another person's request was answered with the first one's reply")
	}
}

func TestApplyCountsOnceAndRefusesWhatIsStale(t *testing.T) {
	p := newPaddock(t).blueHatch()
	advice := p.does(`/symptom what:oversteer`)
	p.does(advice.Remedies[0].Apply)
	if again := p.does(advice.Remedies[0].Apply); !strings.Contains(again.Title, "Already noted") {
		t.Errorf("a second press: %q", again.Title)
	}
	log := p.does(`/log`).Text
	if n := strings.Count(log, "remedy for"); n != 1 {
		t.Errorf("applied %d times:\n%s", n, log)
	}
	stale := p.refuses("conflict", "out of date", advice.Remedies[1].Apply)
	if len(stale.Remedies) != 2 || stale.Remedies[0].Apply == advice.Remedies[0].Apply {
		t.Errorf("no fresh answer: %+v", stale.Remedies)
	}
	p.does(stale.Remedies[0].Apply)
	p.refuses("not-found", "", `/apply advice:9999`)
	p.refuses("invalid", "2 remedies", strings.Replace(stale.Remedies[0].Apply, "remedy:1", "remedy:9", 1))
}

func TestMemoryThroughTheRecord(t *testing.T) {
	p := newPaddock(t).blueHatch()
	a := p.does(`/symptom what:understeer where:entry`)
	p.does(a.Remedies[0].Apply, `/feel grip:4 better:no`)
	worse := p.does(`/symptom what:understeer where:entry`)
	if len(worse.Remedies) != 3 || worse.Remedies[0].Corners[0].Turn != "softer" || len(worse.First) == 0 {
		t.Fatalf("after worse: %+v", worse.Remedies)
	}
	p.does(worse.Remedies[0].Apply)
	if log := p.does(`/log`).Text; !strings.Contains(log, "taken back later") {
		t.Errorf("the log does not say that it was taken back:\n%s", log)
	}

	q := p.as("--as", "Kim").blueHatch()
	b := q.does(`/symptom what:understeer`)
	q.does(b.Remedies[0].Apply, `/feel grip:5 better:yes`)
	turned := q.does(`/symptom what:oversteer`)
	if c := turned.Remedies[0].Corners[0]; c.Corner != "RL" || c.Clicks != 1 || c.Turn != "softer" {
		t.Errorf("turned into its opposite: %+v", turned.Remedies[0])
	}

	r := p.as("--as", "Sam").blueHatch()
	for range 2 {
		c := r.does(`/symptom what:oversteer`)
		r.does(c.Remedies[0].Apply, `/feel grip:5 better:same`)
	}
	if stop := r.does(`/symptom what:oversteer`); len(stop.Remedies) != 0 || len(stop.First) == 0 {
		t.Errorf("two tries without a gain: %+v", stop)
	}
}

func TestTheGripSearch(t *testing.T) {
	p := newPaddock(t).blueHatch()
	p.refuses("not-found", "/sweep start", `/sweep run hop:no`)
	p.does(`/sweep start`)
	p.refuses("conflict", "under way", `/sweep start`)
	p.does(`/sweep start weather:wet`)
	next := p.as("--at", "2026-05-17T10:00:00Z") // it lasts over days
	if r := next.does(`/sweep run hop:no grip:6`); at(t, r.Corners, "FL", "bump").To != 14 || at(t, r.Corners, "RL", "bump").To != 17 {
		t.Errorf("the first step: %+v", r.Corners)
	}
	over := next.does(`/sweep run hop:yes`)
	if at(t, over.Corners, "RL", "bump").To != 15 || !strings.Contains(over.Text, "peak") {
		t.Errorf("the back-off: %q %+v", over.Text, over.Corners)
	}
	next.refuses("not-found", "", `/sweep run hop:no`)
	if r := next.does(`/sweep stop weather:wet`); !strings.Contains(r.Title, "ended after") {
		t.Errorf("the driver's end: %q", r.Title)
	}

	// A stop ends it too: 26, 29, then one click, then nothing.
	p.does(`/clicks set at:all adjuster:bump to:4`, `/sweep start`, `/sweep run hop:no`)
	if r := p.does(`/sweep run hop:no`); at(t, r.Corners, "FL", "bump").To != 30 {
		t.Errorf("the last click: %+v", r.Corners)
	}
	if r := p.does(`/sweep run hop:no`); !strings.Contains(r.Title, "stop is reached") {
		t.Errorf("at the stop: %q", r.Title)
	}
}

func TestOneClubNeverSeesAnother(t *testing.T) {
	p := newPaddock(t).blueHatch()
	advice := p.does(`/symptom what:hops`)
	away := p.as("--club", "Elsewhere")
	away.refuses("not-found", "", `/car show car:"Blue hatch"`)
	away.refuses("not-found", "", advice.Remedies[0].Apply)
	if list := away.does(`/car list`); list.Title != "No cars yet" {
		t.Errorf("another club lists %q", list.Text)
	}
	p.as("--as", "Kim").refuses("not-found", "", advice.Remedies[0].Apply) // nor another member
}

func TestUnits(t *testing.T) {
	p := newPaddock(t)
	p.does(`/me set units:imperial`)
	if r := p.does(`/car add name:A drive:rear engine:front mass:2750 spring-front:400`); !strings.Contains(r.Text, "2750 lb") || !strings.Contains(r.Text, "400 lb/in") {
		t.Errorf("read back as %q", r.Text)
	}
	p.does(`/me set units:metric`)
	if r := p.does(`/car show`); !strings.Contains(r.Text, "1247 kg") || !strings.Contains(r.Text, "70.1 N/mm") {
		t.Errorf("shown as %q", r.Text)
	}
}

func TestBadLines(t *testing.T) {
	p := newPaddock(t).blueHatch()
	long := strings.Repeat("x", 200)
	for _, tt := range []struct{ kind, words, line string }{
		{"invalid", "did you mean symptom", `/sympton what:oversteer`},
		{"invalid", "did you mean what", `/symptom wat:oversteer`},
		{"invalid", "did you mean oversteer", `/symptom what:oversteeer`},
		{"invalid", "What does the car do?", `/symptom`},
		{"invalid", "twice", `/baseline car:a car:b`},
		{"invalid", "second word", `/car`},
		{"invalid", "slash", `car list`},
		{"invalid", "quote", `/car add name:"open drive:front`},
		{"invalid", "unit", `/car add name:B drive:rear engine:mid mass:70N/mm`},
		{"invalid", "zero", `/car add name:B drive:rear engine:mid mass:0`},
		{"invalid", "negative", `/car add name:B drive:rear engine:mid mass:-5kg`},
		{"invalid", "number", `/car add name:B drive:rear engine:mid mass:NaN`},
		{"invalid", "number", `/car add name:B drive:rear engine:mid mass:1e309`},
		{"invalid", "spring", `/car add name:B drive:rear engine:mid spring-front:400kg/mm`},
		{"invalid", "1 to 99", `/damper fit axle:both ways:two clicks:0 count:hard`},
		{"invalid", "1 to 99", `/damper fit axle:both ways:two clicks:500 count:hard`},
		{"invalid", "how many clicks", `/damper fit axle:both ways:two bump:12 count:hard`},
		{"invalid", "has no low-speed bump", `/damper fit axle:both ways:two clicks:12 low-bump:7 count:hard`},
		{"invalid", "only a one-way", `/damper fit axle:both ways:two clicks:12 count:hard moves:both`},
		{"invalid", "past the stop", `/clicks set at:FL adjuster:bump to:31`},
		{"invalid", "no high-speed bump", `/clicks set at:FL adjuster:high-bump to:3`},
		{"invalid", "characters", `/car add name:` + long + ` drive:rear engine:mid`},
		{"invalid", "direction-changing", "/car add name:\"\u202eB\" drive:rear engine:mid"},
		{"invalid", "name", `/car add name:"" drive:rear engine:mid`},
		{"conflict", "that name", `/car add name:"BLUE HATCH" drive:rear engine:mid`},
		{"not-found", "did you mean Blue hatch", `/baseline car:"Blue hutch"`},
		{"not-found", "/car list", `/baseline car:"Red van"`},
		{"invalid", "At which end?", `/symptom what:bottoms`},
		{"invalid", "1 to 10", `/feel grip:11`},
		{"invalid", "lap", `/feel grip:5 lap:99`},
		{"conflict", "taken back", `/undo`},
		{"invalid", "need", `/help command:` + long},
	} {
		if strings.HasPrefix(tt.line, "/help") {
			tt.words = ""
		}
		p.refuses(tt.kind, tt.words, tt.line)
	}
	if r := p.does(`/car list`); strings.Contains(r.Text, "\n") {
		t.Errorf("something was half saved:\n%s", r.Text)
	}
	p.does("/car add name:\"It's \\\"quick\\\" 🏁\" drive:rear engine:mid")
	p.refuses("invalid", "dampers", `/baseline car:"It's \"quick\" 🏁"`)
}

func TestForceTableFile(t *testing.T) {
	p := newPaddock(t).blueHatch()
	good := "click,speed_mm_s,bump_n,rebound_n\r\n0,0,0,0\r\n0,100,200,400\r\n30,0,0,0\r\n30,100,800,1600\r\n"
	p.does(`/damper curve axle:front file:` + bot.Quote(write(t, "a table.csv", "\ufeff"+good)))
	p.refuses("not-found", "not there", `/damper curve axle:front file:/nowhere.csv`)
	p.refuses("invalid", "folder", `/damper curve axle:front file:/`)
	p.refuses("invalid", "commas", `/damper curve axle:front file:`+write(t, "s.csv", strings.ReplaceAll(good, ",", ";")))
	p.refuses("limit", "1 MiB", `/damper curve axle:front file:`+write(t, "big.csv", strings.Repeat(good, 10<<20/len(good))))
	p.refuses("invalid", "count from full soft", `/damper curve axle:front file:`+write(t, "c.csv", strings.ReplaceAll(good, "30,", "40,")))
	if r := p.does(`/car show`); !strings.Contains(r.Text, "force table of 2 clicks") {
		t.Errorf("the table is gone after refusals: %q", r.Text)
	}
}

func TestExitStatuses(t *testing.T) {
	newPaddock(t)
	for want, args := range map[int][]string{
		exitAnswered: {"ask", "/help"},
		exitProblem:  {"ask", "/car list", "/nonsense"},
		exitWrongUse: {"ask", "--id", "x", "/help", "/help"},
	} {
		if _, errs, code := execute(t, args...); code != want {
			t.Errorf("%q left with %d, want %d (%s)", args, code, want, errs)
		}
	}
	for _, args := range [][]string{{"ask"}, {"frobnicate"}, {"ask", "--role", "king", "/help"}, {"ask", "--at", "yesterday", "/help"}} {
		if _, errs, code := execute(t, args...); code != exitWrongUse || errs == "" {
			t.Errorf("%q left with %d, %q", args, code, errs)
		}
	}
	if out, _, code := execute(t, "ask", "/nonsense", "/help"); code != exitAnswered || !strings.Contains(out, "one change at a time") {
		t.Errorf("a problem stopped the lines after it: %d, %s", code, out)
	}
}

func TestDatabaseTrouble(t *testing.T) {
	t.Setenv("DETENT_DATA", t.TempDir())
	const gone = "postgres://someone@127.0.0.1:1,127.0.0.1:2/none?sslmode=disable"
	for name, tt := range map[string]struct {
		url, say string
		code     int
	}{
		"nonsense":             {"not a url", "looks like postgres://", exitWrongUse},
		"a bad value":          {gone + "&connect_timeout=soon", `"connect_timeout"`, exitWrongUse},
		"an unknown parameter": {storetest.URL(t) + "&colour=red", `does not know: correct "colour"`, exitWrongUse},
		"down":                 {gone, "does not answer", exitProblem},
	} {
		t.Setenv("DETENT_DATABASE_URL", tt.url)
		out, errs, code := execute(t, "ask", "/help")
		if code != tt.code || out != "" || !strings.Contains(errs, tt.say) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%s: status %d, %q %q, want one sentence with %q", name, code, out, errs, tt.say)
		}
	}
	t.Setenv("DETENT_DATABASE_URL", storetest.Empty(t))
	if out, errs, code := execute(t, "migrate"); code != exitAnswered {
		t.Errorf("migrate: %d, %q %q", code, out, errs)
	}
}
