package notebook_test

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/bottest"
	"detent/tuning"
	"detent/tuning/learn"
)

// yearShelf is a shelf with the season of its car, from whose clocks it is read.
type yearShelf struct {
	*shelf
	season   tuning.CarSeason
	tries    []learn.Try
	evidence learn.Evidence
}

// newYearShelf has a hatch that was turned and felt once, on a day that the club's
// clocks put into 2026 and those of Greenwich into 2025.
func newYearShelf(t *testing.T) (*yearShelf, bottest.Person) {
	box, robin := newShelf(t)
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 30, 30
	box.cars[0].Drive, box.cars[0].Dampers = tuning.FrontDrive, [tuning.Axles]tuning.Damper{d, d}
	box.HomeClub.Zone = "Pacific/Auckland"
	at := time.Date(2025, 12, 31, 12, 0, 0, 0, time.UTC)
	year := &yearShelf{shelf: box}
	for _, c := range tuning.Rear.Corners() {
		year.season.Before = append(year.season.Before, tuning.Move{Corner: c, Adjuster: tuning.Rebound, From: -1, To: 14})
	}
	turned := tuning.Change{ID: 1, At: at, Reason: tuning.ByRemedy, Moves: []tuning.Move{{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 14, To: 17}, {Corner: tuning.RR, Adjuster: tuning.Rebound, From: 14, To: 17}}}
	year.season.Changes = []tuning.Change{turned}
	year.season.Feels = []tuning.Feel{{At: at.Add(time.Hour), Event: 3, Change: 1, Grip: 7, Better: tuning.BetterYes, Lap: 102600 * time.Millisecond, Conditions: tuning.ItWasDry, Notes: "turns in now"}}
	year.season.Notes = []tuning.CarNote{{At: at.Add(2 * time.Hour), What: tuning.AboutTyres, Text: "new set"}}
	year.season.Events = []tuning.Event{{ID: 3, Name: "New Year day", Place: "Windy Hill", Starts: at, Ends: at.Add(8 * time.Hour)}}
	key := learn.Key{Row: tuning.RowKey{What: tuning.Understeer, Where: tuning.Entry}, Part: tuning.RearPart, Job: tuning.AnyRebound, Turn: tuning.Stiffer}
	other := key
	other.Part, other.Turn = tuning.FrontPart, tuning.Softer
	year.tries = []learn.Try{{Car: 1, Change: 1, Key: key}}
	year.evidence.Own = map[learn.Key]learn.Sums{key: {A: 2, B: 1.8, Tries: 2, Helped: 2, Last: at}, other: {A: 2, B: 1, Tries: 2, Helped: 1, Last: at}}
	robin.Book = year
	return year, robin
}

func (y *yearShelf) Case(ctx context.Context, owner, name string) (tuning.Case, error) {
	car, err := y.Car(ctx, owner, name)
	return tuning.Case{Car: car}, err
}

// CarSeason has what happened in the year that is asked for, and when something
// did outside it.
func (y *yearShelf) CarSeason(_ context.Context, car tuning.Car, from, to time.Time) (tuning.CarSeason, error) {
	s := y.season
	s.From, s.To = from, to
	switch at := s.Changes[0].At; {
	case at.Before(from):
		return tuning.CarSeason{From: from, To: to, Earlier: at}, nil
	case !at.Before(to):
		return tuning.CarSeason{From: from, To: to, Later: at}, nil
	}
	return s, nil
}

func (y *yearShelf) TriesOf(context.Context, tuning.Car, time.Time, time.Time) ([]learn.Try, error) {
	return y.tries, nil
}

func (y *yearShelf) LearnedAll(context.Context, tuning.Car) (learn.Evidence, error) {
	return y.evidence, nil
}

func TestASeason(t *testing.T) {
	_, robin := newYearShelf(t)
	r := robin.Does(`/car season`)
	if r.Title != "Blue hatch in 2026: 1 change, 1 run noted, 1 event" || !r.Private {
		t.Errorf("%q, private %v", r.Title, r.Private)
	}
	want := "Grip 7 (1 Jan). The page to print has it all.\nBest lap at Windy Hill, dry: 1:42.600 on 1 Jan.\n" +
		"Understeer on entry: rear rebound 3 stiffer helped 2 of 2 times, about half a mark better, give or take half."
	if r.Text != want {
		t.Errorf("it says\n%s\nwant\n%s", r.Text, want)
	}
	if notes := strings.Join(r.Notes, "\n"); !strings.HasSuffix(notes, "1 Jan: tyres: new set\n1 Jan: grip 7, “turns in now”") || strings.Contains(notes, "front rebound") {
		t.Errorf("the notes are\n%s", notes)
	}
	if len(r.Files) != 1 || r.Files[0].Name != "season-2026.pdf" || !bytes.HasPrefix(r.Files[0].Data, []byte("%PDF")) {
		t.Errorf("the files are %d", len(r.Files))
	}
	m := r.Message()
	if m.Picture == nil || !strings.Contains(m.Picture.Alt, "Rear rebound: 16 → 13 from hard") || !strings.Contains(m.Picture.Alt, "Events: 1 New Year day.") || strings.Contains(m.Text, "new set") {
		t.Errorf("the message shows %+v and says %q", m.Picture, m.Text)
	}
}

func TestAYearWithNothing(t *testing.T) {
	year, robin := newYearShelf(t)
	robin.Refused(tuning.NotFound, "Nothing was turned, felt or noted on Blue hatch in 2025.", `/car season year:2025`)
	for _, line := range []string{`/car season year:2025`, `/car season year:2027`} {
		if r := robin.Ask(line); len(r.Actions) != 1 || r.Actions[0].Label != "2026" || r.Actions[0].Line() != "/car season year:2026 car:#1" || !r.Private {
			t.Errorf("%s offers %+v", line, r.Actions)
		}
	}
	robin.Refused(tuning.Invalid, "from 2000 to 2100", `/car season year:26`)
	robin.Refused(tuning.NotFound, "You have no car called", `/car season car:"Grey coupe"`)
	year.tries = nil
	if r := robin.Does(`/car season`); strings.Contains(r.Text, "rebound") || slices.ContainsFunc(r.Actions, func(a bot.Action) bool { return a.Label == "What is learned" }) {
		t.Errorf("with nothing judged it says %s", r.Text)
	}
}

// Where only a note was written there is nothing to draw, and the page stands
// alone.
func TestAYearOfNotesAlone(t *testing.T) {
	year, robin := newYearShelf(t)
	year.season.Feels, year.season.Changes[0].Moves = nil, nil
	r := robin.Does(`/car season`)
	if r.Title != "Blue hatch in 2026: 0 changes, 0 runs noted, 1 event" || r.Text[:len("The page to print has it all.")] != "The page to print has it all." ||
		r.Picture != nil || len(r.Files) != 1 || !slices.Contains(r.Notes, "1 Jan: tyres: new set") {
		t.Errorf("%q %q %q, picture %v", r.Title, r.Text, r.Notes, r.Picture != nil)
	}
}
