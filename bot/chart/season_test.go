package chart

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"detent/bot/typeset"
)

// seasonNames are events in six scripts, long ones and one that mixes
// directions.
var seasonNames = []string{"Spring day", "蓝色闪电号赛车队春季练习日", "יום אביב 12 (חדש)", "يوم الربيع", "푸른번개 봄날", "वसंत दिवस क्षत्रिय", "วันฤดูใบไม้ผลิ",
	strings.Repeat("W", 60), "Blue רכב 12 車 day"}

// season is a year of so many events with so many changes each of adjusters of
// so many lanes, and a run after each change.
func season(lanes, events, changes int) Season {
	s := Season{Title: "Blue hatch in 2026"}
	for i := range lanes {
		name := []string{"Front rebound", "Front low-speed bump", "Rear high-speed rebound", "Rear one-way adjuster"}[i%4]
		s.Lanes = append(s.Lanes, Lane{Scale: Scale{Name: name, Clicks: 30, FromHard: i%2 == 0}, Steps: []Step{{0, 14, 14}}})
	}
	at := 0
	for e := range events {
		day := Day{From: at, Date: fmt.Sprintf("%d May", 1+e%30), Event: e + 1}
		s.Events = append(s.Events, typeset.Isolate(seasonNames[e%len(seasonNames)]))
		for c := range changes {
			at++
			if lanes > 0 {
				l := &s.Lanes[(e+c)%lanes]
				was := l.Steps[len(l.Steps)-1]
				to := min(28, max(2, was.Left+[]int{3, -2, 3, 1, -4}[(e*changes+c)%5]))
				l.Steps = append(l.Steps, Step{at, to, to + (e+1)%2*(c%2)})
			}
			at++
			s.Grips = append(s.Grips, Grip{at, 1 + (3*e+2*c)%10, e%3 == 1})
		}
		at++
		day.To = at
		s.Days = append(s.Days, day)
	}
	return s
}

// seasons are years of every sort.
func seasons() map[string]Season {
	one := season(1, 1, 1)
	felt := season(0, 3, 2)
	turned := season(2, 2, 3)
	turned.Grips = nil
	alone := season(2, 3, 2)
	alone.Events = nil
	for i := range alone.Days {
		alone.Days[i].Event = 0
	}
	return map[string]Season{"one change": one, "felt alone": felt, "turned alone": turned, "at no event": alone,
		"two-way": season(4, 6, 5), "four-way, 200 changes": season(8, 10, 20), "many events": season(4, 40, 2), "one-way": season(2, 4, 6)}
}

func TestSeasonsAreDrawn(t *testing.T) {
	for name, s := range seasons() {
		picture := drawn(t, s, "season-"+strings.ReplaceAll(name, " ", "-"))
		tall := picture.Bounds().Dy()
		if wide := picture.Bounds().Dx(); wide != Side || tall > Side {
			t.Errorf("%s: the picture has %v", name, picture.Bounds())
		}
		if left, right := inkOf(picture, picture.Rect); left < 2 || right > Side-3 {
			t.Errorf("%s: the ink reaches from %d to %d of %d", name, left, right, Side)
		}
		for y := range 3 { // nothing runs off the foot
			if first, last := inkOf(picture, image.Rect(0, tall-1-y, Side, tall-y)); last > first {
				t.Errorf("%s: there is ink at the foot", name)
			}
		}
		if alt := s.Alt(); utf8.RuneCountInString(alt) > MaxAlt || strings.ContainsRune(alt, '\u2068') {
			t.Errorf("%s: the words are %q", name, alt)
		}
	}
}

// A click is as tall in every lane, whatever the adjusters' ranges: the front and
// the rear can be compared.
func TestLanesShareOneScale(t *testing.T) {
	s := season(2, 1, 1)
	s.Grips = nil
	s.Days = []Day{{From: 0, To: 4}}
	s.Events = nil
	s.Lanes[0].Steps = []Step{{0, 10, 10}, {2, 16, 16}}
	s.Lanes[1].Clicks, s.Lanes[1].Steps = 8, []Step{{0, 1, 1}, {2, 7, 7}}
	picture := drawn(t, s, "season-scale")
	var heights []int
	run := 0
	x := int(math.Round(float64((boardLeft+boardRight)/2/side) * Side))
	for y := 100; y < Side; y++ {
		if picture.GrayAt(x, y).Y < 0x40 {
			run++
			continue
		}
		if run > 40 {
			heights = append(heights, run)
		}
		run = 0
	}
	if len(heights) != 2 || heights[0]-heights[1] > 2 || heights[1]-heights[0] > 2 {
		t.Errorf("six clicks are %v pixels tall", heights)
	}
}

func TestASeasonInWords(t *testing.T) {
	s := season(1, 1, 2)
	s.Events[0] = typeset.Isolate(seasonNames[2])
	s.Lanes[0].Steps = []Step{{0, 14, 14}, {1, 17, 17}, {3, 16, 15}}
	want := "Blue hatch in 2026: what was turned and felt, in order. Front rebound: 16 → 14/15 from hard, within 13 to 16. " +
		"Grip, 1 to 10: 1 at first, 3 at last, within 1 to 3; runs: 2. Events: 1 " + seasonNames[2] + "."
	if got := s.Alt(); got != want {
		t.Errorf("the words are %q", got)
	}
}

func TestSeasonsThatCannotBeDrawn(t *testing.T) {
	for _, s := range []Season{{}, {Days: make([]Day, 1)}} {
		if err := s.Draw(&bytes.Buffer{}); err == nil {
			t.Errorf("%+v is drawn", s)
		}
	}
}

// What has no room is counted, and nothing stands beyond the edge.
func TestNamesFlow(t *testing.T) {
	style := styleOf(wordSize, 0)
	for _, n := range []int{0, 1, 3, 6, 9, 10, 40} {
		words := season(1, n, 1).numbered()
		lines := flowing(words, eventLines)
		said := 0
		for i, line := range lines {
			for j, w := range line {
				if end := w.x + style.Width(w.say); w.x < boardLeft || end > boardRight {
					t.Errorf("%d names: %q ends at %v", n, w.say, end)
				}
				if i == eventLines-1 && j == len(line)-1 && strings.HasPrefix(w.say, "and ") {
					fmt.Sscanf(w.say, "and %d more", &j)
					said += j - 1
				}
				said++
			}
		}
		if said != n || len(lines) > eventLines {
			t.Errorf("%d names: %d are told in %d lines", n, said, len(lines))
		}
	}
}

func BenchmarkSeason(b *testing.B) {
	s := season(8, 10, 20)
	var out bytes.Buffer
	for b.Loop() {
		out.Reset()
		if err := s.Draw(&out); err != nil {
			b.Fatal(err)
		}
	}
}
