package main

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/tuning"
)

// day goes to noon of a day, and plays an event there: Olga plans it, and each of
// some members enters, turns the remedy for understeer and says how that felt.
func (p pits) day(date, name, place string, who ...string) {
	p.Helper()
	noon, err := time.Parse(time.DateTime, date+" 08:00:00")
	if err != nil {
		p.Fatal(err)
	}
	*p.now = noon
	p.does("Olga", tuning.OrganiserRole, fmt.Sprintf(`/event add name:%q place:%q starts:"%s 11:00" ends:"%[3]s 21:00"`, name, place, date))
	for i, member := range who {
		p.plays(member, `/event enter name:"`+name+`"`)
		*p.now = noon.Add(time.Duration(4*60+20*i) * time.Minute)
		p.plays(member, pushes, `apply 1`, fmt.Sprintf(`/feel grip:%d better:yes lap:1:4%d.5 conditions:dry notes:"%s at %s"`, 6+i, i, member, name))
	}
	*p.now = noon.Add(15 * time.Hour)
}

// asks asks a line of any club that need not be answered.
func (p pits) asks(club, who string, role tuning.Role, text string) bot.Reply {
	p.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		p.Fatal(err)
	}
	*p.asked++
	return p.router.Answer(p.Context(), bot.Ask{ID: fmt.Sprint("ask ", *p.asked), Line: line, At: *p.now, Whole: true,
		Who: tuning.Who{Club: club, Person: who, Name: who, Role: role}})
}

// isAPage wants a reply with one page of PDF and a picture.
func isAPage(t *testing.T, r bot.Reply) {
	t.Helper()
	if len(r.Files) != 1 || len(onePage.FindAll(r.Files[0].Data, -1)) != 1 {
		t.Errorf("%s: the page is not one", r.Title)
	}
	if r.Picture == nil || r.Picture.Alt == "" {
		t.Fatalf("%s: there is no picture with words", r.Title)
	}
	if _, err := png.Decode(bytes.NewReader(r.Picture.PNG)); err != nil {
		t.Errorf("%s: %v", r.Title, err)
	}
}

func TestASeasonOnOnePage(t *testing.T) {
	p := newPits(t)
	members := []string{"Robin", "Sam", "Cat"}
	for _, who := range members {
		p.hatch(who)
	}
	p.day("2026-06-13", "June day", "Windy Hill", members...)
	p.plays("Robin", `/note what:tyres text:"new set"`)
	p.day("2026-07-11", "July day", "Long Beck", "Robin")
	elsewhere := p.asks("beck", "Robin", tuning.MemberRole, `/car add name:"Blue hatch" drive:rear engine:rear`)
	if elsewhere.Problem != nil {
		t.Fatal(elsewhere.Title)
	}

	*p.now = time.Date(2026, 12, 5, 12, 0, 0, 0, time.UTC)
	r := p.plays("Robin", `/car season`)
	isAPage(t, r)
	if r.Title != "Blue hatch in 2026: 2 changes, 2 runs noted, 2 events" || !r.Private {
		t.Errorf("%q, private %v", r.Title, r.Private)
	}
	for _, want := range []string{"Grip 6 at first, 6 at last, 6 at best (13 Jun). The page", "Best lap at Long Beck, dry: 1:40.500 on 11 Jul.", "Windy Hill, dry: 1:40.500 on 13 Jun.",
		"Understeer on entry: rear rebound 3 stiffer helped 2 of 2 times"} {
		if !strings.Contains(r.Text, want) {
			t.Errorf("the message lacks %q:\n%s", want, r.Text)
		}
	}
	if notes := strings.Join(r.Notes, "\n"); !strings.Contains(notes, "tyres: new set") || !strings.Contains(notes, "Robin at July day") || strings.Contains(notes, "Sam") {
		t.Errorf("the notes are\n%s", notes)
	}
	if !strings.Contains(r.Picture.Alt, "Rear rebound: 16 → 10 from hard, within 10 to 16.") || !strings.Contains(r.Picture.Alt, "Events: 1 June day, 2 July day.") {
		t.Errorf("the picture says %q", r.Picture.Alt)
	}
	learned := p.plays("Robin", `/learned`)
	if line, _, _ := strings.Cut(learned.Text, "\n"); !strings.Contains(r.Text, line) {
		t.Errorf("what is learned reads %q there and here\n%s", line, r.Text)
	}
	for year, words := range map[string]string{"2025": "in 2025", "2027": "in 2027"} {
		if r := p.asks("hill", "Robin", tuning.MemberRole, `/car season year:`+year); r.Problem == nil || r.Problem.Kind != tuning.NotFound ||
			!strings.Contains(r.Title, words) || len(r.Actions) != 1 || p.plays("Robin", r.Actions[0].Line()).Title != "Blue hatch in 2026: 2 changes, 2 runs noted, 2 events" {
			t.Errorf("%s: %q %+v", year, r.Title, r.Actions)
		}
	}
	if r := p.asks("beck", "Robin", tuning.MemberRole, `/car season`); r.Problem == nil || len(r.Actions) != 0 {
		t.Errorf("a car of another club has the season %q, %+v", r.Title, r.Actions)
	}
}

func TestAClubsSeasonOnOnePage(t *testing.T) {
	p := newPits(t)
	members := []string{"Robin", "Sam", "Cat"}
	for _, who := range members {
		p.hatch(who)
	}
	p.day("2026-06-13", "June day", "Windy Hill", members...)
	p.day("2026-07-11", "July day", "Long Beck", "Robin", "Sam")
	*p.now = time.Date(2026, 12, 5, 12, 0, 0, 0, time.UTC)

	const helped = "Rear rebound stiffer for understeer on entry: helped 5 of 5 times"
	r := p.does("Olga", tuning.OrganiserRole, `/club season`)
	isAPage(t, r)
	if r.Title != "The club in 2026: 2 events, 5 entries" || r.Private {
		t.Errorf("%q, private %v", r.Title, r.Private)
	}
	for _, want := range []string{"Entered: 5 times, 3 cars of 3 people.", "Asked what to turn: 5 times", "Applied a remedy: 5 times", "Said how a run felt: 5 times", helped} {
		if !strings.Contains(r.Text, want) {
			t.Errorf("the message lacks %q:\n%s", want, r.Text)
		}
	}
	if !strings.Contains(r.Picture.Alt, "June day, 13 Jun: 3 cars, 3 answered. July day, 11 Jul: 2 cars.") {
		t.Errorf("the picture says %q", r.Picture.Alt)
	}
	if said := fmt.Sprint(r.Title, r.Text, r.Notes, r.Picture.Alt); slices.ContainsFunc(append(members, "Blue hatch"), func(name string) bool { return strings.Contains(said, name) }) {
		t.Errorf("it names a member: %s", said)
	}
	if r := p.asks("hill", "Robin", tuning.MemberRole, `/club season`); r.Problem == nil || r.Problem.Kind != tuning.Forbidden {
		t.Errorf("a member gets %q", r.Title)
	}
	if r := p.asks("beck", "Olga", tuning.OrganiserRole, `/club season`); r.Title != "The club had no event in 2026." || len(r.Actions) != 0 || !r.Private {
		t.Errorf("another club gets %q, %+v", r.Title, r.Actions)
	}

	p.plays("Cat", `/me erase sure:yes`)
	after := p.does("Olga", tuning.OrganiserRole, `/club season`)
	if after.Title != r.Title || strings.Contains(after.Text+fmt.Sprint(after.Notes), "helped") || strings.Contains(after.Text, "times") {
		t.Errorf("with two people left it says %q\n%s", after.Title, after.Text)
	}
	if !strings.Contains(after.Picture.Alt, "June day, 13 Jun: 3 cars. July day, 11 Jul: 2 cars.") {
		t.Errorf("the picture says %q", after.Picture.Alt)
	}
}

// From the command line the picture and the page are files.
func TestASeasonAsFiles(t *testing.T) {
	robin := newPaddock(t).as("--as", "Robin").blueHatch()
	robin.refuses("not-found", "Nothing was turned, felt or noted on Blue hatch in 2026.", `/car season`)
	robin.does(`/feel grip:7`)
	r := robin.does(`/car season`)
	printedPage(t, r.Files[0].File)
	if picture, err := os.ReadFile(r.Picture.File); err != nil || r.Picture.Alt == "" || !bytes.HasPrefix(picture, []byte("\x89PNG")) {
		t.Errorf("the picture is %+v: %v", r.Picture, err)
	}
}

// In a workspace the season comes with its picture and its page, for the member
// alone.
func TestASeasonInAWorkspace(t *testing.T) {
	t.Parallel()
	for name, processes := range map[string]int{"gateway": 0, "posted": 1} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			robin := openWorkspace(t, processes).member
			robin.Type(`/car add name:"Blue hatch" drive:front engine:front`).Wait()
			if r := robin.Type(`/car season`); !strings.Contains(r.Text(), "Nothing was turned, felt or noted on Blue hatch") || !r.Private() {
				t.Errorf("a year with nothing: %q", r.Text())
			}
			robin.Type(`/feel grip:7`).Wait()
			r := robin.Type(`/car season`)
			var files []string
			for _, f := range r.Files() {
				files = append(files, f.Name)
			}
			year := time.Now().UTC().Year()
			if want := []string{"picture.png", fmt.Sprintf("season-%d.pdf", year)}; !slices.Equal(files, want) || !r.Private() {
				t.Errorf("the files are %q, private %v: %s", files, r.Private(), r.Text())
			}
			if back := robin.Type(fmt.Sprintf(`/car season year:%d`, year-1)).Press(fmt.Sprint(year)); !strings.Contains(back.Text(), fmt.Sprintf("Blue hatch in %d", year)) {
				t.Errorf("the button leads to %q", back.Text())
			}
		})
	}
}
