package main

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"detent/bot"
	"detent/tuning"
)

// under asks a member's line under a request id, answered or refused.
func (p pits) under(who, id, text string) bot.Reply {
	p.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		p.Fatal(err)
	}
	return p.router.Answer(p.Context(), bot.Ask{ID: id, Line: line, At: *p.now, Whole: true,
		Who: tuning.Who{Club: "hill", Person: who, Name: who, Role: tuning.MemberRole}})
}

// stands is where a member's car stands, corner by corner.
func (p pits) stands(who, car string) string {
	p.Helper()
	var at []string
	for _, c := range p.plays(who, `/clicks show car:`+bot.Quote(car)).Corners {
		at = append(at, fmt.Sprintf("%s %s %d", c.Corner, c.Adjuster, c.To))
	}
	return strings.Join(at, ", ")
}

// changes counts the changes of a member's cars, by reason.
func (p pits) changes(who string, reason tuning.Reason) (n int) {
	p.Helper()
	if err := p.admin.Get(&n, `select count(*) from changes c join cars on cars.club = c.club and cars.id = c.car where owner = $1 and reason = $2`, who, reason); err != nil {
		p.Fatal(err)
	}
	return n
}

// A driver saves clicks, turns, loads them again by the button, takes that back,
// and compares, all through the record.
func TestClicksAreSavedAndLoaded(t *testing.T) {
	p := newPits(t)
	p.hatch("Robin")
	p.plays("Robin", `host /event add name:"Spring day" starts:"DAY 20:00" ends:"DAY 22:00" place:"Windy Hill" weather:dry`, `/event enter name:"Spring day"`,
		`/clicks set at:all adjuster:bump to:15 turned:yes`, `/feel grip:7 exit:-1 lap:1:42.6 notes:"turns in now"`)
	r := p.plays("Robin", `/clicks save name:"Dry fast"`)
	if !strings.HasSuffix(r.Text, ", 16 May 2026, Windy Hill, dry: grip 7, exit pushes wide 1, lap 1:42.600, “turns in now”.") {
		t.Errorf("saved: %q", r.Text)
	}
	saved := p.stands("Robin", "Blue hatch")
	if again := p.under("Robin", "twice", `/clicks save name:"dry FAST"`); again.Problem == nil || again.Problem.Kind != tuning.Conflict {
		t.Errorf("saved twice: %q", again.Title)
	}
	p.plays("Robin", `/clicks set at:front adjuster:rebound to:10 turned:yes`, `/feel grip:5`)
	turned := p.stands("Robin", "Blue hatch")
	if r = p.plays("Robin", `/clicks compare name:"Dry fast"`); !strings.Contains(r.Text, "grip 7, exit") || !strings.Contains(r.Text, "Today: grip 5.") || r.View.Grid == "" {
		t.Errorf("compared: %s", r.Text)
	}
	load := p.plays("Robin", `/clicks load name:"Dry fast"`)
	press := action(t, load, "These are set now")
	first, again := p.under("Robin", "press", press), p.under("Robin", "press", press)
	if first.Title != again.Title || first.Problem != nil || p.changes("Robin", tuning.ByLoading) != 1 || p.stands("Robin", "Blue hatch") != saved {
		t.Errorf("applied: %q, then %q: %s", first.Title, again.Title, p.stands("Robin", "Blue hatch"))
	}
	if other := p.under("Robin", "another press", press); !strings.HasPrefix(other.Title, "Already noted") || p.changes("Robin", tuning.ByLoading) != 1 {
		t.Errorf("pressed again: %q", other.Title)
	}
	if log := p.plays("Robin", `/log`); !strings.Contains(log.Text, "(loaded setting; Spring day)") {
		t.Errorf("logged: %s", log.Text)
	}
	if p.plays("Robin", action(t, first, "Take it back")); p.stands("Robin", "Blue hatch") != turned {
		t.Errorf("taken back: %s, want %s", p.stands("Robin", "Blue hatch"), turned)
	}
	p.plays("Robin", `/clicks load name:"Dry fast"`, `/apply`, `/feel grip:8`)
	if list := p.plays("Robin", `/clicks saved`); !strings.Contains(list.Text, "grip 8.") { // felt after they were loaded
		t.Errorf("saved are %s", list.Text)
	}
	if nothing := p.plays("Robin", `/clicks load name:"Dry fast"`); !strings.HasPrefix(nothing.Title, "Nothing to turn") {
		t.Errorf("where it stands: %q", nothing.Title)
	}
}

// What the clicks have moved away from is refused with a fresh answer, which
// holds; of what was forgotten meanwhile there is none.
func TestLoadingThatIsOutOfDate(t *testing.T) {
	p := newPits(t)
	p.hatch("Robin")
	p.plays("Robin", `/clicks save name:"Dry fast"`)
	saved := p.stands("Robin", "Blue hatch")
	p.plays("Robin", `/clicks set at:front adjuster:rebound to:10 turned:yes`)
	load := p.plays("Robin", `/clicks load name:"Dry fast"`)
	p.plays("Robin", `/clicks set at:rear adjuster:bump to:10 turned:yes`)
	stale := p.under("Robin", "stale", action(t, load, "These are set now"))
	if stale.Problem == nil || stale.Problem.Kind != tuning.Conflict || !strings.Contains(stale.Title, "out of date") || p.changes("Robin", tuning.ByLoading) != 0 {
		t.Fatalf("out of date: %q", stale.Title)
	}
	if p.plays("Robin", action(t, stale, "These are set now")); p.stands("Robin", "Blue hatch") != saved {
		t.Errorf("afresh: %s, want %s", p.stands("Robin", "Blue hatch"), saved)
	}
	p.plays("Robin", `/undo`)
	load = p.plays("Robin", `/clicks load name:"Dry fast"`)
	p.plays("Robin", `/clicks forget name:"Dry fast"`, `/clicks set at:rear adjuster:bump to:12 turned:yes`)
	gone := p.under("Robin", "gone", action(t, load, "These are set now"))
	if gone.Problem == nil || gone.Problem.Kind != tuning.NotFound || !strings.Contains(gone.Title, "not saved any more") {
		t.Errorf("forgotten: %q", gone.Title)
	}
	if gone := p.under("Robin", "gone again", `/clicks load name:"Dry fast"`); gone.Problem == nil || gone.Problem.Kind != tuning.NotFound {
		t.Errorf("forgotten: %q", gone.Title)
	}
}

// Other dampers take the same part of each range, from before or from another
// car, and what was rounded is said.
func TestClicksGoToOtherDampers(t *testing.T) {
	p := newPits(t)
	p.hatch("Robin") // rebound at 11 and 14 of 30 from soft
	p.plays("Robin", `/clicks save name:Old`, `/car add name:"Red coupe" drive:rear engine:mid`)
	bare := p.under("Robin", "bare", `/clicks copy from:"Blue hatch" car:"Red coupe"`)
	if bare.Problem == nil || bare.Problem.Kind != tuning.Invalid || bare.Actions[0].Label != "Dampers" {
		t.Errorf("without dampers: %q %+v", bare.Title, bare.Actions)
	}
	p.plays("Robin", `/damper fit car:"Red coupe" axle:both ways:three clicks:16 count:soft`)
	copied := p.plays("Robin", `/clicks copy from:"Blue hatch" car:"Red coupe"`)
	if why := p.plays("Robin", action(t, copied, "Why")); !strings.Contains(why.Text, "Front low-speed bump, high-speed bump and rebound: 11 of 30 clicks from soft is 5.87 of 16, rounded to 6.") {
		t.Errorf("why: %s", why.Text)
	}
	p.plays("Robin", action(t, copied, "These are set now"))
	if at := p.stands("Robin", "Red coupe"); !strings.HasPrefix(at, "FL low-bump 6, FL high-bump 6, FL rebound 6, ") || !strings.HasSuffix(at, "RR low-bump 7, RR high-bump 7, RR rebound 7") {
		t.Errorf("copied to %s", at)
	}
	p.plays("Robin", `/damper fit car:"Blue hatch" axle:both ways:two clicks:16 count:hard`, `/clicks set car:"Blue hatch" at:all adjuster:rebound to:2 turned:yes`, `/clicks load name:Old`, `/apply`)
	if at := p.stands("Robin", "Blue hatch"); !strings.HasPrefix(at, "FL bump 6, FL rebound 6, ") || !strings.HasSuffix(at, "RR bump 7, RR rebound 7") {
		t.Errorf("loaded to %s", at)
	}
	if n := p.changes("Robin", tuning.ByCopying); n != 1 {
		t.Errorf("%d changes are copies", n)
	}
}

// Saved clicks are the driver's own: in what is handed over, gone with what is
// erased, and nothing to anybody else.
func TestSavedClicksAreTheDriversOwn(t *testing.T) {
	p := newPits(t)
	p.hatch("Robin")
	p.hatch("Sam")
	p.plays("Robin", `/clicks save name:"Dry fast"`)
	if other := p.under("Sam", "sam", `/clicks load name:"Dry fast"`); other.Problem == nil || other.Problem.Kind != tuning.NotFound {
		t.Errorf("another's: %q", other.Title)
	}
	export := p.plays("Robin", `/me export`)
	files, err := zip.NewReader(bytes.NewReader(export.Files[0].Data), int64(len(export.Files[0].Data)))
	if err != nil {
		t.Fatal(err)
	}
	if table, err := fs.ReadFile(files, "kept_settings.csv"); err != nil || !strings.Contains(string(table), "Dry fast") {
		t.Errorf("handed over is %q, %v", table, err)
	}
	p.plays("Robin", `/me erase sure:yes`)
	var left int
	if err := p.admin.Get(&left, `select count(*) from kept_settings`); err != nil || left != 0 {
		t.Errorf("%d are left: %v", left, err)
	}
}

// In the workspace nothing is typed but names: a form asks for them, they complete
// while somebody types, and buttons do the rest.
func TestSavedClicksInAWorkspace(t *testing.T) {
	eachWay(t, func(t *testing.T, w workspace) {
		robin := &hand{T: t, Member: w.member}
		robin.sends(`/clicks saved`).sees("no car").presses("Add a car").presses("Front wheels").presses("In front").presses("Two-way").presses("30").presses("From full hard")
		robin.presses("These are set now").sees("Noted")
		robin.sends(`/clicks show`).presses("Save these clicks").fills(map[string]string{"name": "Dry fast"}).sees("Saved as “Dry fast”")
		robin.sends(`/clicks save name:"dry fast"`).sees("choose another name").presses("Another name").fills(map[string]string{"name": "Spare"}).sees("Saved as “Spare”")
		robin.sends(`/clicks set at:front adjuster:rebound to:10 turned:yes`).sees("Noted")
		if got := robin.Autocomplete(`/clicks load name:dr`); len(got) != 1 || got[0].Value != "Dry fast" {
			t.Errorf("dr completes to %+v", got)
		}
		if got := robin.Autocomplete(`/clicks compare name:Spare with:`); len(got) != 3 || got[0].Value != "today" {
			t.Errorf("with completes to %+v", got)
		}
		robin.sends(`/clicks saved`).sees("Spare: ", "Dry fast: ").presses("Compare Dry fast").sees("differ in 2 places", "19/10")
		robin.presses("Load Dry fast").sees("Load “Dry fast”", "10→19").presses("These are set now").sees("Noted")
		if !robin.shown.Private() {
			t.Error("all see it")
		}
		robin.presses("Take it back").sees("Taken back")
		robin.sends(`/clicks load`).sees("Which of the saved clicks?").presses("Spare").sees("Load “Spare”")
		robin.sends(`/clicks load name:Sparse`).sees("did you mean Spare?").presses("Spare").sees("Load “Spare”")
		robin.sends(`/clicks copy`).sees("add one").presses("Add a car").presses("Rear wheels").presses("In the middle").presses("Name it").fills(map[string]string{"name": "Grey"})
		robin.sends(`/clicks copy from:Grey car:"My car"`).sees("I do not know the front dampers of Grey").presses("Dampers").presses("Three-way").presses("16").presses("From full soft")
		robin.sends(`/clicks copy from:Grey car:Grey`).sees("cannot be copied to itself").presses("My car").sees("As on Grey", "Another car may want otherwise").presses("These are set now").sees("Noted")
		robin.sends(`/log`).sees("copied from another car", "loaded setting")
	})
}
