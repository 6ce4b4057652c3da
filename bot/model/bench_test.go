package model_test

import (
	"syscall"
	"testing"
	"time"
)

// BenchmarkSymptom is the answer to a /symptom, but for the database: it fails at
// 6 ms of one core, of which the model has at most 5.
func BenchmarkSymptom(b *testing.B) {
	s := hatch(b)
	before := processorTime(b)
	for b.Loop() {
		s.quickly(b, "/symptom what:understeer where:entry")
	}
	atMost(b, before, 6*time.Millisecond)
}

// BenchmarkWholeSymptom is the same with every field: it fails at 40 ms of one
// core.
func BenchmarkWholeSymptom(b *testing.B) {
	s := hatch(b)
	before := processorTime(b)
	for b.Loop() {
		s.answer(b, "/symptom what:understeer where:exit")
	}
	atMost(b, before, 40*time.Millisecond)
}

// atMost fails a benchmark whose runs take more of one core, on the mean, since
// the process stood at before. Other programs on the machine do not count.
func atMost(b *testing.B, before, bound time.Duration) {
	b.Helper()
	each := (processorTime(b) - before) / time.Duration(b.N)
	b.ReportMetric(float64(each.Nanoseconds()), "core-ns/op")
	if each > bound {
		b.Errorf("%v of one core a run, more than %v", each, bound)
	}
}

// processorTime is what the process has had of all cores.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
