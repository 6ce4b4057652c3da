package coaching_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/bottest"
	"detent/bot/coaching"
	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/learn"
)

// pitwall is a record of who coaches whom, in memory. Everybody has one car.
type pitwall struct {
	bottest.Settings
	ties        []tuning.Coaching
	notes       []tuning.CoachNote
	looks       []tuning.Look
	suggestions []tuning.Suggestion
	declined    []int64
	feels       []tuning.Feel
	of          tuning.Case  // everybody's
	others      []tuning.Car // beside it
	said        tuning.Complaint
	next        tuning.Event
	events      []tuning.Event
	entrants    []tuning.Entrant
	due         map[string]int
	mail        []calendar.Due
	seen        bool
	cases       map[string]tuning.Case // of those whose car is another
	carless     string                 // who has none
	learned     learn.Evidence         // of everybody's car
}

// newPitwall has Kim, a coach, and Robin, a member, who do not know each other.
func newPitwall(t *testing.T) (wall *pitwall, kim, robin bottest.Person) {
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 30, 30
	car := tuning.Car{ID: 1, Name: "Blue hatch", Main: true, Drive: tuning.FrontDrive, Dampers: [tuning.Axles]tuning.Damper{d, d}}
	wall = &pitwall{Settings: bottest.NewSettings(), of: tuning.Case{Car: car}, due: map[string]int{}}
	for c := range wall.of.Setting {
		wall.of.Setting[c][tuning.Bump], wall.of.Setting[c][tuning.Rebound] = 14, 14
	}
	robin = bottest.Person{T: t, Commands: coaching.Commands(), Book: wall}
	kim = robin
	kim.Key, kim.Role = "kim", tuning.CoachRole
	return wall, kim, robin
}

// agree makes Robin Kim's student.
func agree(kim, robin bottest.Person) {
	kim.Does(`/coach ask member:robin`)
	robin.Does(`/coach accept member:kim`)
}

func (w *pitwall) Member(_ context.Context, person string) (tuning.Member, error) {
	return tuning.Member{Person: person, Name: person}, nil
}

func (w *pitwall) FindMember(ctx context.Context, word string) (tuning.Member, error) {
	if word = strings.ToLower(word); !slices.Contains([]string{"kim", "robin", "sam", "lee", "ash"}, word) {
		return tuning.Member{}, bot.Problemf(tuning.NotFound, "No member is called %q.", word)
	}
	return w.Member(ctx, word)
}

func (w *pitwall) Members(ctx context.Context, begin string, _ int) ([]tuning.Member, error) {
	m, err := w.FindMember(ctx, begin)
	return []tuning.Member{m}, err
}

func (w *pitwall) Coachings(_ context.Context, person string) (ties []tuning.Coaching, err error) {
	for _, t := range w.ties {
		if (t.Coach == person || t.Student == person) && t.Ended.IsZero() {
			ties = append(ties, t)
		}
	}
	return ties, nil
}

func (w *pitwall) SaveCoaching(_ context.Context, c tuning.Coaching) (tuning.Coaching, error) {
	for i, t := range w.ties {
		if t.Coach == c.Coach && t.Student == c.Student {
			w.ties[i] = c
			return c, nil
		}
	}
	w.ties = append(w.ties, c)
	return c, nil
}

func (w *pitwall) SaveNote(_ context.Context, note tuning.CoachNote) (tuning.CoachNote, error) {
	note.ID, note.CoachName, note.At = int64(len(w.notes)+1), note.Coach, bottest.Morning
	w.notes = append(w.notes, note)
	return note, nil
}

func (w *pitwall) Notes(context.Context, string, int) ([]tuning.CoachNote, error) {
	return w.notes, nil
}

func (w *pitwall) Looked(_ context.Context, coach, _, what string) error {
	w.looks = append(w.looks, tuning.Look{Coach: coach, CoachName: coach, At: bottest.Morning, What: what})
	return nil
}

func (w *pitwall) LookedThrough(ctx context.Context, coach string, students []string, what string) error {
	for range students {
		w.Looked(ctx, coach, "", what)
	}
	return nil
}

func (w *pitwall) Students(_ context.Context, coach string) (students []tuning.Student, err error) {
	for _, t := range w.ties {
		if t.Coach != coach || !t.Ended.IsZero() {
			continue
		}
		s := tuning.Student{Coaching: t, Name: t.Student}
		if t.Holds() {
			s.Car, s.Others, s.Feels, s.Said, s.SaidAt, s.Next = w.of.Car, w.others != nil, w.feels, w.said, bottest.Morning, w.next
			if len(w.of.History.Changes) > 0 {
				s.Last = w.of.History.Changes[0]
			}
		}
		students = append(students, s)
	}
	return students, nil
}

func (w *pitwall) FeltBetween(context.Context, []string, time.Time, time.Time) ([]tuning.Feel, error) {
	return w.feels, nil
}

func (w *pitwall) Looks(context.Context, string, int) ([]tuning.Look, error) { return w.looks, nil }

func (w *pitwall) Suggest(_ context.Context, coach string, advice tuning.Advice, _ tuning.Setting) (tuning.Advice, error) {
	advice.ID = int64(len(w.suggestions) + 1)
	w.suggestions = append(w.suggestions, tuning.Suggestion{CoachName: coach, Car: w.of.Car, Advice: advice})
	return advice, nil
}

func (w *pitwall) Suggestions(context.Context, string) ([]tuning.Suggestion, error) {
	return w.suggestions, nil
}

func (w *pitwall) Decline(_ context.Context, _ string, advice int64) error {
	w.declined = append(w.declined, advice)
	return nil
}

func (w *pitwall) Feels(context.Context, tuning.Car, int) ([]tuning.Feel, error) { return w.feels, nil }

func (w *pitwall) LearnedAll(context.Context, tuning.Car) (learn.Evidence, error) {
	return w.learned, nil
}

func (w *pitwall) Cars(context.Context, string) ([]tuning.Car, error) {
	return append([]tuning.Car{w.of.Car}, w.others...), nil
}

func (w *pitwall) Case(_ context.Context, person, name string) (tuning.Case, error) {
	if k, ok := w.cases[person]; ok {
		return k, nil
	}
	if person == w.carless {
		return tuning.Case{}, tuning.Missing{What: tuning.CarThing}
	}
	if strings.HasPrefix(name, "#") {
		return tuning.Case{}, tuning.Missing{What: tuning.CarThing, Name: name}
	}
	return w.of, nil
}

func (w *pitwall) Log(context.Context, tuning.Car, int) (entries []tuning.Logged, more bool, err error) {
	for _, c := range w.of.History.Changes {
		entries = append(entries, tuning.Logged{Change: c})
	}
	for i := range w.feels {
		entries = append(entries, tuning.Logged{Feel: &w.feels[i]})
	}
	return entries, false, nil
}

func (w *pitwall) Events(context.Context, time.Time) ([]tuning.Event, error) { return w.events, nil }

func (w *pitwall) Entrants(context.Context, tuning.Event) ([]tuning.Entrant, error) {
	return w.entrants, nil
}

func (w *pitwall) NoteSeen(context.Context, string) error {
	w.seen = true
	return nil
}

func (w *pitwall) CoachMessages(_ context.Context, person string, from, to time.Time) (n int, err error) {
	for _, d := range w.mail {
		if d.Person == person && d.Kind.FromCoach() && !d.At.Before(from) && d.At.Before(to) {
			n++
		}
	}
	return n, nil
}

func (w *pitwall) Deliver(_ context.Context, d calendar.Due, to ...string) error {
	for _, d.Person = range to {
		w.mail = append(w.mail, d)
	}
	return nil
}

func (w *pitwall) Schedule(_ context.Context, event int64, person string, due []calendar.Due) error {
	w.due[fmt.Sprint(event, " ", person)] = len(due)
	return nil
}
