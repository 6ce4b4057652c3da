package season_test

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"detent/bot/bottest"
	"detent/tuning"
	"detent/tuning/learn"
)

// clubShelf is a club with a year.
type clubShelf struct {
	*clubYear
	season tuning.ClubSeason
	tries  []learn.Try
}

// ClubSeason has the events in the year that is asked for, and the nearest others.
func (c *clubShelf) ClubSeason(_ context.Context, from, to time.Time) (tuning.ClubSeason, error) {
	at := c.season.Events[0].Event.Starts
	switch {
	case at.Before(from):
		return tuning.ClubSeason{Earlier: at}, nil
	case !at.Before(to):
		return tuning.ClubSeason{Later: at}, nil
	}
	return c.season, nil
}

func (c *clubShelf) TriesIn(context.Context, time.Time, time.Time) ([]learn.Try, error) {
	return c.tries, nil
}

// newClubShelf is a club of whose year so many cars are on record, each of another
// person, with two tries of one remedy each.
func newClubShelf(t *testing.T, cars int) (*clubShelf, bottest.Person) {
	year, olga, _ := newYear(t)
	n := tuning.Sample{Times: 2 * cars, Cars: cars, People: cars}
	shelf := &clubShelf{clubYear: year, season: tuning.ClubSeason{Entered: n, Asked: n, Applied: n, Felt: n,
		Events: []tuning.Turnout{{Event: tuning.Event{ID: 7, Name: "Spring day", Place: "Windy Hill", Weather: tuning.Dry,
			Starts: time.Date(2026, 4, 4, 9, 0, 0, 0, time.UTC), GoneAnswers: 1}, Cars: cars + 1, Felt: n}},
		Coming: []tuning.Event{year.events[0]}}}
	key := learn.Key{Row: tuning.RowKey{What: tuning.Understeer, Where: tuning.Entry}, Part: tuning.RearPart, Job: tuning.AnyRebound, Turn: tuning.Stiffer}
	for car := range cars {
		for range 2 {
			shelf.tries = append(shelf.tries, learn.Try{Car: int64(car), Owner: fmt.Sprint("person ", car), Key: key, Fraction: 1, Reading: learn.Reading{Moved: 0.9, Variance: 0.8, Helped: true}})
		}
	}
	olga.Book = shelf
	return shelf, olga
}

func TestAClubsSeason(t *testing.T) {
	_, olga := newClubShelf(t, 3)
	r := olga.Does(`/club season`)
	if r.Title != "The club in 2026: 1 event, 4 entries" || r.Private {
		t.Errorf("%q, private %v", r.Title, r.Private)
	}
	want := "Entered: 6 times, 3 cars of 3 people.\nAsked what to turn: 6 times, 3 cars of 3 people.\nApplied a remedy: 6 times, 3 cars of 3 people.\n" +
		"Said how a run felt: 6 times, 3 cars of 3 people.\n1 event is still to come. The page to print has it all.\n" +
		"Rear rebound stiffer for understeer on entry: helped 6 of 6 times, about half a mark better, give or take half."
	if r.Text != want {
		t.Errorf("it says\n%s\nwant\n%s", r.Text, want)
	}
	if len(r.Files) != 1 || !bytes.HasPrefix(r.Files[0].Data, []byte("%PDF")) || r.Message().Picture == nil ||
		!strings.Contains(r.Picture.Alt, "Spring day, 4 Apr: 4 cars, 4 answered.") {
		t.Errorf("%d files, the picture is %+v", len(r.Files), r.Picture)
	}
}

// What fewer than three cars of three people stand behind is not told.
func TestAClubOfTwoTellsNothing(t *testing.T) {
	_, olga := newClubShelf(t, 2)
	r := olga.Does(`/club season`)
	if r.Text != "Not told: what fewer than three cars of three people stand behind.\n1 event is still to come. The page to print has it all." || len(r.Notes) != 0 {
		t.Errorf("it says\n%s\n%q", r.Text, r.Notes)
	}
	if !strings.HasSuffix(r.Picture.Alt, "Spring day, 4 Apr: 3 cars.") {
		t.Errorf("the picture says %q", r.Picture.Alt)
	}
}

func TestAClubsYearWithNoEvent(t *testing.T) {
	shelf, olga := newClubShelf(t, 3)
	olga.Refused(tuning.NotFound, "The club had no event in 2025.", `/club season year:2025`)
	if r := olga.Ask(`/club season year:2027`); len(r.Actions) != 1 || r.Actions[0].Label != "2026" || r.Actions[0].Line() != "/club season year:2026" || !r.Private {
		t.Errorf("it offers %+v", r.Actions)
	}
	sam := olga
	sam.Key, sam.Role = "sam", tuning.MemberRole
	sam.Refused(tuning.Forbidden, "organiser", `/club season`)
	olga.Book = &unbegun{shelf}
	olga.Refused(tuning.NotFound, "No event of 2026 has begun yet: the first is June day on Sat 13 Jun 2026, 09:00.", `/club season`)
}

// unbegun is a club of whose year nothing has begun.
type unbegun struct{ *clubShelf }

func (u *unbegun) ClubSeason(context.Context, time.Time, time.Time) (tuning.ClubSeason, error) {
	return tuning.ClubSeason{Coming: u.season.Coming}, nil
}
