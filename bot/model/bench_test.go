package model_test

import (
	"testing"
	"time"

	"detent/tuning/tuningtest"
)

// BenchmarkSymptom is the answer to a /symptom, but for the database: it fails at
// 6 ms of one core, of which the model has at most 5.
func BenchmarkSymptom(b *testing.B) {
	s := hatch(b)
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		s.quickly(b, "/symptom what:understeer where:entry")
	}
	tuningtest.AtMost(b, before, 6*time.Millisecond)
}

// BenchmarkWholeSymptom is the same with every field: it fails at 40 ms of one
// core.
func BenchmarkWholeSymptom(b *testing.B) {
	s := hatch(b)
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		s.answer(b, "/symptom what:understeer where:exit")
	}
	tuningtest.AtMost(b, before, 40*time.Millisecond)
}
