package garage_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"detent/bot"
	"detent/bot/bottest"
	"detent/bot/phone"
	"detent/tuning"
)

// Every answer has room on a phone, whatever the car, its name, where its clicks
// stand and what was tried, and nothing of it is cut but what stands under Why.
func TestAnswersFitAPhone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		box, robin := newToolbox(t)
		car := &box.cars[0]
		car.Name = strings.TrimSpace(rapid.SampledFrom([]string{"Van", strings.Repeat("Long name ", 6), strings.Repeat("W", 60), "青いハッチバック、サーキット専用の古い相棒号"}).Draw(rt, "name"))
		car.Drive = rapid.SampledFrom([]tuning.Drive{tuning.FrontDrive, tuning.RearDrive, tuning.FourDrive}).Draw(rt, "drive")
		for axle := range car.Dampers {
			car.Dampers[axle] = anyDamper(rt)
		}
		box.setting = anySetting(rt, *car)
		box.history.Unrecorded = rapid.Bool().Draw(rt, "unrecorded")
		if rapid.Bool().Draw(rt, "shown") {
			box.history.LastAnswer.At, box.history.LastAdvice.At = bottest.Morning, bottest.Morning
		}
		if !rapid.Bool().Draw(rt, "first of the day") {
			box.Asker.Cautioned = bottest.Morning.Format("2006-01-02")
		}
		if rapid.Bool().Draw(rt, "a coach wrote") {
			box.unseen = tuning.Unseen{CoachName: strings.Repeat("Kim ", 15), At: bottest.Morning, Car: car.Name}
		}
		what := rapid.SampledFrom(tuning.Whats).Draw(rt, "what").What
		rest := fmt.Sprintf(" axle:%s where:%s weather:%s", rapid.SampledFrom([]string{"front", "rear"}).Draw(rt, "axle"),
			rapid.SampledFrom([]string{"entry", "mid", "exit"}).Draw(rt, "where"), rapid.SampledFrom([]string{"dry", "wet"}).Draw(rt, "weather"))
		lines := []string{"/symptom what:" + string(what) + rest}
		if rapid.Bool().Draw(rt, "tried") {
			lines = append(lines, "/apply", "/feel grip:5 better:"+rapid.SampledFrom([]string{"no", "same", "yes"}).Draw(rt, "felt"), "/symptom what:"+string(what)+rest)
		}
		if rapid.Bool().Draw(rt, "stale") {
			lines = append(lines, "/clicks set turned:yes at:all adjuster:"+car.Dampers[0].Adjusters()[0].String()+" to:3", "/apply advice:1 remedy:1")
		}
		lines = append(lines, rapid.SampledFrom([]string{"/baseline", "/baseline weather:wet", "/window", "/sweep start", "/undo", "/why part:answer remedy:1"}).Draw(rt, "then"))
		for _, line := range lines {
			fitsAPhone(rt, line, robin.Ask(line))
		}
	})
}

// fitsAPhone holds a message to the bounds of an answer, beside the button that a
// workspace adds.
func fitsAPhone(t *rapid.T, line string, r bot.Reply) {
	m := r.Message()
	size := phone.Answer
	if strings.Contains(m.Words(), "jack alone") {
		size = phone.FirstOfDay
	}
	if r.View.Show {
		m.Actions = append(m.Actions, bot.Action{Label: "Show the channel"})
	}
	lines, runes := phone.Measure(m.Words(), len(m.Actions))
	for _, a := range m.Actions {
		runes += len([]rune(a.Label))
	}
	mostLines, mostRunes := size.Room()
	if lines > mostLines || runes > mostRunes || strings.Contains(m.Words(), "\n…") {
		t.Errorf("%s takes %d lines and %d characters:\n%s\n%+v", line, lines, runes, m.Words(), m.Actions)
	}
	if r.View.Care.Turns && m.Care == "" {
		t.Errorf("%s is without caution", line)
	}
}

// anyDamper is a damper that people have.
func anyDamper(t *rapid.T) tuning.Damper {
	d := tuning.Damper{Ways: tuning.Ways(rapid.IntRange(1, 4).Draw(t, "ways")), Count: rapid.SampledFrom([]tuning.Count{tuning.FromHard, tuning.FromSoft}).Draw(t, "count")}
	if d.Ways == 1 {
		d.Moves = rapid.SampledFrom([]tuning.Moves{tuning.MovesRebound, tuning.MovesBoth}).Draw(t, "moves")
	}
	clicks := rapid.IntRange(7, 40).Draw(t, "clicks")
	for _, a := range d.Adjusters() {
		d.Range[a] = clicks
	}
	return d
}

// anySetting is where clicks may stand: often near a stop, sometimes unequal.
func anySetting(t *rapid.T, car tuning.Car) (s tuning.Setting) {
	for axle := range tuning.Axle(tuning.Axles) {
		d := car.Dampers[axle]
		for _, a := range d.Adjusters() {
			n := d.Range[a]
			at := rapid.SampledFrom([]int{0, 1, 2, n / 2, n - 2, n - 1, n})
			left := at.Draw(t, "left")
			right := left
			if rapid.IntRange(0, 3).Draw(t, "unequal") == 0 {
				right = at.Draw(t, "right")
			}
			s[axle.Corners()[0]][a], s[axle.Corners()[1]][a] = left, right
		}
	}
	return s
}
