package figures

import (
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

// BenchmarkWord is the word on the remedy to try at its dearest, where every probe
// must be driven. It fails at 5 ms of one core, which is what the model may cost in
// an answer.
func BenchmarkWord(b *testing.B) {
	car, at := floating(b), afloat()
	advice := advise(b, car, at, tuning.Oversteer, tuning.Exit)
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		w, _, err := modelOf(b, car).Word(advice.Complaint, at, advice.Remedies[0])
		if err != nil || w == Neutral {
			b.Fatal(w, err)
		}
	}
	tuningtest.AtMost(b, before, 5*time.Millisecond)
}

// BenchmarkQuietAnswer is what the model costs in an answer where it is asked all
// that it may say there: a word that is neutral, what a measured damper gives away,
// and how far front and rear are apart. It fails at 5 ms of one core.
func BenchmarkQuietAnswer(b *testing.B) {
	car := knownCar(b)
	at := start(b, car)
	advice := advise(b, car, at, tuning.Oversteer, tuning.Exit)
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		m := modelOf(b, car)
		if w, _, err := m.Word(advice.Complaint, at, advice.Remedies[0]); w != Neutral || err != nil {
			b.Fatal(w, err)
		}
		if _, err := m.Loses(tuning.Rear, ClicksOf(at, tuning.Rear)); err != nil {
			b.Fatal(err)
		}
		if _, err := m.Spread(at); err != nil {
			b.Fatal(err)
		}
		m.Assumed(OnWhole)
	}
	tuningtest.AtMost(b, before, 5*time.Millisecond)
}

// BenchmarkJudge is everything the model says under Why or in --json. It fails at
// 40 ms of one core.
func BenchmarkJudge(b *testing.B) {
	car := unknownCar(tuning.FrontEngine, tuning.RearDrive, tuning.RoadTyre, dampers(4, 30))
	at := start(b, car)
	advice := advise(b, car, at, tuning.Understeer, tuning.Exit)
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		m := modelOf(b, car)
		for _, r := range advice.Remedies {
			if _, _, err := m.Judge(advice.Complaint, at, r); err != nil {
				b.Fatal(err)
			}
		}
		m.Assumed(OnWhole)
	}
	tuningtest.AtMost(b, before, 40*time.Millisecond)
}

// BenchmarkWindows is the model's part of a /window: both axles of 31 positions on
// all surfaces. It fails at 100 ms of one core.
func BenchmarkWindows(b *testing.B) {
	car := unknownCar(tuning.FrontEngine, tuning.FrontDrive, tuning.RoadTyre, dampers(2, 30))
	m, at := modelOf(b, car), start(b, car)
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		for axle := range tuning.Axle(tuning.Axles) {
			if _, err := m.Windows(axle, ClicksOf(at, axle)); err != nil {
				b.Fatal(err)
			}
		}
	}
	tuningtest.AtMost(b, before, 100*time.Millisecond)
}

// BenchmarkSharpest is the longest part of a /car show.
func BenchmarkSharpest(b *testing.B) {
	car := unknownCar(tuning.FrontEngine, tuning.FrontDrive, tuning.RoadTyre, dampers(2, 30))
	m, at := modelOf(b, car), start(b, car)
	for b.Loop() {
		if _, ok := m.Sharpest(at); !ok {
			b.Fatal("nothing is missing")
		}
	}
}
