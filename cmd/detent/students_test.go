package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/tuning"
)

// A coach of sixty finds each of them in the pages of one list and of one week,
// every page within the bounds of a phone.
func TestACoachOfSixty(t *testing.T) {
	t.Parallel()
	club := newMeasured(t)
	kim := tuning.Who{Club: "hill", Person: "kim", Name: "Kim", Role: tuning.CoachRole}
	olga := tuning.Who{Club: "hill", Person: "olga", Name: "Olga", Role: tuning.OrganiserRole}
	does := func(who tuning.Who, lines ...string) (r bot.Reply) {
		t.Helper()
		for _, line := range lines {
			if r = club.ask(who, line); r.Problem != nil {
				t.Fatalf("%s: %s", line, r.Problem.Say)
			}
		}
		return r
	}
	does(kim, `/me set units:metric`)
	does(olga, fmt.Sprintf(`/event add name:"The long-awaited spring day of the club" starts:"%s 00:00" ends:"%[1]s 23:59"`, time.Now().AddDate(0, 0, 1).UTC().Format(time.DateOnly)))
	for i := range 60 {
		student := tuning.Who{Club: "hill", Person: fmt.Sprint("student", i), Name: fmt.Sprintf("Student number %02d of the club", i), Role: tuning.MemberRole}
		does(student, `/me set units:metric`)
		does(kim, `/coach ask member:`+student.Person)
		asked := []string{`/coach accept member:kim`}
		if i%3 > 0 {
			asked = append(asked, `/car add name:"Blue hatch" drive:front engine:front`, `/damper fit axle:both ways:four clicks:30 count:hard`,
				`/event enter`, `/symptom what:packs-down axle:rear where:mid`, `/clicks set at:rear adjuster:low-bump to:3 turned:yes`)
		}
		if i%3 > 1 {
			asked = append(asked, `/feel grip:5 exit:-2 better:no`, `/feel grip:6`,
				`/feel grip:8 entry:-1 mid:1 exit:2 notes:"comes round in the long left, and the rear hops over the kerb behind it"`)
		}
		does(student, asked...)
	}
	for _, line := range []string{`/coach students`, `/coach week`} {
		seen, pages := map[string]bool{}, 0
		for ask := line; ask != "" && pages < 60; pages++ {
			m := does(kim, ask).Message()
			for line := range strings.Lines(m.Text) {
				if name, _, ok := strings.Cut(line, ":"); ok && strings.HasPrefix(name, "Student") {
					seen[name] = true
				}
			}
			ask = ""
			if last := m.Actions[len(m.Actions)-1]; last.Label == "More" {
				ask = last.Line()
			}
		}
		if len(seen) != 60 {
			t.Errorf("%s shows %d students in %d pages", line, len(seen), pages)
		}
	}
	m := does(kim, `/coach students`).Message()
	if want := "Student number 02 of the club: grip 8"; !strings.Contains(m.Text, want) || !strings.Contains(m.Text, "rising. Sinks over bumps at the rear since") ||
		!strings.Contains(m.Text, "not better yet. Last change") || !strings.Contains(m.Text, "Next: The long-awaited spring day") {
		t.Errorf("it says\n%s", m.Text)
	}
	for _, key := range []string{"student1", "student2"} {
		for ask := `/coach students member:` + key; ask != ""; {
			m := does(kim, ask).Message()
			ask = ""
			for _, a := range m.Actions {
				if a.Label == "Look" || a.Label == "More" {
					ask = a.Line()
				}
			}
		}
	}
}
