package transfer

import (
	"fmt"
	"math"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// BenchmarkRun is one manoeuvre of 0.8 s with its figures. It fails at 1 ms of
// one core.
func BenchmarkRun(b *testing.B) {
	c := ordinaryCars()[0].build(b)
	b.ReportAllocs()
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		if _, err := c.Run(Probes(Entry)[0], RoadTyre, FrontDriven); err != nil {
			b.Fatal(err)
		}
	}
	tuningtest.AtMost(b, before, time.Millisecond)
}

// BenchmarkDrive is one manoeuvre of 0.8 s stepped as finely as the cases are. It
// fails at 1 ms of one core.
func BenchmarkDrive(b *testing.B) {
	c := ordinaryCars()[0].build(b)
	m := c.manoeuvre(Probes(Entry)[0], RoadTyre, FrontDriven)
	before := tuningtest.ProcessorTime(b)
	for b.Loop() {
		if _, err := c.Drive(m, []unit.Seconds{0.2, 0.4, 0.6, 0.8}); err != nil {
			b.Fatal(err)
		}
	}
	tuningtest.AtMost(b, before, time.Millisecond)
}

// turn is the manoeuvre both programs run: a ramp that ends on a whole step.
const (
	turnUntil  = 0.35
	turnHeight = 8.0
	turnEnd    = 0.8
)

// turnOnce steps a car through it and returns the tyre deflections.
func turnOnce(chassis *chassis) [4]float64 {
	var x state
	ramp := line{slope: turnHeight / turnUntil}
	held := line{value: turnHeight}
	still := line{}
	chassis.follow(&x, &ramp, &still, 0, turnUntil, longStep)
	chassis.follow(&x, &held, &still, turnUntil, turnEnd, longStep)
	return [4]float64(x[wheel : wheel+4])
}

// BenchmarkStepping is the stepping alone, which allocates nothing.
func BenchmarkStepping(b *testing.B) {
	chassis := newChassis(ordinaryCars()[0].build(b))
	b.ReportAllocs()
	for b.Loop() {
		turnOnce(chassis)
	}
}

func TestSteppingAllocatesNothing(t *testing.T) {
	chassis := newChassis(ordinaryCars()[0].build(t))
	if n := testing.AllocsPerRun(5, func() { turnOnce(chassis) }); n != 0 {
		t.Errorf("%g allocations in a manoeuvre", n)
	}
}

// BenchmarkBesideC runs the same manoeuvre in C compiled with -O2 and reports
// how many times as long Go takes: at most 1.5. It needs a C compiler.
func BenchmarkBesideC(b *testing.B) {
	program := compiledC(b)
	c := ordinaryCars()[0].build(b)
	chassis := newChassis(c)
	inC, deflections := runC(b, program, c)
	for i, d := range turnOnce(chassis) {
		if math.Abs(d-deflections[i]) > 1e-9 {
			b.Fatalf("wheel %d: %g m here, %g m in C", i, d, deflections[i])
		}
	}
	runs := 0
	began := time.Now()
	for b.Loop() {
		turnOnce(chassis)
		runs++
	}
	inGo := float64(time.Since(began).Nanoseconds()) / float64(runs)
	b.ReportMetric(inGo/inC, "times-C")
}

func compiledC(tb testing.TB) string {
	compiler, err := exec.LookPath("cc")
	if err != nil {
		tb.Skip("NO C COMPILER: the manoeuvre is not compared with C")
	}
	program := filepath.Join(tb.TempDir(), "manoeuvre")
	out, err := exec.Command(compiler, "-O2", "-o", program, "testdata/manoeuvre.c", "-lm").CombinedOutput()
	if err != nil {
		tb.Fatalf("%v\n%s", err, out)
	}
	return program
}

// runC runs the C program and returns the nanoseconds a run takes and where the
// tyres end.
func runC(tb testing.TB, program string, c Car) (ns float64, deflections [4]float64) {
	var input strings.Builder
	put := func(figures ...float64) {
		for _, v := range figures {
			fmt.Fprintf(&input, "%.17g\n", v)
		}
	}
	chassis := newChassis(c)
	put(1000, longStep, turnEnd, turnUntil, turnHeight)
	put(chassis.mass, chassis.rollInertia, chassis.pitchInertia, chassis.rollArm)
	for i := range chassis.axle {
		a := &chassis.axle[i]
		put(a.x, a.y, a.mass, a.spring, a.tyre, a.bar, a.link)
		for _, side := range []float64{+1, -1} {
			force := func(v float64) float64 { return side * float64(a.damper.Force(unit.Speed(side*v))) }
			const knee = 0.08 // of twoSlopes
			put(0, knee, 0, force(knee), force(knee)/knee, force(knee+1)-force(knee))
		}
	}
	run := exec.Command(program)
	run.Stdin = strings.NewReader(input.String())
	out, err := run.Output()
	if err != nil {
		tb.Fatal(err)
	}
	d := &deflections
	if _, err := fmt.Sscan(string(out), &ns, &d[0], &d[1], &d[2], &d[3]); err != nil {
		tb.Fatalf("%v in %q", err, out)
	}
	return ns, deflections
}
