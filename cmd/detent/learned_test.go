package main

import (
	"errors"
	"fmt"
	"log/slog"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/jmoiron/sqlx"

	"detent/bot"
	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
	"detent/tuning/learn"
)

// pits is a club that is asked through the router, a minute a line.
type pits struct {
	testing.TB
	url    string
	db     *store.DB
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
	return pits{t, url, db, bot.NewRouter(lines, records{db}, slog.New(slog.NewTextHandler(os.Stderr, nil))), admin, &now, new(int)}
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
	pushes      = `/symptom what:understeer where:entry`
	better      = `/feel grip:6 better:yes`
	turnsByHand = `/clicks set at:rear adjuster:rebound to:13 turned:yes` // what the first remedy against it turns
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
		{"a loaded setting", []string{pushes, `/clicks set at:rear adjuster:rebound to:13`, `/clicks save name:Stiff`, `/clicks set at:rear adjuster:rebound to:16`,
			`/clicks load name:Stiff`, `/apply`, better}, nil},
		{"a loaded setting in the run doubles", []string{`/clicks save name:Soft`, `/clicks set at:all adjuster:bump to:9`, `/clicks load name:Soft`, `/apply`, pushes, `apply 1`, better},
			[]string{rear("u 1.0000 y 0.9000 R 1.6000 helped")}},
		{"copied from another car", []string{pushes, `/car add name:Van drive:front engine:front`, `/damper fit car:Van axle:both ways:two clicks:30 count:hard`,
			`/clicks set car:Van at:rear adjuster:rebound to:13`, `/clicks copy from:Van car:"Blue hatch"`, `/apply`, better}, nil},
		{"a correction of the record", []string{pushes, `/clicks set at:rear adjuster:rebound to:13`, better}, nil},
		{"a correction in the run", []string{pushes, `apply 1`, `/clicks set at:FL adjuster:bump to:7`, better}, []string{once}},
		{"another weather", []string{
			`host /event add name:"Dry N" starts:"DAY 20:00" ends:"DAY 22:00" weather:dry`, `/event enter name:"Dry N"`, `/feel grip:6 entry:-2`, `wait`,
			`host /event add name:"Wet N" starts:"DAY 20:00" ends:"DAY 22:00" weather:wet`, `/event enter name:"Wet N"`, pushes, `apply 2`, `/feel grip:6 entry:-1`},
			[]string{rear("u 1.0000 y 1.0000 R 2.0000 helped")}},
		{"the wet start", []string{pushes + " weather:wet", `apply 1`, better}, nil},
		{"the same turn by hand, told as turned", []string{pushes, turnsByHand, better}, []string{once}},
		{"the same turn by hand, after another complaint", []string{pushes, `/symptom what:hops`, turnsByHand, better}, nil},
		{"the same turn by hand, after the complaint came back", []string{pushes, `/symptom what:hops`, pushes, turnsByHand, better}, []string{once}},
		{"the same turn by hand, for no complaint", []string{turnsByHand, better}, nil},
		{"the same turn by hand, of one side", []string{pushes, `/clicks set at:RL adjuster:rebound to:13 turned:yes`, better}, nil},
		{"sides made equal", []string{`/clicks set at:RL adjuster:rebound to:13`, pushes, `press Make them equal`, better}, nil},
		{"sides made equal in the run", []string{`/clicks set at:RL adjuster:rebound to:14`, pushes, `press Make them equal`, pushes, `apply 1`, better},
			[]string{rear("u 1.0000 y 0.9000 R 1.6000 helped")}},
		{"the start against a nervous car", []string{`/clicks set at:all adjuster:bump to:2`, `/symptom what:nervous`, `apply 1`, better}, nil},
		{"taken back after a feel, by hand", []string{pushes, `apply 1`, `/feel grip:6 better:no`, `/undo`, better}, []string{rear("u 1.0000 y -0.9000 R 0.8000 worse")}},
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
	p.sumsAreThoseOfTheRows()
	p.rowsAreThoseOfTheWholeRecord()
}

// sumsAreThoseOfTheRows compares what is read of each car half a year later with
// its rows added up by hand.
func (p pits) sumsAreThoseOfTheRows() {
	p.Helper()
	later := p.now.AddDate(0, 6, 0)
	var cars []int64
	if err := p.admin.Select(&cars, `select distinct car from tries`); err != nil || len(cars) < 20 {
		p.Fatalf("%d cars have tries: %v", len(cars), err)
	}
	for _, car := range cars {
		var rows []struct {
			At                                  time.Time
			What, Place, Drive, Part, Job, Turn string
			Fraction, Moved, Variance           float64
			Helped, Worse                       bool
		}
		var refits []time.Time
		err := errors.Join(
			p.admin.Select(&rows, `select at, what, place, drive, part, job, turn, fraction, moved, variance, helped, worse from tries where car = $1`, car),
			p.admin.Select(&refits, `select at from refits where car = $1 union select at from changes where car = $1 and reason = 'fitted'`, car))
		if err != nil {
			p.Fatal(err)
		}
		var tries []learn.Try
		for _, r := range rows {
			row := tuning.RowKey{What: tuning.What(r.What), Where: tuning.Where(r.Place), Drive: tuning.Drive(r.Drive)}
			tries = append(tries, learn.Try{At: r.At, Fraction: r.Fraction, Key: learn.Key{Row: row, Part: tuning.Part(r.Part), Job: tuning.Job(r.Job), Turn: tuning.Turn(r.Turn)},
				Reading: learn.Reading{Moved: r.Moved, Variance: r.Variance, Helped: r.Helped, Worse: r.Worse}})
		}
		var got learn.Evidence
		err = p.db.Read(p.Context(), tuning.Who{Club: "hill"}, later, func(b *store.Book) (err error) {
			got, err = b.LearnedAll(p.Context(), tuning.Car{ID: car})
			return err
		})
		want := learn.SumsOf(tries, refits, later)
		if diff := cmp.Diff(want, got.Own, cmpopts.EquateApprox(1e-13, 0), cmpopts.EquateApproxTime(0)); err != nil || diff != "" {
			p.Errorf("car %d: %v, by hand -, read +:\n%s", car, err, diff)
		}
	}
}

// rowsAreThoseOfTheWholeRecord reads all records again, as for cars from before
// there were tries, and is stopped on the way.
func (p pits) rowsAreThoseOfTheWholeRecord() {
	p.Helper()
	kept := func() (rows []string) {
		if err := p.admin.Select(&rows, `select t::text from tries t order by car, change`); err != nil {
			p.Fatal(err)
		}
		return rows
	}
	before := kept()
	p.admin.MustExec(`truncate tries, try_sums`)
	p.admin.MustExec(`update cars set tries_read = false`)
	p.admin.MustExec(`update clubs set tries_read = false`)
	var unreadable int64 // an advice of a car in the midst
	if err := p.admin.Get(&unreadable, `select min(id) from advice where car = (select car from changes where reason = 'remedy' order by car offset 20 limit 1)`); err != nil {
		p.Fatal(err)
	}
	const put = `update advice set complaint = jsonb_set(complaint, '{what}', $1::jsonb) where id = $2`
	p.admin.MustExec(put, `5`, unreadable)
	if cars, err := p.db.ReadOlder(p.Context(), *p.now); err == nil || cars < 10 {
		p.Errorf("reading what cannot be read: %d cars, %v", cars, err)
	}
	if n := len(kept()); n == 0 || n >= len(before) {
		p.Errorf("%d of %d rows are kept when it is stopped", n, len(before))
	}
	p.admin.MustExec(put, `"understeer"`, unreadable)
	db, err := store.Rehearse(p.Context(), p.url) // whatever opens the record goes on
	if err != nil {
		p.Fatal(err)
	}
	defer db.Close()
	if diff := cmp.Diff(before, kept()); diff != "" {
		p.Errorf("kept with each feel -, read of the whole record +:\n%s", diff)
	}
	if cars, err := db.ReadOlder(p.Context(), *p.now); cars != 0 || err != nil {
		p.Errorf("%d cars are read twice: %v", cars, err)
	}
}

// A member who leaves takes what they tried out of the club's figures at once,
// which are then as if that member had never been there.
func TestErasingLeavesTheClubsFiguresRight(t *testing.T) {
	p := newPits(t)
	for _, who := range []string{"Ann", "Ben", "Robin", "Cat"} {
		p.hatch(who)
	}
	figures := func() bot.Learned { return *p.plays("Robin", pushes).Remedies[0].Learned }
	p.plays("Ann", pushes, `apply 1`, better)
	p.plays("Ben", pushes, `apply 1`, better)
	then := *p.now
	two := figures()
	if two.ClubCars != 0 || two.Mean <= 0.5 {
		t.Errorf("of two cars: %+v", two)
	}
	p.plays("Cat", pushes, `apply 1`, `/feel grip:5 better:no`)
	if three := figures(); three.ClubCars != 3 || three.Mean >= two.Mean {
		t.Errorf("of three cars: %+v, of two %+v", three, two)
	}
	p.plays("Cat", `/me erase sure:yes`)
	*p.now = then
	if after := figures(); after.ClubCars != 0 || math.Abs(after.Mean-two.Mean) > 1e-12 || math.Abs(after.SD-two.SD) > 1e-12 {
		t.Errorf("after erasing: %+v, without them %+v", after, two)
	}
	var left int
	if err := p.admin.Get(&left, `select count(*) from tries where car not in (select id from cars)`); err != nil || left != 0 {
		t.Errorf("%d tries are left: %v", left, err)
	}
}

// After a few answered tries the order and the sentence are the car's own, and
// its coach and the organiser see the same figures.
func TestTheOrderBecomesTheCarsOwn(t *testing.T) {
	p := newPits(t)
	p.hatch("Robin")
	p.plays("Kim", `/me set units:metric`)
	p.plays("Robin", `host /event add name:Day starts:"DAY 20:00" ends:"DAY 22:00"`, `/event enter name:Day`,
		`coach /coach ask member:Robin`, `/coach accept member:Kim`)
	table := p.plays("Robin", pushes)
	p.plays("Robin", pushes, `apply 1`, `/feel grip:6 better:same`, `/undo`, pushes, `apply 2`, better)
	own := p.plays("Robin", pushes)
	if !strings.HasPrefix(table.Title, "Go through") && !strings.HasPrefix(table.Title, "Rear rebound 3 stiffer") || !strings.Contains(own.Title, "Front rebound 3 softer") {
		t.Errorf("first %q, then %q", table.Title, own.Title)
	}
	if !strings.Contains(own.Text+"\n"+strings.Join(own.Notes, "\n"), "\nYour own order: front rebound helped 1 of 1 time, about half a mark better.") {
		t.Errorf("why is not said: %s", own.Text)
	}
	const tried = "front rebound 3 softer helped 1 of 1 time, about half a mark better, give or take one"
	if r := p.plays("Robin", `/learned`); !strings.Contains(r.Text, tried) {
		t.Errorf("learned: %s", r.Text)
	}
	if r := p.does("Kim", tuning.CoachRole, `/coach students member:Robin`); !strings.Contains(strings.Join(r.Notes, "\n"), tried) {
		t.Errorf("the coach reads %q", r.Notes)
	}
	*p.now = p.now.AddDate(0, 0, 1)
	if r := p.does("Olga", tuning.OrganiserRole, `/event summary`); !strings.Contains(r.Text, "Front rebound softer for understeer on entry: helped 1 of 1 time") {
		t.Errorf("the organiser reads %q", r.Text)
	}
}

// expand turns a script into steps and fills in what an earlier reply names.
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
		case strings.HasPrefix(line, "press "):
			press(strings.TrimPrefix(line, "press "))
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
