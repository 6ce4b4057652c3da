package main

import (
	"context"
	"encoding/hex"
	"fmt"
	"io"
	"log/slog"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord"
	"detent/bot/discord/discordtest"
	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
)

// workspace is a club's workspace on the stand-in platform, and the bot in it
// with a real record behind.
type workspace struct {
	*discordtest.Platform
	db     *store.DB
	member *discordtest.Member
}

// door makes one process of the bot.
func (w workspace) door(club string) *discord.Bot {
	log := slog.New(slog.NewJSONHandler(io.Discard, nil))
	return discord.New(discord.Config{
		Token: w.Token(), TestClub: club, Transport: w.Client().Transport, Log: log, Metrics: discord.NewMetrics(), Lines: lines,
	}, bot.NewRouter(lines, records{w.db}, log), w.db)
}

// leastInvited takes the bot in with what its invitation asks for, and nothing
// more: what the tests have it do takes no other permission.
var leastInvited = discordtest.WithInvitation(discord.Invitation{}.Permissions())

// openWorkspace opens one that is reached over the gateway, or over signed
// posts to several equal processes.
func openWorkspace(t testing.TB, processes int) workspace {
	t.Helper()
	w := workspace{Platform: discordtest.New(t, discordtest.WithPatience(2*time.Minute), discordtest.WithFirstAnswer(time.Minute), leastInvited), db: storetest.New(t)}
	w.Tolerate(discordtest.AnswerTwice) // a busy machine is slow to tell of an answer, and it is sent again
	club := w.Guild("Windy Hill")
	w.member = club.Member("robin")
	door := w.door(club.ID)
	if err := door.Register(t.Context()); err != nil {
		t.Fatal(err)
	}
	if processes == 0 {
		ctx, leave := context.WithCancel(context.Background())
		left := make(chan error, 1)
		go func() { left <- door.Run(ctx) }()
		t.Cleanup(func() {
			leave()
			if err := <-left; err != nil {
				t.Error(err)
			}
		})
		w.Gateway.AwaitReady(1)
		return w
	}
	var urls []string
	for range processes {
		posted, err := w.door(club.ID).Posted(hex.EncodeToString(w.PublicKey()))
		if err != nil {
			t.Fatal(err)
		}
		server := httptest.NewServer(posted)
		t.Cleanup(server.Close)
		urls = append(urls, server.URL)
	}
	w.DeliverTo(urls...)
	return w
}

// forceTable is a plausible table of a damper with so many clicks.
func forceTable(clicks int) discordtest.File {
	var b strings.Builder
	b.WriteString("click,speed_mm_s,bump_n,rebound_n\n")
	for _, click := range []int{0, clicks / 2, clicks} {
		for _, speed := range []int{0, 50, 100, 200} {
			fmt.Fprintf(&b, "%d,%d,%d,%d\n", click, speed, speed*(20+click)/10, speed*(30+2*click)/10)
		}
	}
	return discordtest.FileNamed("front.csv", []byte(b.String()))
}

// TestTheWholeJob does on a phone what the contract promises: from the first
// car to the question how it felt, over the gateway and over signed posts.
func TestTheWholeJob(t *testing.T) {
	for name, processes := range map[string]int{"gateway": 0, "posted to one": 1, "posted to three": 3} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			theWholeJob(t, openWorkspace(t, processes))
		})
	}
}

func theWholeJob(t *testing.T, w workspace) {
	robin := w.member
	says := func(r *discordtest.Reply, words ...string) *discordtest.Reply {
		t.Helper()
		for _, word := range words {
			if !strings.Contains(r.Text(), word) {
				t.Fatalf("it lacks %q:\n%s", word, r.Text())
			}
		}
		return r
	}

	says(robin.Type(`/car add name:"Blue hatch" drive:front engine:front mass:1080kg front-share:61%`), "Blue hatch is saved")
	says(robin.Type(`/damper fit axle:both ways:two clicks:30 count:hard`), "Dampers of Blue hatch saved")
	says(robin.Type(`/damper curve axle:front file:front.csv`, forceTable(30)), "Force table of the front dampers of Blue hatch saved")

	start := says(robin.Type(`/baseline`), "Start Blue hatch", "FL", "RR")
	if !start.Private() {
		t.Error("everybody sees where one member's car starts")
	}
	if shown := says(start.Press("Show the channel"), "Start Blue hatch"); shown.Private() {
		t.Error("the club does not see what was shown to it")
	}
	says(start.Press("These are set now"), "Blue hatch stands at its start")

	advice := says(robin.Type(`/symptom what:understeer where:entry`), "Let it cool", "FL")
	done := buttonOf(t, advice, "Done")
	says(advice.Press("Why"), "Remedy 1 of")
	other := says(advice.Press("Try the other"), "Front rebound")
	if !other.Private() {
		t.Error("everybody sees what one member asks about")
	}
	one, two := robin.BeginPress(advice.Message(), done), robin.BeginPress(advice.Message(), done)
	if both := one.Wait().Text() + two.Wait().Text(); strings.Count(both, "**Noted: ") != 1 {
		t.Errorf("pressed twice at once, it says:\n%s", both)
	}
	says(advice.Press(done), "Already noted")
	if log := robin.Type(`/log`); strings.Count(log.Text(), "understeer") != 1 {
		t.Errorf("pressed twice, it is not noted once:\n%s", log.Text())
	}
	says(other.Press(buttonOf(t, other, "Done")), "out of date")

	next := says(robin.Type(`/symptom what:understeer where:exit`), "exit")
	second := next.Press("Try the other")
	noted := says(second.Press(buttonOf(t, second, "Done")), "Noted: ")
	taken := says(noted.Press("Take it back"), "Taken back")
	says(robin.Type(`/log`), "undo", "exit")

	form := taken.Press("Worse").Form()
	says(form.Fill(map[string]string{"grip": "5", "exit": "-2", "notes": "pushes on the way out"}).Submit(), "grip 5 of 10", "worse than before")
	says(taken.Press("Worse").Form().Fill(map[string]string{"grip": "lots"}).Submit(), "grip takes a whole number")

	if got := robin.Autocomplete(`/log car:bl`); len(got) != 1 || got[0].Value != "Blue hatch" {
		t.Errorf("offered %v", got)
	}
	if got := robin.Autocomplete(`/clicks set at:front adjuster:rebound to:1`); len(got) != 11 ||
		!strings.Contains(got[0].Name, "as it stands") || !strings.Contains(got[1].Name, "1 softer") && !strings.Contains(got[1].Name, "1 stiffer") {
		t.Errorf("offered %v", got)
	}
	if got := robin.Autocomplete(`/clicks set at:front adjuster:high-bump to:1`); len(got) != 0 {
		t.Errorf("offered %v of an adjuster that is not there", got)
	}
	export := says(robin.Type(`/me export`), "Everything kept about you")
	if files := export.Files(); len(files) != 1 || files[0].Name != "detent-export.zip" || !export.Private() {
		t.Errorf("the export is %v", files)
	}
}

// buttonOf finds the button whose label begins so.
func buttonOf(t *testing.T, r *discordtest.Reply, begin string) string {
	t.Helper()
	for _, label := range r.Buttons() {
		if strings.HasPrefix(label, begin) {
			return label
		}
	}
	t.Fatalf("no button begins with %q: %q", begin, r.Buttons())
	return ""
}

// TestLongNames gives a car the longest name there is, with what has to be
// escaped in it, and presses buttons that have no room for that.
func TestLongNames(t *testing.T) {
	t.Parallel()
	w := openWorkspace(t, 1)
	name := strings.Repeat(`a "car"`, 9)[:tuning.MaxName]
	typed := strings.ReplaceAll(name, `"`, `\"`)
	w.member.Type(`/car add name:"` + typed + `" drive:front engine:front`)
	w.member.Type(`/car add name:"Another" drive:rear engine:front`)
	w.member.Type(`/car main car:Another`)
	fitted := w.member.Type(`/damper fit axle:both ways:two clicks:30 count:hard car:"` + typed + `"`)
	if !strings.Contains(fitted.Text(), name[:12]) {
		t.Errorf("the start is of another car:\n%s", fitted.Text())
	}
	fitted.Press("These are set now")
	if log := w.member.Type(`/log car:"` + typed + `"`).Text(); !strings.Contains(log, "baseline") && !strings.Contains(log, "start") {
		t.Errorf("the log:\n%s", log)
	}
	if got := w.member.Type(`/car show car:#9999`).Text(); strings.Contains(got, name[:20]) {
		t.Errorf("a number of no car finds one:\n%s", got)
	}
}

// TestAnotherMembersButton checks that a member cannot press what only another
// may.
func TestAnotherMembersButton(t *testing.T) {
	t.Parallel()
	w := openWorkspace(t, 0)
	w.member.Type(`/me set answers:shared`)
	w.member.Type(`/car add name:"Blue hatch" drive:front engine:front`)
	w.member.Type(`/damper fit axle:both ways:two clicks:30 count:hard`)
	start := w.member.Type(`/baseline`)
	kim := w.member.Guild.Member("kim")
	if got := kim.Press(start.Message(), "These are set now"); !got.Private() || !strings.Contains(got.Text(), "no advice") {
		t.Errorf("kim is told:\n%s", got.Text())
	}
}

// TestCoachesByRole lets an organiser name the role that makes a coach, and
// those who have it coach.
func TestCoachesByRole(t *testing.T) {
	t.Parallel()
	w := openWorkspace(t, 0)
	w.member.Type(`/car add name:"Blue hatch" drive:front engine:front`)
	club := w.member.Guild
	ash := club.Member("ash", discordtest.Roles("coaches"))
	organiser := club.Member("olive", discordtest.Permissions(discordtest.PermManageGuild))

	if got := ash.Type(`/coach ask member:robin`).Text(); !strings.Contains(got, "is for the club's coaches") {
		t.Errorf("before the role is named: %s", got)
	}
	if got := ash.Type(`/club set coach-role:@coaches`).Text(); !strings.Contains(got, "organiser") {
		t.Errorf("a member changes the club's settings: %s", got)
	}
	organiser.Type(`/club set coach-role:@coaches channel:#general`)
	if got := ash.Type(`/coach ask member:robin`).Text(); strings.Contains(got, "is for the club's") {
		t.Errorf("after it is named: %s", got)
	}
}
