package main

import (
	"fmt"
	"log/slog"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"detent/bot"
	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
)

// pits is a club that is asked through the router, a minute a line.
type pits struct {
	testing.TB
	router *bot.Router
	admin  *sqlx.DB
	now    *time.Time
	asked  *int
}

func newPits(t testing.TB) pits {
	t.Helper()
	url := storetest.URL(t)
	db, err := store.Rehearse(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	admin, err := sqlx.Connect("postgres", url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { admin.Close() })
	now := time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC)
	return pits{t, bot.NewRouter(lines, records{db}, slog.New(slog.NewTextHandler(os.Stderr, nil))), admin, &now, new(int)}
}

// does asks a line that must be answered.
func (p pits) does(who string, role tuning.Role, text string) bot.Reply {
	p.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		p.Fatal(err)
	}
	*p.asked++
	*p.now = p.now.Add(time.Minute)
	reply := p.router.Answer(p.Context(), bot.Ask{ID: fmt.Sprint("ask ", *p.asked), Line: line, At: *p.now, Whole: true,
		Who: tuning.Who{Club: "hill", Person: who, Name: who, Role: role}})
	if reply.Problem != nil {
		p.Fatalf("%s: %s: %s", who, text, reply.Problem.Say)
	}
	return reply
}

// plays asks a member's lines. "apply 2" applies the second remedy of the last
// answer that had some, "coach ..." is a coach's line, "host ..." an
// organiser's, and "wait" lets a day pass.
func (p pits) plays(who string, script ...string) (last bot.Reply) {
	p.Helper()
	var remedies []bot.Remedy
	for _, line := range script {
		number := 0
		word, rest, _ := strings.Cut(line, " ")
		switch word {
		case "wait":
			*p.now = p.now.AddDate(0, 0, 1)
			continue
		case "coach":
			p.does("Kim", tuning.CoachRole, rest)
			continue
		case "host":
			p.does("Olga", tuning.OrganiserRole, strings.ReplaceAll(rest, "DAY", p.now.Format("2006-01-02")))
			continue
		case "apply":
			fmt.Sscan(rest, &number)
			line = remedies[number-1].Apply
		}
		last = p.does(who, tuning.MemberRole, line)
		if len(last.Remedies) > 0 && word == "/symptom" {
			remedies = last.Remedies
		}
	}
	return last
}

// hatch gives a member a front-driven car of two-way dampers with 30 clicks.
func (p pits) hatch(who string) {
	p.Helper()
	p.plays(who, `/car add name:"Blue hatch" drive:front engine:front tyre:road spring-front:60N/mm spring-rear:50N/mm`, `/damper fit axle:both ways:two clicks:30 count:hard`)
}

// tries are those of a member's cars, in a few words each, oldest first.
func (p pits) tries(who string) (tries []string) {
	p.Helper()
	err := p.admin.Select(&tries, `
		select concat_ws(' ', what, nullif(place, ''), part, job, turn, 'u ' || round(fraction::numeric, 4), 'y ' || round(moved::numeric, 4),
			'R ' || round(variance::numeric, 4), case when helped then 'helped' when worse then 'worse' end)
		from tries t join cars c on c.club = t.club and c.id = t.car
		where c.owner = $1 order by change`, who)
	if err != nil {
		p.Fatal(err)
	}
	return tries
}

const (
	pushes = `/symptom what:understeer where:entry`
	better = `/feel grip:6 better:yes`
)

// What counts as a try, and how it is read, from what people ask.
func TestWhatIsLearnedFromTheRecord(t *testing.T) {
	rear := func(rest string) string { return "understeer entry rear rebound stiffer " + rest }
	front := func(rest string) string { return "understeer entry front rebound softer " + rest }
	once := rear("u 1.0000 y 0.9000 R 0.8000 helped")
	p := newPits(t)
	p.plays("Kim", `/me set units:metric`)
	p.plays("Olga", `/me set units:metric`)
	for i, tt := range []struct {
		name   string
		script []string
		want   []string
	}{
		{"a remedy and better", []string{pushes, `apply 1`, better}, []string{once}},
		{"the same", []string{pushes, `apply 1`, `/feel grip:6 better:same`}, []string{rear("u 1.0000 y 0.0000 R 0.8000")}},
		{"worse", []string{pushes, `apply 1`, `/feel grip:6 better:no`}, []string{rear("u 1.0000 y -0.9000 R 0.8000 worse")}},
		{"marks before and after", []string{`/feel grip:6 entry:-2`, pushes, `apply 1`, `/feel grip:6 entry:-1`}, []string{rear("u 1.0000 y 1.0000 R 1.0000 helped")}},
		{"marks and an answer", []string{`/feel grip:6 entry:-2`, pushes, `apply 1`, `/feel grip:6 entry:-1 better:yes`}, []string{rear("u 1.0000 y 0.9500 R 0.6000 helped")}},
		{"past neutral to the other side", []string{`/feel grip:6 entry:-1`, pushes, `apply 1`, `/feel grip:6 entry:1`}, []string{rear("u 1.0000 y 2.0000 R 1.0000")}},
		{"a mark of another part of the corner", []string{`/feel grip:6 exit:-2`, pushes, `apply 1`, `/feel grip:6 exit:-1`}, nil},
		{"mid-corner has its own mark", []string{`/feel grip:6 mid:-2 entry:0`, `/symptom what:understeer where:mid`, `apply 1`, `/feel grip:6 mid:-1 entry:0`},
			[]string{rear("u 1.0000 y 1.0000 R 1.0000 helped")}},
		{"where nobody said, the entry's mark", []string{`/feel grip:6 entry:2`, `/symptom what:oversteer`, `apply 1`, `/feel grip:6 entry:1`},
			[]string{"oversteer entry front rebound stiffer u 1.0000 y 1.0000 R 1.0000 helped"}},
		{"the last feel before counts", []string{`/feel grip:6 entry:-3`, `/feel grip:6 entry:-2`, pushes, `apply 1`, `/feel grip:6 entry:-1`}, []string{rear("u 1.0000 y 1.0000 R 1.0000 helped")}},
		{"the last feel before lacks the mark", []string{`/feel grip:6 entry:-3`, `/feel grip:6`, pushes, `apply 1`, `/feel grip:6 entry:-1`}, nil},
		{"only the first feel after counts", []string{pushes, `apply 1`, better, `/feel grip:6 better:no`}, []string{once}},
		{"no evidence", []string{pushes, `apply 1`, `/feel grip:6`}, nil},
		{"no feel", []string{pushes, `apply 1`}, nil},
		{"a feel from before any change", []string{better, pushes}, nil},
		{"grip serves low grip", []string{`/feel grip:5 entry:-2`, `/symptom what:low-grip`, `apply 1`, `/feel grip:7 entry:-1`}, []string{"low-grip whole bump stiffer u 1.0000 y 1.0000 R 1.0000 helped"}},
		{"other complaints use the answer alone", []string{`/feel grip:5 entry:-2`, `/symptom what:hops`, `apply 1`, `/feel grip:7 entry:-1`, `/feel grip:7 better:yes`}, nil},
		{"two changes in one run", []string{pushes, `apply 1`, pushes, `apply 2`, better}, []string{rear("u 1.0000 y 0.9000 R 1.6000 helped"), front("u 1.0000 y 0.9000 R 1.6000 helped")}},
		{"three changes in one run: not the first", []string{pushes, `apply 1`, pushes, `apply 2`, `/symptom what:hops`, `apply 1`, better},
			[]string{front("u 1.0000 y 0.9000 R 1.6000 helped"), "hops whole bump softer u 1.0000 y 0.9000 R 1.6000 helped"}},
		{"taken back before any feel", []string{pushes, `apply 1`, `/undo`, better}, nil},
		{"taken back, then another", []string{`/feel grip:6 entry:-2`, pushes, `apply 1`, `/undo`, pushes, `apply 2`, `/feel grip:6 entry:-1`}, []string{front("u 1.0000 y 1.0000 R 1.0000 helped")}},
		{"taken back after a feel, as an answer says", []string{pushes, `apply 1`, `/feel grip:6 better:no`, pushes, `apply 1`, better}, []string{rear("u 1.0000 y -0.9000 R 0.8000 worse")}},
		{"half back", []string{pushes, `apply 1`, better, `/symptom what:oversteer where:entry`, `apply 1`, better}, []string{once}},
		{"shrunk to the clicks that are left", []string{`/clicks set at:rear adjuster:rebound to:1`, pushes, `apply 2`, better}, []string{rear("u 0.3333 y 0.9000 R 0.8000 helped")}},
		{"a start", []string{`/clicks set at:all adjuster:bump to:9`, `/baseline`, `/apply advice:BASELINE`, better}, nil},
		{"a start in the run doubles", []string{`/clicks set at:all adjuster:bump to:9`, `/baseline`, `/apply advice:BASELINE`, pushes, `apply 1`, better}, []string{rear("u 1.0000 y 0.9000 R 1.6000 helped")}},
		{"a correction of the record", []string{pushes, `/clicks set at:rear adjuster:rebound to:13`, better}, nil},
		{"a correction in the run", []string{pushes, `apply 1`, `/clicks set at:FL adjuster:bump to:7`, better}, []string{once}},
		{"another weather", []string{
			`host /event add name:"Dry N" starts:"DAY 20:00" ends:"DAY 22:00" weather:dry`, `/event enter name:"Dry N"`, `/feel grip:6 entry:-2`, `wait`,
			`host /event add name:"Wet N" starts:"DAY 20:00" ends:"DAY 22:00" weather:wet`, `/event enter name:"Wet N"`, pushes, `apply 2`, `/feel grip:6 entry:-1`},
			[]string{rear("u 1.0000 y 1.0000 R 2.0000 helped")}},
		{"the wet start", []string{pushes + " weather:wet", `apply 1`, better}, nil},
		{"other tyres in the run", []string{pushes, `apply 1`, `/car edit tyre:slick`, better}, []string{rear("u 1.0000 y 0.9000 R 1.6000 helped")}},
		{"tyres that were not told before", []string{pushes, `apply 1`, `/car edit aero:none`, better}, []string{once}},
		{"other dampers in the run", []string{pushes, `apply 1`, `/damper fit axle:rear ways:two clicks:24 count:hard`, better}, nil},
		{"other dampers forget what was felt", []string{`/feel grip:6 entry:-2`, `/damper fit axle:rear ways:two clicks:24 count:hard`, pushes, `apply 1`, `/feel grip:6 entry:-1 better:yes`}, []string{once}},
		{"the grip search", []string{`/sweep start`, `/sweep run hop:no grip:5`, `/sweep run hop:no grip:7`, `/sweep run hop:yes grip:6`, `/feel grip:7`},
			[]string{"low-grip whole bump stiffer u 1.0000 y 1.0000 R 1.0000 helped", "low-grip whole bump stiffer u 1.0000 y -0.5000 R 1.0000 worse"}},
		{"a search that does not tell its grip", []string{`/sweep start`, `/sweep run hop:no`, `/sweep run hop:no grip:7`}, nil},
		{"a coach's suggestion, for the last complaint", []string{`coach /coach ask member:WHO`, `/coach accept member:Kim`, pushes,
			`coach /coach suggest member:WHO at:rear adjuster:rebound to:13 why:"it pushes"`, `SUGGESTED`, better}, []string{once}},
		{"a coach's suggestion, for none", []string{`coach /coach ask member:WHO`, `/coach accept member:Kim`,
			`coach /coach suggest member:WHO at:rear adjuster:rebound to:13 why:"it pushes"`, `SUGGESTED`, better}, nil},
	} {
		who := fmt.Sprint("Driver", i)
		p.hatch(who)
		for _, line := range expand(p, who, tt.script) {
			line()
		}
		if got := p.tries(who); strings.Join(got, "\n") != strings.Join(tt.want, "\n") {
			t.Errorf("%s:\n%s\nwant\n%s", tt.name, strings.Join(got, "\n"), strings.Join(tt.want, "\n"))
		}
		*p.now = p.now.AddDate(0, 0, 2).Truncate(12 * time.Hour) // another day
	}
}

// expand makes a script steps, with what an earlier reply names put in.
func expand(p pits, who string, script []string) (steps []func()) {
	var so []string // lines since the last that needed an answer
	var last bot.Reply
	play := func(lines []string) func() { return func() { last = p.plays(who, lines...) } }
	for _, line := range script {
		line = strings.NewReplacer("WHO", who, `"Dry N"`, `"Dry `+who+`"`, `"Wet N"`, `"Wet `+who+`"`).Replace(line)
		press := func(label string) {
			steps = append(steps, play(so), func() { last = p.does(who, tuning.MemberRole, action(p, last, label)) })
			so = nil
		}
		switch {
		case strings.Contains(line, "BASELINE"):
			press("These are set now")
		case line == "SUGGESTED":
			so = append(so, `/coach notes`)
			press("Done")
		default:
			so = append(so, line)
		}
	}
	return append(steps, play(so))
}

// action is the line of the button whose label begins so.
func action(t testing.TB, r bot.Reply, label string) string {
	t.Helper()
	for _, a := range r.Actions {
		if strings.HasPrefix(a.Label, label) {
			return a.Line()
		}
	}
	t.Fatalf("no button %q: %q %+v", label, r.Title, r.Actions)
	return ""
}
