package season_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/learn"
)

func TestSummary(t *testing.T) {
	year, olga, robin := newYear(t)
	robin.Refused(tuning.Forbidden, "organisers", `/event summary`)
	olga.Refused(tuning.NotFound, "No event has begun yet", `/event summary`)
	olga.Refused(tuning.Invalid, "June day has not begun", `/event summary name:"June day"`)
	wide := tuning.Complaint{What: tuning.Understeer, Where: tuning.Entry}
	year.entrants[1] = []tuning.Entrant{{Person: "robin", Car: year.cars[0], Answered: true}, {Person: "sam", Car: year.cars[1]}}
	year.tried = []tuning.Tried{{Car: 1, Complaint: wide}, {Car: 1, Complaint: wide}, {Car: 2, Complaint: wide}, {Car: 2, Complaint: tuning.Complaint{What: tuning.Hops}}}
	stiffer := learn.Key{Row: tuning.RowKey{What: tuning.Understeer, Where: tuning.Entry}, Part: tuning.RearPart, Job: tuning.AnyRebound, Turn: tuning.Stiffer}
	try := func(car int64, moved float64) learn.Try {
		return learn.Try{Car: car, Owner: fmt.Sprint("owner", car), Key: stiffer, Fraction: 1, Reading: learn.Reading{Moved: moved, Variance: 0.8, Helped: moved > 0}}
	}
	year.tries = []learn.Try{try(1, 0.9), try(1, -0.9)}
	olga.At = year.events[0].Starts.Add(time.Hour)
	r := olga.Does(`/event summary`)
	want := "Complaints: understeer on entry (2 cars), hops over bumps (1 car).\nWhat helped:\nRear rebound stiffer for understeer on entry: helped 1 of 2 times"
	if r.Title != "June day: 2 cars, 1 answer in" || !strings.HasSuffix(r.Text, want) || len(r.Notes) != 1 {
		t.Errorf("%q\n%s\n%q", r.Title, r.Text, r.Notes)
	}
	year.tries = append(year.tries, try(2, 0.9), try(3, 0.9))
	if r := olga.Does(`/event summary`); !strings.HasSuffix(r.Text, "helped 3 of 4 times, about half a mark better, give or take half") {
		t.Errorf("of three cars of three people: %s", r.Text)
	}
	year.tried, year.tries = nil, nil
	if r := olga.Does(`/event summary`); !strings.HasSuffix(r.Text, "Nobody complained.\nNothing that was turned has been felt as better yet.") {
		t.Errorf("%s", r.Text)
	}
}
