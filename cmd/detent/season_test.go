package main

import (
	"bytes"
	"database/sql"
	"fmt"
	"log/slog"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/store"
	"detent/tuning"
)

// seasonPaddock is the paddock in a club with clocks of its own, some days before
// Spring day, which Olga has planned.
func seasonPaddock(t *testing.T) (member, organiser paddock) {
	member = newPaddock(t).as("--as", "Robin", "--at", "2026-05-10T10:00:00Z")
	organiser = member.as("--as", "Olga", "--role", "organiser")
	organiser.does(`/club set zone:Europe/Berlin`,
		`/event add name:"Spring day" starts:"2026-05-16 09:00" ends:"2026-05-16 17:00" place:"Windy Hill" surface:bumpy`)
	return member.blueHatch(), organiser
}

// due counts what is still to come for a person, or for the channel.
func due(t *testing.T, person string) (n int) {
	t.Helper()
	db, err := sql.Open("postgres", os.Getenv("DETENT_DATABASE_URL"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	err = db.QueryRowContext(t.Context(), `select count(*) from due where coalesce(person, '') = $1 and next_at is not null`, person).Scan(&n)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestADayOfTheSeason(t *testing.T) {
	robin, olga := seasonPaddock(t)
	in := robin.does(`/event enter name:"spring day"`)
	if !strings.Contains(in.Text, "one question how the car felt") || in.Actions[1].Label != "No messages, please" {
		t.Errorf("entering does not say what will come, or does not offer to refuse it: %+v", in)
	}
	if n := due(t, "Robin"); n != 3 {
		t.Errorf("%d messages are due to whoever entered, want 3", n)
	}
	robin.does(in.Actions[1].Ask)
	if n := due(t, "Robin"); n != 0 {
		t.Errorf("%d messages are due to whoever refused them", n)
	}
	robin.does(`/event enter remind:yes`)
	robin.does(`/event leave`)
	if n := due(t, "Robin"); n != 0 {
		t.Errorf("%d messages are due to whoever left", n)
	}
	robin.does(`/event enter`)
	if show := robin.does(`/event show`); !strings.Contains(show.Text, "In with Blue hatch") {
		t.Errorf("the event does not know the car: %s", show.Text)
	}

	day := robin.as("--at", "2026-05-16T09:00:00Z")
	first := day.does(`/symptom what:understeer where:entry`)
	if len(first.First) == 0 {
		t.Error("the first advice of the event comes without the checks")
	}
	if again := day.as("--at", "2026-05-16T13:00:00Z").does(`/symptom what:hops`); len(again.First) != 0 {
		t.Error("the checks come twice in one event")
	}
	day.does(first.Remedies[0].Apply, `/feel grip:7 better:yes`)
	if log := day.does(`/log`); !strings.Contains(log.Text, "felt better; Spring day") {
		t.Errorf("the log does not name the event:\n%s", log.Text)
	}

	summary := olga.as("--at", "2026-05-17T10:00:00Z").does(`/event summary`)
	for _, words := range []string{"1 car, 1 answer in", "understeer on entry (1 car)", "Rear rebound stiffer for understeer on entry: helped 1 of 1 time"} {
		if !strings.Contains(summary.Title+summary.Text, words) {
			t.Errorf("the summary lacks %q:\n%s\n%s", words, summary.Title, summary.Text)
		}
	}
	if said := fmt.Sprint(summary); strings.Contains(said, "Robin") || strings.Contains(said, "Blue hatch") {
		t.Errorf("the summary names a member: %s", said)
	}
}

var onePage = regexp.MustCompile(`/Type /Page\b[^s]`)

// printedPage wants a reply's file to be one page of PDF.
func printedPage(t *testing.T, path string) {
	t.Helper()
	pdf, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(onePage.FindAll(pdf, -1)); n != 1 || !bytes.HasPrefix(pdf, []byte("%PDF-")) {
		t.Errorf("%s has %d pages", path, n)
	}
}

func TestGuideIsPostedWhenItChanged(t *testing.T) {
	robin, olga := seasonPaddock(t)
	olga.refuses("invalid", "Nobody has entered Spring day yet", `/event guide`)
	robin.does(`/event enter`)
	guide := olga.does(`/event guide`)
	for _, words := range []string{"Front drive, front engine", "30: 19 (11) / 16 (14)", "Bumpy"} {
		if said := guide.Text + strings.Join(guide.Notes, "\n"); !strings.Contains(said, words) {
			t.Errorf("the guide lacks %q:\n%s", words, said)
		}
	}
	if guide.Private || len(guide.First) == 0 || len(guide.Cautions) == 0 || len(guide.Notes) < 16 {
		t.Errorf("the guide is private, or lacks checks, cautions or the card: %+v", guide)
	}
	printedPage(t, guide.Files[0].File)

	again := olga.does(`/event guide`)
	if !strings.Contains(again.Title, "has not changed") || len(again.Files) != 0 {
		t.Errorf("the same guide was posted twice: %q", again.Title)
	}
	if forced := olga.does(again.Actions[0].Ask); forced.Title != guide.Title {
		t.Errorf("asked for again, the guide is %q", forced.Title)
	}
	robin.as("--as", "Kim").blueHatch().does(`/event enter`)
	if same := olga.does(`/event guide`); !strings.Contains(same.Title, "has not changed") {
		t.Error("another car of the same kind makes another guide")
	}
	sam := robin.as("--as", "Sam")
	sam.does(`/car add name:"Grey coupe" drive:rear engine:mid`, `/damper fit axle:both ways:one clicks:7 count:soft moves:both`, `/event enter`)
	if changed := olga.does(`/event guide`); !slices.Contains(changed.Notes, "Rear drive, mid engine: front / rear") {
		t.Errorf("the guide does not follow the cars:\n%q", changed.Notes)
	}

	sheet := sam.does(`/event sheet`)
	if !sheet.Private || !slices.ContainsFunc(sheet.Corners, func(c bot.Corner) bool { return c.Corner == "RL" && c.Shown == "2 from soft" }) {
		t.Errorf("the sheet is not private or not the car's own: %+v", sheet.Corners)
	}
	printedPage(t, sheet.Files[0].File)
	olga.refuses("not-found", "You are not entered in Spring day", `/event sheet`)
}

func TestEventsThatCannotBe(t *testing.T) {
	robin, olga := seasonPaddock(t)
	olga.does(`/event add name:Full starts:"2026-06-01 09:00" ends:"2026-06-01 17:00" limit:1`,
		`/event add name:Off starts:"2026-06-08 09:00" ends:"2026-06-08 17:00"`, `/event cancel name:Off`)
	robin.does(`/car add name:"Old van" drive:rear engine:front`, `/car retire car:"Old van"`, `/event enter name:"Spring day"`)
	robin.as("--as", "Kim").blueHatch().does(`/event enter name:Full`)
	for _, c := range []struct {
		who               paddock
		kind, words, line string
	}{
		{olga, "invalid", "ends before it starts", `/event add name:X starts:"2026-07-02 09:00" ends:"2026-07-01 17:00"`},
		{olga, "invalid", "ends before it starts", `/event add name:X starts:"2026-07-02 09:00" ends:"2026-07-02 09:00"`},
		{olga, "invalid", "is in the past", `/event add name:X starts:"2026-05-09 09:00" ends:"2026-05-09 17:00"`},
		{olga, "invalid", "is in the past", `/event add name:X starts:"2026-05-10 09:00" ends:"2026-05-10 17:00"`},
		{olga, "invalid", "longer than two weeks", `/event add name:X starts:"2026-07-02 09:00" ends:"2027-07-02 17:00"`},
		{olga, "invalid", "more than three years away", `/event add name:X starts:"2062-07-02 09:00" ends:"2062-07-02 17:00"`},
		{olga, "conflict", "Spring day runs at that time", `/event add name:X starts:"2026-05-16 16:00" ends:"2026-05-16 20:00"`},
		{olga, "conflict", "An event called Spring day is planned already", `/event add name:"SPRING DAY" starts:"2026-07-02 09:00" ends:"2026-07-02 17:00"`},
		{olga, "invalid", "takes a date and a time", `/event add name:X starts:tomorrow ends:"2026-07-02 17:00"`},
		{olga, "invalid", "takes a date and a time", `/event add name:X starts:"2026-02-30 09:00" ends:"2026-07-02 17:00"`},
		{olga, "invalid", "Give it a name", `/event add name:" " starts:"2026-07-02 09:00" ends:"2026-07-02 17:00"`},
		{olga, "invalid", "before the event starts", `/event add name:X starts:"2026-07-02 09:00" ends:"2026-07-02 17:00" guide-at:"2026-07-02 09:00"`},
		{olga, "invalid", "by hand with /event guide", `/event add name:X starts:"2026-07-02 09:00" ends:"2026-07-02 17:00" guide-at:"2026-05-01 09:00"`},
		{olga, "invalid", "whole number from 0", `/event add name:X starts:"2026-07-02 09:00" ends:"2026-07-02 17:00" limit:-1`},
		{robin, "forbidden", "organisers", `/event add name:X starts:"2026-07-02 09:00" ends:"2026-07-02 17:00"`},
		{robin, "conflict", "Blue hatch is entered in Spring day already", `/event enter name:"Spring day"`},
		{robin, "invalid", "Old van is retired", `/event enter name:"Spring day" car:"Old van"`},
		{robin, "conflict", "Full is full", `/event enter name:Full`},
		{robin, "conflict", "Off is cancelled", `/event enter name:Off`},
		{robin, "not-found", "did you mean Spring day?", `/event enter name:"Spring dai"`},
		{robin, "not-found", "You have no car called", `/event enter car:"Red racer"`},
		{robin, "conflict", "Spring day was over", `/event enter name:"Spring day"`},
		{robin, "not-found", "You are not entered in Full", `/event leave name:Full`},
		{robin, "not-found", "No event is planned", `/event show`},
		{robin, "forbidden", "organisers", `/event cancel`},
		{robin, "forbidden", "organisers", `/event guide`},
		{robin, "forbidden", "organisers", `/event summary`},
		{olga, "conflict", "Off is cancelled", `/event cancel name:Off`},
		{olga, "conflict", "Spring day runs at that time", `/event edit name:Full starts:"2026-05-16 10:00" ends:"2026-05-16 12:00"`},
		{olga, "invalid", "ends before it starts", `/event edit name:Full ends:"2026-05-31 12:00"`},
		{olga, "invalid", "Say what to change of Full", `/event edit name:Full`},
		{olga, "invalid", "has not begun", `/event summary name:Full`},
		{olga, "not-found", "No event has begun yet", `/event summary`},
		{olga, "invalid", "Nobody has entered Empty", `/event guide name:Empty`},
	} {
		who := c.who
		switch {
		case strings.Contains(c.words, "was over"):
			who = who.as("--at", "2026-05-16T15:00:00Z")
		case c.words == "No event is planned":
			who = who.as("--at", "2026-06-09T10:00:00Z")
		case strings.Contains(c.words, "Empty"):
			who.does(`/event add name:Empty starts:"2026-08-01 09:00" ends:"2026-08-01 17:00"`)
		}
		before := strings.Join([]string{fmt.Sprint(olga.does(`/event list`)), fmt.Sprint(robin.does(`/event show name:"Spring day"`))}, "\n")
		who.refuses(c.kind, c.words, c.line)
		if after := strings.Join([]string{fmt.Sprint(olga.does(`/event list`)), fmt.Sprint(robin.does(`/event show name:"Spring day"`))}, "\n"); after != before {
			t.Errorf("%s changed something:\n%s\nbefore:\n%s", c.line, after, before)
		}
	}
}

func TestEditAndCancelMoveWhatIsDue(t *testing.T) {
	robin, olga := seasonPaddock(t)
	robin.does(`/event enter`)
	edited := olga.does(`/event edit rename:"May day" starts:"2026-05-17 09:00" ends:"2026-05-17 17:00" place:"Long Meadow" weather:wet limit:5 guide-at:"2026-05-15 18:00"`)
	if want := "It was called Spring day.\nNow Sun 17 May 2026, 09:00 to 17:00.\nPlace: Long Meadow.\nWeather: wet.\nPlaces: 5.\nThe guide comes on Fri 15 May 2026, 18:00."; edited.Text != want {
		t.Errorf("the event is now %q, want %q", edited.Text, want)
	}
	if channel, person := due(t, ""), due(t, "Robin"); channel != 1 || person != 3 {
		t.Errorf("%d posts and %d messages are due, want 1 and 3", channel, person)
	}
	robin.as("--as", "Kim").blueHatch().does(`/event enter`)
	olga.refuses("conflict", "2 cars are entered already", `/event edit limit:1`)
	olga.does(`/event cancel`)
	if channel, person := due(t, ""), due(t, "Robin"); channel != 0 || person != 0 {
		t.Errorf("%d posts and %d messages are due of a cancelled event", channel, person)
	}
}

// The question about an event that is over may still be to come. It moves too
// when the club wants it sooner.
func TestAShorterWaitMovesTheQuestion(t *testing.T) {
	robin, olga := seasonPaddock(t)
	robin.does(`/event enter`)
	ended := olga.as("--at", "2026-05-16T15:10:00Z")
	ended.does(`/club set remind-after:30m`)
	if early, _ := robin.due("2026-05-16T15:29:00Z"); len(early) != 0 {
		t.Errorf("before its time it prints %+v", early)
	}
	if asked, _ := robin.due("2026-05-16T15:31:00Z"); len(asked) != 1 || asked[0].Title != "How did the car feel at Spring day?" {
		t.Errorf("half an hour after the event it prints %+v", asked)
	}
	if moved := ended.does(`/club set zone:Europe/London`); len(moved.Notes) != 0 {
		t.Errorf("an event that is over is said to keep its moment: %q", moved.Notes)
	}
}

// Two days are two events. The question of the first is answered for the first,
// even while the second is under way.
func TestSaturdaysQuestionAnsweredOnSunday(t *testing.T) {
	robin, olga := seasonPaddock(t)
	olga.does(`/event add name:Sunday starts:"2026-05-17 09:00" ends:"2026-05-17 17:00"`,
		`/event add name:Later starts:"2026-06-17 09:00" ends:"2026-06-17 17:00"`)
	robin.does(`/event enter`, `/event enter name:Sunday`)
	robin.due("2026-05-16T17:00:00Z") // the clicks to check before Sunday
	asked, _ := robin.due("2026-05-16T18:00:00Z")
	if len(asked) != 1 || asked[0].Actions[0].Label != "Say how Blue hatch felt" {
		t.Fatalf("on Saturday evening it prints %+v", asked)
	}
	sunday := robin.as("--at", "2026-05-17T07:30:00Z")
	answer := sunday.does(asked[0].Actions[0].Ask + ` grip:7`)
	if !slices.Contains(answer.Notes, "It counts as your answer for Spring day.") {
		t.Errorf("the answer says %q", answer.Notes)
	}
	if again, errs := robin.due("2026-05-17T18:00:00Z"); len(again) != 1 || again[0].Title != "How did the car feel at Sunday?" || !strings.Contains(errs, "they have answered") {
		t.Errorf("on Sunday evening it prints %+v\n%s", again, errs)
	}
	sunday.refuses("not-found", "Blue hatch is not entered in Later", `/feel grip:7 event:Later`)
	sunday.refuses("not-found", "no event called", `/feel grip:7 event:#99`)
	robin.refuses("invalid", "begins on Sat 16 May 2026, 09:00", `/feel grip:7 event:"Spring day"`)
}

// Nobody is asked how a retired car felt.
func TestNoQuestionOfARetiredCar(t *testing.T) {
	robin, _ := seasonPaddock(t)
	robin.does(`/event enter`)
	robin.as("--at", "2026-05-16T15:10:00Z").does(`/car retire car:"Blue hatch"`)
	if asked, errs := robin.due("2026-05-16T18:30:00Z"); len(asked) != 0 || !strings.Contains(errs, "their car is retired") {
		t.Errorf("of a retired car it prints %+v\n%s", asked, errs)
	}
}

// TestClocksThatChange plans events at times that do not exist or come twice,
// by the clocks of three zones as the time zone database has them.
func TestClocksThatChange(t *testing.T) {
	olga := newPaddock(t).as("--as", "Olga", "--role", "organiser", "--at", "2026-01-10T10:00:00Z")
	for i, c := range []struct{ zone, starts, reads, said string }{
		{"Europe/Berlin", "2026-03-29 02:30", "Sun 29 Mar 2026, 03:30", "does not exist in Europe/Berlin"},
		{"Europe/Berlin", "2026-10-25 02:30", "Sun 25 Oct 2026, 02:30", "I take the first, at 00:30 UTC"},
		{"Europe/Berlin", "2026-10-25 03:00", "Sun 25 Oct 2026, 03:00", ""},
		{"America/New_York", "2026-03-08 02:30", "Sun 8 Mar 2026, 03:30", "does not exist in America/New_York"},
		{"America/New_York", "2026-11-01 01:30", "Sun 1 Nov 2026, 01:30", "I take the first, at 05:30 UTC"},
		{"America/New_York", "2026-11-01 09:00", "Sun 1 Nov 2026, 09:00", ""},
		{"Australia/Lord_Howe", "2026-10-04 02:15", "Sun 4 Oct 2026, 02:45", "does not exist in Australia/Lord_Howe"}, // half an hour
		{"Australia/Lord_Howe", "2026-04-05 01:45", "Sun 5 Apr 2026, 01:45", "comes twice in Australia/Lord_Howe"},
	} {
		olga.does(`/club set zone:` + c.zone)
		day := c.starts[:len("2026-03-29")]
		name := fmt.Sprintf("Day %d", i)
		planned := olga.does(fmt.Sprintf(`/event add name:%q starts:%q ends:"%s 17:00"`, name, c.starts, day))
		if !strings.HasPrefix(planned.Text, c.reads+" to 17:00") {
			t.Errorf("%s %s is planned as %q, want %q", c.zone, c.starts, planned.Text, c.reads)
		}
		if said := strings.Join(planned.Notes, " "); !strings.Contains(said, c.said) || c.said == "" && said != "" {
			t.Errorf("%s %s says %q, want %q", c.zone, c.starts, said, c.said)
		}
		olga.does(`/event cancel name:` + fmt.Sprintf("%q", name))
	}
}

func TestTwoCarsInOneEvent(t *testing.T) {
	robin, _ := seasonPaddock(t)
	robin.does(`/car add name:"Grey coupe" drive:rear engine:mid`, `/event enter`, `/event enter car:"Grey coupe"`)
	if n := due(t, "Robin"); n != 3 {
		t.Errorf("%d messages are due for two cars, want 3 as for one", n)
	}
	robin.does(`/event leave car:"Grey coupe"`)
	if show := robin.does(`/event show`); !strings.Contains(show.Text, "1 car is in. In with Blue hatch") {
		t.Errorf("one car left and the event says %q", show.Text)
	}
	if n := due(t, "Robin"); n != 3 {
		t.Errorf("%d messages are due for the car that stays", n)
	}
	robin.refuses("not-found", "Grey coupe is not entered", `/event leave car:"Grey coupe"`)
	robin.does(`/event enter car:"Grey coupe"`)
	if gone := robin.does(`/event leave`); gone.Title != "Blue hatch and Grey coupe left Spring day" {
		t.Errorf("leaving says %q", gone.Title)
	}
}

func TestLongNamesStillFitAButton(t *testing.T) {
	member, olga := seasonPaddock(t)
	long := strings.Repeat("long ", 11) + "name"
	olga.does(fmt.Sprintf(`/event add name:%q starts:"2026-05-20 09:00" ends:"2026-05-20 17:00"`, long))
	member.does(fmt.Sprintf(`/car edit name:%q`, strings.Repeat("very ", 11)+"long"))
	in := member.does(fmt.Sprintf(`/event enter name:%q`, long))
	for _, a := range in.Actions {
		if n := len([]rune(a.Line())); n > 78 {
			t.Errorf("a button carries %d characters: %s", n, a.Line())
		}
	}
	if out := member.does(in.Actions[2].Line()); !strings.HasSuffix(out.Title, "left "+long) {
		t.Errorf("the button answered %q", out.Title)
	}
}

// A button that was made before a car and an event were renamed still finds both.
func TestButtonsOutliveARenaming(t *testing.T) {
	member, olga := seasonPaddock(t)
	in := member.does(`/event enter name:"Spring day"`)
	member.does(`/car edit car:"Blue hatch" name:"Old hatch"`)
	olga.does(`/event edit name:"Spring day" rename:"Late day"`)
	member.does(`/car add name:"Blue hatch" drive:front engine:front`)
	if out := member.does(in.Actions[2].Line()); out.Title != "Old hatch left Late day" {
		t.Errorf("the button answered %q", out.Title)
	}
}

func TestClubSettings(t *testing.T) {
	robin, olga := seasonPaddock(t)
	robin.refuses("forbidden", "organisers", `/club set zone:UTC`)
	olga.refuses("invalid", "did you mean Europe/Berlin?", `/club set zone:Europe/Berln`)
	olga.refuses("invalid", "did you mean Europe/London?", `/club set zone:london`)
	olga.refuses("invalid", "Say what to change", `/club set`)
	olga.refuses("invalid", "time of day", `/club set quiet-from:25:00`)
	olga.refuses("invalid", "length of time", `/club set remind-after:-1h`)
	olga.refuses("invalid", "from 1 to 9", `/club set step-few:0`)
	kept := olga.does(`/club set zone:america/new_york channel:paddock coach-role:coaches quiet-from:22:30 quiet-to:07:15 remind-after:90m ` +
		`units:imperial step-few:2 step-some:3 step-many:4 slight:2 back-off-few:2 back-off-many:3`)
	for _, words := range []string{"Zone: America/New_York", "paddock", "coaches", "22:30 to 07:15", "1 h 30 min", "Steps: 2, 3 or 4", "slight 2", "back-off 2 or 3", "imperial"} {
		if !strings.Contains(kept.Text, words) {
			t.Errorf("the settings lack %q:\n%s", words, kept.Text)
		}
	}
	if len(kept.Notes) != 1 || !strings.Contains(kept.Notes[0], "Spring day keeps its moment, which now reads Sat 16 May 2026, 03:00") {
		t.Errorf("on other clocks the events are said as %q", kept.Notes)
	}
	if shown := robin.does(`/club show`); shown.Text != kept.Text {
		t.Errorf("shown are\n%s\nkept were\n%s", shown.Text, kept.Text)
	}
	if start := robin.does(`/baseline`); at(t, start.Corners, "FL", "rebound").To != 10 { // one below the middle of 30, less a step of 4
		t.Errorf("the start does not follow the club's step: %+v", start.Corners[0])
	}
}

func TestEventsAndZonesAreSuggested(t *testing.T) {
	_, olga := seasonPaddock(t)
	olga.does(`/event add name:"Summer day" starts:"2026-06-16 09:00" ends:"2026-06-16 17:00"`)
	db, err := store.Open(t.Context(), os.Getenv("DETENT_DATABASE_URL"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	router := bot.NewRouter(lines, records{db}, slog.New(slog.DiscardHandler))
	for _, c := range []struct{ line, option, typed, first string }{
		{"/event show", "name", "", "Summer day, Tue 16 Jun 2026, 09:00"}, // Spring day is over by then
		{"/event show", "name", "spr", "Spring day, Sat 16 May 2026, 09:00"},
		{"/club set", "zone", "berl", "Europe/Berlin"},
	} {
		line, err := bot.ParseLine(c.line)
		if err != nil {
			t.Fatal(err)
		}
		got := router.Suggest(t.Context(), bot.Ask{Line: line, At: time.Date(2026, 5, 20, 10, 0, 0, 0, time.UTC),
			Who: tuning.Who{Club: "paddock", Person: "Olga", Role: tuning.OrganiserRole}}, c.option, c.typed)
		if len(got) == 0 || got[0].Label != c.first {
			t.Errorf("%s %s:%s is offered %+v, want %q first", c.line, c.option, c.typed, got, c.first)
		}
	}
}
