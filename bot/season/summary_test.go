package season_test

import (
	"strings"
	"testing"
	"time"

	"detent/tuning"
)

func TestSummary(t *testing.T) {
	year, olga, robin := newYear(t)
	robin.Refused(tuning.Forbidden, "organisers", `/event summary`)
	olga.Refused(tuning.NotFound, "No event has begun yet", `/event summary`)
	olga.Refused(tuning.Invalid, "June day has not begun", `/event summary name:"June day"`)
	stiffer := []tuning.Move{{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 5, To: 7}, {Corner: tuning.RR, Adjuster: tuning.Rebound, From: 5, To: 7}}
	wide := tuning.Complaint{What: tuning.Understeer, Where: tuning.Entry}
	year.entrants[1] = []tuning.Entrant{{Person: "robin", Car: year.cars[0], Answered: true}, {Person: "sam", Car: year.cars[1]}}
	year.tried = []tuning.Tried{
		{Car: 1, Complaint: wide, Moves: stiffer, Felt: tuning.BetterYes}, {Car: 1, Complaint: wide, Moves: stiffer, Felt: tuning.BetterNo},
		{Car: 2, Complaint: wide}, {Car: 2, Complaint: tuning.Complaint{What: tuning.Hops}},
	}
	olga.At = year.events[0].Starts.Add(time.Hour)
	r := olga.Does(`/event summary`)
	want := "Complaints: understeer on entry (2 cars), hops over bumps (1 car).\nWhat helped:\nRear rebound stiffer for understeer on entry: better in 1 of 2 tries"
	if r.Title != "June day: 2 cars, 1 answer in" || !strings.HasSuffix(r.Text, want) || len(r.Notes) != 1 {
		t.Errorf("%q\n%s\n%q", r.Title, r.Text, r.Notes)
	}
	year.tried = nil
	if r := olga.Does(`/event summary`); !strings.HasSuffix(r.Text, "Nobody complained.\nNothing that was turned has been felt as better yet.") {
		t.Errorf("%s", r.Text)
	}
}
