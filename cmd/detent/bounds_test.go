package main

import (
	"fmt"
	"log/slog"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord/discordtest"
	"detent/bot/phone"
	"detent/store/storetest"
	"detent/tuning"
)

// This file holds every message of every command to the bounds of a phone, for
// every kind of car, as the router gives it and over both ways into a workspace.

// roomFor is what a line's message may take.
func roomFor(line, words string) phone.Size {
	fields := strings.Fields(strings.TrimPrefix(line, "/"))
	first, second := fields[0], ""
	if len(fields) > 1 && !strings.Contains(fields[1], ":") {
		second = fields[1]
	}
	switch first + " " + second {
	case "event guide":
		return phone.Guide
	case "event place":
		if strings.Contains(words, "jack alone") { // all cautions
			return phone.FirstOfDay
		}
		return phone.List
	case "car list", "event list", "event summary", "event entrants", "coach students", "coach notes", "coach seen", "coach week", "car season", "club season", "log ", "learned ", "privacy ", "note list", "club set", "clicks saved", "clicks compare":
		return phone.List
	case "car show", "car edit", "club show", "me show", "event enter", "event show":
		if !strings.Contains(line, "part:") {
			return phone.Page
		}
		return phone.List
	}
	switch {
	case strings.Contains(line, "part:figures"), first == "help" && !strings.Contains(line, "command:"):
		return phone.List
	case first == "help":
		return phone.Page
	case first == "why" && !strings.Contains(line, "part:"):
		return phone.Why
	case strings.Contains(words, "jack alone"): // all cautions
		return phone.FirstOfDay
	}
	return phone.Answer
}

// tally is the most that messages of one size took.
type tally map[phone.Size][2]int

// holds fails for a message beyond its bounds, buttons included, and counts it.
func (most tally) holds(t *testing.T, line, words string, labels []string) {
	t.Helper()
	size := roomFor(line, words)
	lines, runes := phone.Measure(words, len(labels))
	for _, l := range labels {
		runes += len([]rune(l))
	}
	mostLines, mostRunes := size.Room()
	if lines > mostLines || runes > mostRunes {
		t.Errorf("%s: %d lines and %d characters, at most %d and %d:\n%s\n%q", line, lines, runes, mostLines, mostRunes, words, labels)
	}
	if strings.HasSuffix(words, "\n…") || strings.Contains(words, "\n…\n") {
		t.Errorf("%s: something was cut:\n%s", line, words)
	}
	was := most[size]
	most[size] = [2]int{max(was[0], lines), max(was[1], runes)}
}

// names are what people call their cars, in several scripts.
var names = []string{"Blue hatch", strings.Repeat("Long name ", 5) + "of a car!", "青いハッチバック、サーキット専用の古い相棒号", "Красная Стрела", "سيارة زرقاء", "כחולה"}

// fleet is a car of each kind of damper and number of clicks, as the lines that
// make it.
func fleet() (cars [][]string) {
	for i, ways := range []string{"one moves:rebound", "one moves:both", "two", "three", "four"} {
		for j, clicks := range []int{7, 12, 16, 24, 40} {
			n := 5*i + j
			count := []string{"hard", "soft"}[n%2]
			drive := []string{"front", "rear", "four"}[n%3]
			cars = append(cars, []string{
				fmt.Sprintf(`/car add name:%s drive:%s engine:%s`, bot.Quote(names[n%len(names)]), drive, []string{"front", "mid", "rear"}[n%3]),
				fmt.Sprintf(`/damper fit axle:both ways:%s clicks:%d count:%s`, ways, clicks, count),
			})
		}
	}
	return cars
}

// asksAllUnderRace tells whether a car of the fleet is asked everything even under
// the race detector, which finds no more races with more cars and takes ten times
// as long: one of each kind of damper, each with another number of clicks.
func asksAllUnderRace(n int) bool { return n/5 == n%5 }

// paddockLines are what a member asks about a car.
func paddockLines() []string {
	lines := []string{`/event enter`, `/baseline`, `/baseline weather:wet`, `/car show`, `/car list`, `/clicks show`, `/window`, `/window surface:rough`,
		`/clicks set at:RL adjuster:rebound to:1`, `/symptom what:understeer`, `/sweep start`, `/sweep run hop:no grip:7`, `/sweep run hop:yes`, `/undo`,
		`/feel grip:7 entry:-1 mid:0 exit:1 hop:yes better:no lap:1:42.6 notes:"pushes wide in the long left and comes round on the power"`,
		`/log`, `/learned`, `/car season`, `/me show`, `/event list`, `/event show`, `/event sheet`, `/privacy`, `/coach notes`, `/coach seen`, `/car edit mass:1080kg`}
	for _, w := range tuning.Whats {
		lines = append(lines, "/symptom axle:rear where:mid what:"+string(w.What), "/symptom axle:front where:exit what:"+string(w.What))
	}
	return append(lines, keptLines()...)
}

// keptLines are what a member asks about saved clicks: of the car, after it got
// other dampers, and from another car with others again. What is turned meanwhile
// makes advice out of date.
func keptLines() (lines []string) {
	const long, other = `"Dry, twelve degrees and a light wind from the west, no fuel"`, `"The other car of the same person"`
	turn := func(to string) {
		for _, adjuster := range []string{"rebound", "low-rebound"} {
			lines = append(lines, `/clicks set turned:yes adjuster:`+adjuster+` `+to)
		}
	}
	ask := func(more ...string) { lines = append(lines, more...) }
	ask(`/clicks load name:Dry`, `/clicks saved`, `/clicks save name:`+long, `/clicks save name:`+strings.ToUpper(long))
	turn(`at:all to:2`)
	ask(`/feel grip:7 entry:-1 mid:0 exit:1 hop:yes better:no lap:1:42.6 pressures:"FL 2.1 FR 2.0 RL 1.9 RR 1.8 hot" conditions:damp air:12C track:14C notes:"pushes wide in the long left and comes round on the power"`,
		`/clicks save name:Two`, `/clicks save name:Three`, `/clicks save name:Four`, `/clicks save name:Five`, `/clicks saved`,
		`/clicks load name:`+long, `/why`, `/why part:answer`, `/why part:figures`)
	turn(`at:FL to:5`)
	ask(`/apply`, `/apply`, `/undo`, `/clicks compare name:Two`, `/clicks compare name:Two with:`+long, `/clicks compare name:Two with:two`,
		`/clicks compare name:Two with:Three`, `/clicks load`, `/clicks load name:Tow`, `/clicks compare name:Two with:Tow`, `/clicks copy`, `/clicks forget name:Five`,
		`/car add drive:rear engine:mid name:`+other, `/clicks copy from:`+other, `/damper fit axle:both ways:four clicks:23 count:soft car:`+other,
		`/clicks set at:front adjuster:low-rebound to:22 car:`+other, `/clicks copy from:`+other, `/why`)
	turn(`at:RR to:3`)
	ask(`/apply`, `/apply`, `/clicks copy from:`+other+` car:`+other, `/damper fit axle:both ways:four clicks:31 count:hard`,
		`/clicks load name:Two`, `/apply`, `/why`, `/clicks compare name:Two`, `/clicks compare name:Two with:Three`,
		`/clicks set at:all adjuster:high-bump to:1 turned:yes`, `/clicks load name:Two`)
	return lines
}

// longestPress is how many characters a button of the platform carries.
const longestPress = 100

// measured is a club whose every message is held to the bounds.
type measured struct {
	*testing.T
	router *bot.Router
	most   tally
	now    *time.Time
}

func newMeasured(t *testing.T) measured {
	t.Helper()
	now := time.Now()
	return measured{t, bot.NewRouter(lines, records{storetest.New(t)}, slog.New(slog.NewTextHandler(t.Output(), nil))), tally{}, &now}
}

// ask asks a line and measures its message.
func (m measured) ask(who tuning.Who, line string) bot.Reply {
	m.Helper()
	parsed, err := bot.ParseLine(line)
	if err != nil {
		m.Fatal(err)
	}
	r := m.router.Answer(m.Context(), bot.Ask{ID: newID(), Who: who, At: *m.now, Line: parsed})
	if r.Problem != nil && r.Problem.Kind == tuning.Internal {
		m.Errorf("%s: %s", line, r.Title)
	}
	message := r.Message()
	var labels []string
	for _, a := range message.Actions {
		labels = append(labels, a.Label)
		if n := len([]rune(a.Line())); n > longestPress {
			m.Errorf("%s: the button %s carries %d characters: %s", line, a.Label, n, a.Line())
		}
	}
	if command, ok := lines.Lookup(parsed); ok && command.Own && r.Private && r.Problem == nil {
		labels = append(labels, "Show the channel")
	}
	m.most.holds(m.T, line, message.Words(), labels)
	if n := len([]rune(message.Line)); n > bot.LineLength {
		m.Errorf("%s: a line of %d characters: %q", line, n, message.Line)
	}
	return r
}

// atThePlace is what a member leaves on record at a place: a dry run and a wet
// one, each with other clicks, a remedy that helped and other clicks since.
var atThePlace = []string{`/event enter name:"First day"`, `/clicks set at:FL adjuster:rebound to:3`, `/clicks set at:rear adjuster:low-rebound to:3`,
	`/feel grip:6 conditions:dry event:"First day"`, `/symptom what:understeer where:entry`, `/apply`,
	`/feel grip:8 better:yes entry:-1 mid:0 exit:1 hop:no lap:1:42.6 conditions:dry pressures:2.1bar air:21°C track:33°C event:"First day"`,
	`/baseline weather:wet`, `/apply`, `/feel grip:5 better:no entry:-2 conditions:wet event:"First day"`, `/symptom what:kerbs`, `/apply`, `/feel grip:4 event:"First day"`,
	`/baseline`, `/apply`}

func TestMessagesKeepTheirBounds(t *testing.T) {
	t.Parallel()
	club := newMeasured(t)
	ask, most := club.ask, club.most
	olga := tuning.Who{Club: "hill", Person: "Olga", Name: "Olga", Role: tuning.OrganiserRole}
	ask(olga, fmt.Sprintf(`/event add name:"Spring day" starts:"%s 00:00" ends:"%[1]s 23:59" place:"Windy Hill" surface:bumpy weather:either`, time.Now().AddDate(0, 0, 1).UTC().Format(time.DateOnly)))
	today := *club.now
	lastMonth := today.AddDate(0, -1, 0)
	*club.now = lastMonth.Add(-time.Hour)
	ask(olga, fmt.Sprintf(`/event add name:"First day" starts:"%s" ends:"%s" place:"Windy Hill"`,
		lastMonth.UTC().Format("2006-01-02 15:04"), lastMonth.Add(8*time.Hour).UTC().Format("2006-01-02 15:04")))
	for n, car := range fleet() {
		who := tuning.Who{Club: "hill", Person: fmt.Sprintf("member %d", n), Name: names[n%len(names)], Role: tuning.MemberRole}
		*club.now = lastMonth
		for _, line := range append(car, atThePlace...) {
			*club.now = club.now.Add(time.Minute)
			ask(who, line)
		}
		*club.now = today
		asked := append(paddockLines(), car[1]) // the guide is for the dampers of the fleet
		if n%4 == 0 {                           // some have what a coach wrote to read, again and again
			asked = append(coachedBy(ask, olga, who), asked...)
		}
		if raceEnabled && !asksAllUnderRace(n) {
			asked = append(car, `/event enter`) // the lists stay as long
		}
		for i, line := range asked {
			if strings.HasPrefix(line, "/symptom") && i%5 == 0 && n%4 == 0 {
				ask(olga, fmt.Sprintf(`/coach note member:"member %d" text:"Brake later."`, n))
			}
			r := ask(who, line)
			if strings.HasPrefix(line, "/symptom") && i%5 != n%5 {
				continue
			}
			for _, a := range r.Message().Actions { // what only reads, and all of a list
				for depth := 0; a.Ask != "" && depth < 12; depth++ {
					parsed, err := bot.ParseLine(a.Line())
					command, ok := lines.Lookup(parsed)
					if err != nil || !ok || command.Writes {
						break
					}
					next := ask(who, a.Line())
					more := slices.IndexFunc(next.Message().Actions, func(b bot.Action) bool { return b.Label == "More" })
					if more < 0 {
						break
					}
					a = next.Message().Actions[more]
				}
			}
		}
	}
	ask(olga, `/event guide`)
	ask(olga, `/event tell text:"Gate opens at 8."`)
	ask(olga, `/event summary`)
	for line := `/event entrants`; line != ""; {
		actions := ask(olga, line).Message().Actions
		line = ""
		if i := slices.IndexFunc(actions, func(a bot.Action) bool { return a.Label == "More" }); i >= 0 {
			line = actions[i].Line()
		}
	}
	ask(olga, `/event sheets`)
	ask(olga, fmt.Sprintf(`/event copy name:"Spring day" starts:"%s 00:00"`, time.Now().AddDate(0, 1, 0).UTC().Format(time.DateOnly)))
	ask(olga, `/club season`)
	ask(olga, `/club show`)
	ask(olga, `/club set zone:Europe/Berlin`)
	ask(olga, `/help`)
	for _, c := range lines.Commands() {
		ask(olga, `/help command:`+bot.Quote(c.Name))
	}
	for size, name := range []string{"an answer", "a page", "a list", "why", "the first of the day", "the guide"} {
		t.Logf("%s: at most %d lines, %d characters", name, most[phone.Size(size)][0], most[phone.Size(size)][1])
	}
}

// coachedBy has a coach offer to coach a member, and returns the line that
// accepts.
func coachedBy(ask func(tuning.Who, string) bot.Reply, coach, member tuning.Who) []string {
	ask(member, `/me set units:metric`)
	ask(coach, `/coach ask member:`+bot.Quote(member.Person))
	return []string{`/coach accept member:` + coach.Name}
}

// unmarked takes the platform's markup off a message.
var unmarked = regexp.MustCompile("```\n?|\\*\\*|\\\\([*_~`|<#\\[\\\\])")

// TestMessagesKeepTheirBoundsInAWorkspace measures what the platform gets.
func TestMessagesKeepTheirBoundsInAWorkspace(t *testing.T) {
	t.Parallel()
	for name, processes := range map[string]int{"gateway": 0, "posted": 1} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := openWorkspace(t, processes)
			most := tally{}
			cars := fleet()
			for n, car := range [][]string{cars[0], cars[8], cars[12], cars[20], cars[24]} {
				member := w.member.Guild.Member(fmt.Sprint("member", n))
				for _, line := range append(car, paddockLines()...) {
					r := member.Type(line)
					holdsShown(t, most, line, r)
				}
			}
		})
	}
}

func holdsShown(t *testing.T, most tally, line string, r *discordtest.Reply) {
	t.Helper()
	words := strings.TrimRight(unmarked.ReplaceAllString(r.Content(), "$1"), "\n")
	most.holds(t, line, words, r.Buttons())
	if len(r.Embeds()) > 0 {
		t.Errorf("%s: there is a block below it", line)
	}
}
