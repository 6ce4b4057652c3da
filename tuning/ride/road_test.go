package ride

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// Class limits at n0 = 0.1 cycle/m in 1e-6 m³, as given in the open program VBI-2D
// by D. Cantero (B07_OptionsProcessing.m), which cites ISO 8608:1995 (the standard
// itself was not read). The velocity spectra (2π·n0)²·G_d of the class means in
// 1e-6 m are computed from them.
func TestClasses(t *testing.T) {
	limits := []float64{8, 32, 128, 512, 2048, 8192, 32768, 131072, 524288}
	for i, letter := range []string{"A", "B", "C", "D", "E", "F", "G", "H"} {
		mean := must[Spectrum](t)(Class(letter))
		tuningtest.Near(t, letter+" mean", float64(mean), math.Sqrt(limits[i]*limits[i+1])*1e-6, 1e-14)
		for _, inside := range []float64{limits[i] * 1.001, limits[i+1] * 0.999} {
			if got := must[string](t)(Spectrum(inside * 1e-6).Class()); got != letter {
				t.Errorf("%g e-6 m³ is class %s, want %s", inside, got, letter)
			}
		}
	}
	for letter, want := range map[string]float64{"A": 6.316547, "B": 25.26619, "C": 101.0647, "D": 404.2590} {
		got := must[Spectrum](t)(Class(letter)).VelocitySpectrum()
		tuningtest.Near(t, letter+" velocity spectrum", got, want*1e-6, 5e-7)
	}
	if got := must[string](t)(Spectrum(1e-6).Class()); got != "A" {
		t.Errorf("smoother than A is %s", got)
	}
	if got := must[string](t)(Spectrum(1).Class()); got != "H" {
		t.Errorf("rougher than H is %s", got)
	}
	for _, letter := range []string{"", "I", "a", "AB"} {
		if _, err := Class(letter); err == nil {
			t.Errorf("%q is a class", letter)
		}
	}
	if _, err := Spectrum(math.NaN()).Class(); err == nil {
		t.Error("NaN has a class")
	}
	for _, surface := range Surfaces {
		letter := must[string](t)(surface.road().Spectrum.Class())
		if mean := must[Spectrum](t)(Class(letter)); mean != surface.road().Spectrum {
			t.Errorf("%v is not the mean of class %s", surface, letter)
		}
	}
}

func lyapunov(t *testing.T, c Corner, damping unit.Damping, s float64) Response {
	t.Helper()
	a := c.system(damping)
	identity := mat.NewDiagDense(4, []float64{1, 1, 1, 1})
	var left, right, both mat.Dense
	left.Kronecker(identity, a)
	right.Kronecker(a, identity)
	both.Add(&left, &right)
	input := mat.NewVecDense(16, nil)
	input.SetVec(2*4+2, -s) // the road moves z_u − z_r alone
	var sigma mat.VecDense
	if err := sigma.SolveVec(&both, input); err != nil {
		t.Fatal(err)
	}
	deviation := func(row ...float64) float64 {
		var variance float64
		for i, x := range row {
			for j, y := range row {
				variance += x * sigma.AtVec(4*i+j) * y
			}
		}
		return math.Sqrt(variance)
	}
	return Response{
		Acceleration: unit.Acceleration(deviation(a.RawRowView(1)...)),
		Travel:       unit.Length(deviation(1, 0, 0, 0)),
		TravelSpeed:  unit.Speed(deviation(0, 1, 0, -1)),
		Tyre:         unit.Force(float64(c.Tyre) * deviation(0, 0, 1, 0)),
	}
}

// simulate drives a corner for a long time over white road and returns the
// deviations of travel speed and tyre load. The tyre is pressed down so far that
// it never leaves the road.
func simulate(t *testing.T, c Corner, d Damper, intensity float64) (speed, tyre float64) {
	t.Helper()
	trial, err := newTrial(c, d)
	if err != nil {
		t.Fatal(err)
	}
	trial.weight = 1e6
	random := rand.New(rand.NewPCG(5, 6))
	const h, n = 1e-3, 1_000_000
	var m motion
	var height float64
	for range n {
		rise := math.Sqrt(intensity/h) * random.NormFloat64()
		from := height
		m = trial.step(m, func(at float64) shove { return shove{road: from + rise*at} }, 0, h)
		height += rise * h
		speed += math.Pow(m.wheelSpeed-m.bodySpeed, 2) / n
		tyre += math.Pow(trial.kt*(height-m.wheel), 2) / n
	}
	return math.Sqrt(speed), math.Sqrt(tyre)
}
