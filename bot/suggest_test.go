package bot

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/tuning"
)

func TestSift(t *testing.T) {
	all := []Suggestion{{"Grey coupe", "Grey coupe"}, {"Blue hatch", "Blue hatch, the main car"}, {"Main van", "Main van"}}
	for typed, want := range map[string][]string{
		"": {"Grey coupe", "Blue hatch", "Main van"}, "main": {"Main van", "Blue hatch"}, " BLUE": {"Blue hatch"}, "x": nil,
	} {
		var got []string
		for _, s := range sift(all, typed) {
			got = append(got, s.Value)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q offers %v, want %v", typed, got, want)
		}
	}
	if n := len(sift(make([]Suggestion, 40), "")); n != MaxSuggestions {
		t.Errorf("%d are offered at once", n)
	}
}

// eventBook is a club with some events.
type eventBook struct {
	Book
	events []tuning.Event
}

func (b eventBook) Events(context.Context, time.Time) ([]tuning.Event, error) { return b.events, nil }

// Events to come stand before those that are over, and cancelled ones say so.
func TestSuggestEvents(t *testing.T) {
	now := time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC)
	day := func(name string, days int) tuning.Event {
		return tuning.Event{Name: name, Starts: now.AddDate(0, 0, days), Ends: now.AddDate(0, 0, days).Add(time.Hour)}
	}
	cancelled := day("Summer day", 30)
	cancelled.Cancelled = true
	book := eventBook{events: []tuning.Event{day("April day", -20), day("May day", 2), cancelled}}
	found, err := suggestEvents(t.Context(), Call{Ask: Ask{At: now}}, book, "")
	if err != nil || len(found) != 3 || found[0].Value != "May day" || found[2].Value != "April day" || !strings.HasSuffix(found[1].Label, ", cancelled") {
		t.Errorf("%+v, %v", found, err)
	}
}

// clubBook is a club with some members.
type clubBook struct {
	Book
	members []tuning.Member
}

func (b clubBook) Members(_ context.Context, begin string, _ int) (found []tuning.Member, err error) {
	for _, m := range b.members {
		if strings.HasPrefix(strings.ToLower(m.Name), strings.ToLower(begin)) {
			found = append(found, m)
		}
	}
	return found, nil
}

// The last of several members is completed behind the others.
func TestSuggestPeople(t *testing.T) {
	book := clubBook{members: []tuning.Member{{Person: "p1", Name: "Robin"}, {Person: "p2", Name: "Sam"}, {Person: "p3", Name: "sam"}, {Person: "p4", Name: "Sandy, the elder"}, {Person: "p5", Name: "Sandra"}}}
	for typed, want := range map[string][]string{
		"ro":          {"Robin"},
		"Robin,sand":  {"Robin,Sandra", "Robin,p4"},
		"Robin,  sam": {"Robin,  p2", "Robin,  p3"},
		"Robin, x":    nil,
	} {
		found, err := suggestPeople(t.Context(), Call{}, book, typed)
		var got []string
		for _, s := range sift(found, typed) {
			got = append(got, s.Value)
		}
		slices.Sort(got)
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("%q offers %q, %v, want %q", typed, got, err, want)
		}
	}
}
