package model_test

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/garage"
	"detent/tuning"
	"detent/tuning/learn"
	"detent/tuning/unit"
)

// shelf is a book that holds one car.
type shelf struct {
	bot.Book
	of    tuning.Case
	given []tuning.Advice
}

func (s *shelf) Club(context.Context) (tuning.Club, error) { return tuning.DefaultClub("hill"), nil }
func (s *shelf) Member(context.Context, string) (tuning.Member, error) {
	return tuning.Member{}, nil
}
func (s *shelf) Unseen(context.Context, string) (tuning.Unseen, error)     { return tuning.Unseen{}, nil }
func (s *shelf) Case(context.Context, string, string) (tuning.Case, error) { return s.of, nil }
func (s *shelf) LearnedCase(context.Context, string, string, tuning.Complaint) (tuning.Case, learn.Evidence, error) {
	return s.of, learn.Evidence{}, nil
}
func (s *shelf) Notes(context.Context, string, int) ([]tuning.CoachNote, error) { return nil, nil }
func (s *shelf) NoteCautions(context.Context, string, string) error             { return nil }
func (s *shelf) SaveAdvice(_ context.Context, a tuning.Advice, _ tuning.Setting) (tuning.Advice, error) {
	s.given = append(s.given, a)
	a.ID = int64(len(s.given))
	return a, nil
}

func (s *shelf) Read(_ context.Context, _ tuning.Who, _ time.Time, fn func(bot.Book) error) error {
	return fn(s)
}

func (s *shelf) Once(_ context.Context, _ tuning.Who, _ time.Time, _ string, fn func(bot.Book) (bot.Reply, error)) (bot.Reply, error) {
	return fn(s)
}

// ask asks a line about the car on the shelf.
func (s *shelf) ask(t testing.TB, text string) bot.Reply {
	t.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		t.Fatal(err)
	}
	return bot.NewRouter(bot.NewCatalogue(garage.Commands()), s, slog.New(slog.DiscardHandler)).Answer(t.Context(), bot.Ask{
		Line: line, Whole: true, At: time.Date(2026, time.May, 16, 9, 0, 0, 0, time.UTC),
		Who: tuning.Who{Club: "hill", Person: "Kim", Name: "Kim", Role: tuning.MemberRole},
	})
}

// answer is ask for a line that must be answered.
func (s *shelf) answer(t testing.TB, text string) bot.Reply {
	t.Helper()
	reply := s.ask(t, text)
	if reply.Problem != nil {
		t.Fatalf("%s: %s", text, reply.Problem.Say)
	}
	return reply
}

// hatch is a car of which little is known, at its start.
func hatch(t testing.TB) *shelf {
	t.Helper()
	d := tuning.Damper{Ways: 2, Count: tuning.FromHard}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = 30, 30
	return shelve(t, tuning.Car{ID: 1, Name: "Blue hatch", Main: true, Drive: tuning.FrontDrive, Engine: tuning.FrontEngine,
		Tyre: tuning.RoadTyre, Aero: tuning.NoAero, Use: tuning.TrackUse, Dampers: [tuning.Axles]tuning.Damper{d, d}})
}

func shelve(t testing.TB, car tuning.Car) *shelf {
	t.Helper()
	at, err := tuning.Baseline(car, tuning.Dry, tuning.DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	return &shelf{of: tuning.Case{Car: car, Setting: at}}
}

// coupe is a car of which all is known, with a force table at each end; its
// dampers are far too soft. Invented.
func coupe(t testing.TB) *shelf {
	t.Helper()
	s := hatch(t)
	car := s.of.Car
	car.Name, car.Drive, car.Tyre = "Grey coupé", tuning.RearDrive, tuning.SemiSlick
	car.Mass, car.FrontShare, car.Wheelbase, car.CGHeight = 1320, 0.51, 2.55, 0.49
	for axle := range car.Ends {
		bar := unit.Stiffness(20e3 - 12e3*float64(axle))
		car.Ends[axle] = tuning.End{Track: 1.52, Spring: 70e3, MotionRatio: 0.95, Bar: &bar, Unsprung: 40, TyreRate: 230e3}
		var csv strings.Builder
		csv.WriteString("click,speed_mm_s,bump_n,rebound_n\n")
		for click, force := range map[int]float64{0: 60, 15: 90, 30: 600} {
			force *= 1 - 0.8*float64(axle)
			for _, v := range []float64{30, 60, 300} {
				fmt.Fprintf(&csv, "%d,%g,%.1f,%.1f\n", click, v, force*min(v, 60+0.4*(v-60))/60, 2*force*min(v, 60+0.4*(v-60))/60)
			}
		}
		table, err := tuning.ParseForceTable(csv.String())
		if err != nil {
			t.Fatal(err)
		}
		car.Curves[axle] = table
	}
	return shelve(t, car)
}

// quickly asks for an answer without every field.
func (s *shelf) quickly(t testing.TB, text string) bot.Reply {
	t.Helper()
	line, err := bot.ParseLine(text)
	if err != nil {
		t.Fatal(err)
	}
	reply := bot.NewRouter(bot.NewCatalogue(garage.Commands()), s, slog.New(slog.DiscardHandler)).Answer(t.Context(), bot.Ask{
		Line: line, At: time.Date(2026, time.May, 16, 9, 0, 0, 0, time.UTC),
		Who: tuning.Who{Club: "hill", Person: "Kim", Name: "Kim", Role: tuning.MemberRole},
	})
	if reply.Problem != nil {
		t.Fatalf("%s: %s", text, reply.Problem.Say)
	}
	return reply
}
