package tuningtest

import (
	"syscall"
	"testing"
	"time"
)

// ProcessorTime is what this process has had of all cores. Benchmarks count it
// rather than the time on the wall, which other programs on the machine stretch.
func ProcessorTime(t testing.TB) time.Duration {
	t.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		t.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// AtMost fails a benchmark whose runs take more of one core, on the mean, since the
// process stood at before.
func AtMost(b *testing.B, before, bound time.Duration) {
	b.Helper()
	each := (ProcessorTime(b) - before) / time.Duration(b.N)
	b.ReportMetric(float64(each.Nanoseconds()), "core-ns/op")
	if each > bound {
		b.Errorf("%v of one core a run, more than %v", each, bound)
	}
}
