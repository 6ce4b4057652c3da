package bot

import (
	"context"
	"slices"
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/calendar"
)

// planner is an event with its entrants, and what was put on the timetable.
type planner struct {
	events   []tuning.Event
	entrants []tuning.Entrant
	left     []int64
	due      map[string]int // things due, by person; "" is the channel
}

func (p *planner) Events(context.Context, time.Time) ([]tuning.Event, error) { return p.events, nil }
func (p *planner) Event(context.Context, string) (tuning.Event, error)       { return p.events[0], nil }
func (p *planner) Entrants(context.Context, tuning.Event) ([]tuning.Entrant, error) {
	return slices.Clone(p.entrants), nil
}
func (p *planner) Enter(context.Context, tuning.Event, tuning.Entrant) error    { return nil }
func (p *planner) Remind(context.Context, tuning.Event, tuning.Car, bool) error { return nil }
func (p *planner) Leave(_ context.Context, e tuning.Event, _ tuning.Car) error {
	p.left = append(p.left, e.ID)
	return nil
}
func (p *planner) Schedule(_ context.Context, _ int64, person string, due []calendar.Due) error {
	p.due[person] = len(due)
	return nil
}

// newPlanner is two days to come, one of them cancelled, with three cars of two
// people; Sam wants no messages.
func newPlanner() (*planner, Call) {
	now := time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	day := func(id int64, days int) tuning.Event {
		starts := now.AddDate(0, 0, days)
		return tuning.Event{ID: id, Name: "Spring day", Starts: starts, Ends: starts.Add(8 * time.Hour), GuideAt: starts.AddDate(0, 0, -1)}
	}
	cancelled := day(2, 30)
	cancelled.Cancelled = true
	return &planner{due: map[string]int{}, events: []tuning.Event{day(1, 10), cancelled}, entrants: []tuning.Entrant{
		{Person: "robin", Car: tuning.Car{ID: 1}, Reminded: true}, {Person: "robin", Car: tuning.Car{ID: 2}, Reminded: true}, {Person: "sam", Car: tuning.Car{ID: 3}},
	}}, Call{Ask: Ask{At: now, Who: tuning.Who{Person: "robin"}}, Club: tuning.DefaultClub("hill")}
}

func TestPlanEvent(t *testing.T) {
	p, call := newPlanner()
	if err := call.PlanEvent(t.Context(), p, p.events[0], p.entrants); err != nil {
		t.Fatal(err)
	}
	one, err := calendar.ForEntrant(call.Club, p.events[0], p.entrants[0], call.Now())
	if err != nil || len(one) == 0 {
		t.Fatalf("nothing is due of an entry: %v, %v", one, err)
	}
	if p.due["robin"] != len(one) || p.due["sam"] != 0 || p.due[""] != 1 {
		t.Errorf("due are %v; two cars of one person are asked about once, Sam is not, the guide is posted once", p.due)
	}
}

func TestLeaveAll(t *testing.T) {
	p, call := newPlanner()
	said, err := call.LeaveAll(t.Context(), p, tuning.Car{ID: 2})
	if err != nil || !slices.Equal(p.left, []int64{1}) || len(said) != 1 {
		t.Errorf("it left %v and says %q, %v", p.left, said, err)
	}
	if said, err := call.LeaveAll(t.Context(), p, tuning.Car{ID: 9}); err != nil || said != nil {
		t.Errorf("a car that is in nothing says %q, %v", said, err)
	}
}
