package main

import (
	"fmt"
	"strings"
	"testing"
)

// yearClub is a club of twelve in an invented year: an organiser, two coaches
// and nine drivers, four of whom are coached.
type yearClub struct {
	paddock
	day string // 2026-04-18
}

// drivers are the nine with their dampers.
var drivers = []struct{ name, car, dampers string }{
	{"Robin", "drive:front engine:front", "ways:two clicks:30 count:hard"}, {"Sam", "drive:front engine:front", "ways:two clicks:30 count:hard"},
	{"Lee", "drive:front engine:front", "ways:two clicks:24 count:soft"}, {"Ada", "drive:rear engine:mid", "ways:one clicks:7 count:soft moves:both"},
	{"Ben", "drive:rear engine:front", "ways:one clicks:12 count:hard moves:rebound"}, {"Cleo", "drive:four engine:front", "ways:three clicks:20 count:hard"},
	{"Dan", "drive:rear engine:rear", "ways:four clicks:40 count:hard"}, {"Eve", "drive:front engine:front", "ways:two clicks:16 count:hard"},
	{"Finn", "drive:rear engine:front", "ways:four clicks:24 count:soft"},
}

// at is the club at a time of its day, as one of its members.
func (c yearClub) at(clock, who string) paddock {
	role := map[string]string{"Olga": "organiser", "Kim": "coach", "Pat": "coach"}[who]
	if role == "" {
		role = "member"
	}
	return c.as("--at", c.day+"T"+clock+":00Z", "--as", who, "--role", role)
}

// all has every driver ask the same lines.
func (c yearClub) all(clock string, lines ...string) {
	c.Helper()
	for _, d := range drivers {
		c.at(clock, d.name).does(lines...)
	}
}

// gets wants so many messages to be sent at a time, each with some words, and
// returns whom they reach.
func (c yearClub) gets(clock string, n int, words string) (to string) {
	c.Helper()
	sent, _ := c.due(c.day + "T" + clock + ":00Z")
	var names []string
	for _, d := range sent {
		if said := d.Title + "\n" + d.Text; strings.Contains(said, words) {
			names = append(names, d.To)
		}
	}
	if len(names) != n {
		c.Errorf("%s %s: %d messages with %q, want %d: %+v", c.day, clock, len(names), words, n, sent)
	}
	return strings.Join(names, ", ")
}

// reads wants the message that a line is answered with to hold some words.
func (c yearClub) reads(clock, who, line string, words ...string) {
	c.Helper()
	out, errs, code := execute(c, append(append([]string{"ask"}, c.at(clock, who).args...), line)...)
	if code != exitAnswered {
		c.Fatalf("%s %s: %s: %s%s", c.day, who, line, out, errs)
	}
	for _, w := range words {
		if !strings.Contains(out, w) {
			c.Errorf("%s %s: %s: it lacks %q:\n%s", c.day, who, line, w, out)
		}
	}
}

// TestASeasonOfTwelve plays three events at two places, dry and wet: each thing
// of the season's notebook does what it is for.
func TestASeasonOfTwelve(t *testing.T) {
	c := yearClub{newPaddock(t), "2026-04-10"}
	c.at("10:00", "Olga").does(`/club set zone:Europe/Vienna channel:paddock`,
		`/event add name:"Spring day" starts:"2026-04-18 09:00" ends:"2026-04-18 17:00" place:"Windy Hill" surface:bumpy`,
		`/event add name:"Moor day" starts:"2026-06-13 09:00" ends:"2026-06-13 17:00" place:"Low Moor" weather:either`)
	for _, d := range drivers {
		c.at("11:00", d.name).does(fmt.Sprintf(`/car add name:"%s's car" %s`, d.name, d.car), `/damper fit axle:both `+d.dampers, `/apply`, `/event enter name:"Spring day"`)
	}
	for coach, students := range map[string][]string{"Kim": {"Robin", "Sam", "Lee"}, "Pat": {"Ada"}} {
		for _, s := range students {
			c.at("12:00", coach).does(`/coach ask member:` + s)
			c.at("12:05", s).does(`/coach accept member:` + coach)
		}
	}
	c.firstDay()
	c.coachesFollowUp()
	c.wetDay()
	c.backAtTheHill()
	c.yearEnds(t)
}

// firstDay is dry: what is told reaches who wants it, remedies help three cars
// of three people, and Robin keeps the clicks.
func (c yearClub) firstDay() {
	c.day = "2026-04-17"
	c.at("09:00", "Finn").does(`/me set messages:off`)
	c.reads("10:00", "Olga", `/event tell text:"The gate opens at 7:30."`, "Message to 8 people")
	if to := c.gets("10:01", 8, "The gate opens at 7:30."); strings.Contains(to, "Finn") {
		c.Errorf("it reached %s", to)
	}
	c.reads("11:00", "Olga", `/event entrants`, "Spring day: 9 cars are in", "4 two-way")
	c.gets("18:00", 9, "Spring day starts on Saturday 18 April at 09:00")
	c.day = "2026-04-18"
	c.all("08:00", `/note what:pressures pressures:"front 2.0 rear 1.9" heat:cold`)
	for i, name := range []string{"Robin", "Sam", "Lee"} {
		c.at("09:00", name).does(`/symptom what:understeer where:entry`, `/apply`)
		c.at("10:00", name).does(fmt.Sprintf(`/feel grip:%d entry:0 better:yes lap:1:4%d.6 conditions:dry pressures:2.2 air:18C track:30C`, 8-i, 2+i))
	}
	c.at("11:00", "Robin").does(`/clicks save name:"Hill dry"`)
	c.reads("11:01", "Robin", `/log`, "2.2 bar hot", "pressures front 2 bar, rear 1.9 bar cold", "remedy for understeer on entry")
	c.gets("18:00", 6, "How did the car feel at Spring day?")
	c.reads("19:00", "Olga", `/event summary`, "3 answers in", "Rear rebound stiffer for understeer on entry: helped 3 of 3 times")
	c.reads("19:05", "Eve", `/why advice:`+c.adviceOf("Eve"), "in this club it helped 3 of 3 times")
}

// adviceOf asks for a complaint and returns the number of the advice.
func (c yearClub) adviceOf(who string) string {
	c.Helper()
	r := c.at("19:04", who).does(`/symptom what:understeer where:entry`)
	number, _, _ := strings.Cut(strings.TrimPrefix(r.Remedies[0].Apply, "/apply advice:"), " ")
	return number
}

// coachesFollowUp: what a coach writes at night arrives in the morning, once;
// whoever ended the coaching gets none of it.
func (c yearClub) coachesFollowUp() {
	c.day = "2026-04-18"
	c.reads("20:00", "Kim", `/coach students`, "3 students", "Robin: grip 8 on 18 Apr", "Lee: grip 6 on 18 Apr")
	c.at("20:30", "Kim").does(`/coach note member:Robin and:"Sam, Lee" text:"Good first day. Brake a little earlier."`,
		`/coach suggest member:Robin and:Sam at:rear adjuster:rebound to:15 why:"calmer on the brakes"`)
	c.at("20:40", "Lee").does(`/coach end member:Kim`)
	c.gets("20:45", 0, "Good first day")
	c.reads("20:50", "Robin", `/symptom what:oversteer where:exit`, "Kim left you a note on 18 Apr.")
	c.day = "2026-04-19"
	if to := c.gets("06:00", 2, "Good first day"); strings.Contains(to, "Lee") {
		c.Errorf("it reached %s", to)
	}
	c.gets("06:05", 0, "Good first day")
	c.reads("07:00", "Sam", `/coach notes`, "Kim suggests for Sam's car", "Good first day")
	c.reads("07:10", "Kim", `/coach week`, "grip 7", "entry neutral")
}

// wetDay may be either: the guide has both starts, and wet clicks are kept
// beside the dry ones.
func (c yearClub) wetDay() {
	c.day = "2026-06-10"
	c.all("10:00", `/event enter name:"Moor day"`)
	c.reads("11:00", "Olga", `/event guide name:"Moor day"`, "dry/wet")
	c.day = "2026-06-13"
	c.at("08:00", "Robin").does(`/baseline weather:wet`, `/apply`, `/feel grip:6 conditions:wet lap:1:58.1`, `/clicks save name:"Moor wet"`)
	c.reads("08:10", "Robin", `/clicks compare name:"Hill dry" with:"Moor wet"`, "differ in", "grip 8", "grip 6")
	c.at("09:00", "Eve").does(`/clicks save name:June`, `/car add name:"Old van" drive:rear engine:front`, `/damper fit car:"Old van" axle:both ways:two clicks:12 count:soft`)
	c.reads("09:10", "Eve", `/clicks copy from:"Eve's car" car:"Old van"`, "Another car may want otherwise")
}

// backAtTheHill is a copy of the first day: the place remembers, for each their
// own, and Robin goes back to what was kept.
func (c yearClub) backAtTheHill() {
	c.day = "2026-09-01"
	c.reads("10:00", "Olga", `/event copy name:"Spring day" starts:"2026-09-12 09:00" as:"Autumn day"`, "12 Sep 2026, 09:00 to 17:00, Windy Hill, bumpy")
	c.reads("11:00", "Robin", `/event enter name:"Autumn day"`, "Windy Hill, dry: best grip 8 (18 Apr 2026)", "Helped there: rear rebound stiffer")
	if in := c.at("11:00", "Dan").does(`/event enter name:"Autumn day"`); strings.Contains(in.Text, "best grip") {
		c.Errorf("Dan reads of a grip that was not Dan's: %s", in.Text)
	}
	c.day = "2026-09-11"
	c.gets("17:00", 1, "Windy Hill, dry: best grip 8")
	c.day = "2026-09-12"
	c.reads("07:00", "Robin", `/clicks load name:"Hill dry"`, "Load “Hill dry”")
	c.reads("07:05", "Robin", `/apply`, "Noted")
	c.reads("07:06", "Robin", `/clicks compare name:"Hill dry"`, "are the same clicks")
	c.at("10:00", "Robin").does(`/feel grip:9 entry:0 better:yes lap:1:42.1 conditions:dry`)
}

// yearEnds: each sees their own year, the organiser the club's without a name.
func (c yearClub) yearEnds(t *testing.T) {
	c.day = "2026-12-01"
	year := c.at("10:00", "Robin").does(`/car season`)
	c.reads("10:01", "Robin", `/car season`, "Robin's car in 2026", "1:42.100 on 12 Sep")
	printedPage(t, year.Files[0].File)
	club := c.at("11:00", "Olga").does(`/club season`)
	c.reads("11:01", "Olga", `/club season`, "3 events", "Rear rebound stiffer for understeer on entry: helped 3 of 3 times")
	printedPage(t, club.Files[0].File)
	for _, d := range drivers {
		if said := fmt.Sprint(club); strings.Contains(said, d.name) {
			c.Errorf("the club's year names %s: %s", d.name, said)
		}
	}
	c.at("12:00", "Olga").refuses("not-found", "had no event in 2025", `/club season year:2025`)
	c.at("12:00", "Kim").refuses("forbidden", "Lee", `/coach students member:Lee`)
}
