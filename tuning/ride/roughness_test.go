package ride

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// The transition matrices as printed in the open package rroad by V. Šimko
// (R/rroad-package.R, IRI_COEF_100 and IRI_COEF_250), which cites the World Bank's
// Technical Paper 45. The first figure of PR at 0.25 m is rounded in print.
func TestGoldenSteps(t *testing.T) {
	for _, c := range []struct {
		dx    float64
		state []float64
		input vector
	}{
		{0.25, []float64{
			.9966071, .01091514, -.002083274, .0003190145,
			-.5563044, .9438768, -.8324718, .05064701,
			.02153176, .002126763, .7508714, .008221888,
			3.335013, .3376467, -39.12762, .4347564,
		}, vector{.005476107, 1.388776, .2275968, 35.79262}},
		{0.10, []float64{
			.9994014, 4.442351e-3, 2.188854e-4, 5.72179e-5,
			-.2570548, .975036, 7.966216e-3, 2.458427e-2,
			3.960378e-3, 3.814527e-4, .9548048, 4.055587e-3,
			1.687312, .1638951, -19.34264, .7948701,
		}, vector{3.793992e-4, .2490886, 4.123478e-2, 17.65532}},
	} {
		state, input := goldenSteps(c.dx)
		for i, want := range c.state {
			tuningtest.Near(t, "ST", state.At(i/4, i%4), want, 1e-6)
		}
		for i, want := range c.input {
			tuningtest.Near(t, "PR", input[i], want, 1e-3)
		}
	}
}

// Eigenvalues −20.4099 ± 64.4226i and −2.5901 ± 7.3234i as they stand in the code
// of the open program iri by M. Šorel, which goes with F. Šroubek, M. Šorel, J. Žák, Int. J. Pavement Res. Technol., 2021, doi
// 10.1007/s42947-021-00097-z.
func TestGoldenEigenvalues(t *testing.T) {
	car, damping := goldenCar()
	var eigen mat.Eigen
	if !eigen.Factorize(car.system(damping), mat.EigenNone) {
		t.Fatal("no eigenvalues")
	}
	got := eigen.Values(nil)
	slices.SortFunc(got, func(a, b complex128) int {
		return cmp.Or(cmp.Compare(real(a), real(b)), cmp.Compare(imag(a), imag(b)))
	})
	for i, want := range []complex128{
		complex(-20.40992621332219, -64.42262610541198), complex(-20.40992621332219, 64.42262610541198),
		complex(-2.590073786677789, -7.323397385729718), complex(-2.590073786677789, 7.323397385729718),
	} {
		if cmplx.Abs(got[i]-want) > 1e-12*cmplx.Abs(want) {
			t.Errorf("eigenvalue %v, want %v", got[i], want)
		}
	}
}

// gain is the roughness filter at a wavelength: travel speed over road slope of
// a steady sine, from the equations of motion of the two masses.
func gain(wavelength float64) float64 {
	car, damping := goldenCar()
	ms, mu, kw, kt := car.numbers()
	s := complex(0, 2*math.Pi*goldenSpeed/wavelength)
	link := complex(float64(damping), 0)*s + complex(kw, 0)
	body := complex(ms, 0) * s * s
	// m_s·z̈_s = link·(z_u−z_s) gives z_u−z_s = m_s·s²·z_s/link, and the sum of
	// both equations m_s·s²·z_s + m_u·s²·z_u = k_t·(z_r−z_u).
	perBody := (body + link) / link // z_u/z_s
	whole := body + (complex(mu, 0)*s*s+complex(kt, 0))*perBody
	return cmplx.Abs(body / link * complex(kt, 0) / whole)
}

// Gains per unit slope, computed by a separate program in the making of this
// model; no published source. The first of each pair is a peak.
func TestRoughnessFilterGains(t *testing.T) {
	for wavelength, want := range map[float64]float64{
		2.292337: 1.676483, 15.776871: 1.537600, 2.4: 1.664003, 15: 1.527311,
	} {
		tuningtest.Near(t, "gain", gain(wavelength), want, 5e-7)
	}
	for _, peak := range []float64{2.292337, 15.776871} {
		if gain(peak*0.99) >= gain(peak) || gain(peak*1.01) >= gain(peak) {
			t.Errorf("no peak at %g m", peak)
		}
	}
}

// The roughness of a sine: the mean of |sin| is 2/π, so
// IRI = 2/π·gain·2πA/λ, less what the 250 mm tyre bridges.
func TestRoughnessOfSine(t *testing.T) {
	const dx, height = 0.01, 0.004
	for _, wavelength := range []float64{1, 2.5, 5, 10, 20, 50} {
		profile := make([]unit.Length, 60001)
		for i := range profile {
			profile[i] = unit.Length(height * math.Sin(2*math.Pi*dx*float64(i)/wavelength))
		}
		r := must[Roughness](t)(IRI(profile, dx))
		n := math.Round(tyreBridge / dx)
		phase := math.Pi * dx / wavelength
		bridge := math.Abs(math.Sin(n*phase) / (n * math.Sin(phase)))
		want := 2 / math.Pi * gain(wavelength) * 2 * math.Pi * height / wavelength * bridge
		tuningtest.Near(t, "roughness", float64(r.Stretches[4]), want, 1e-3)
	}
}

// Roughness in mm/m of each 100 m, samples every 0.25 m, heights rounded to 1e-9
// m: computed with the open program iri by M. Šorel (above), run as a whole; not
// printed anywhere.
func TestRoughnessOfProfiles(t *testing.T) {
	for _, c := range []struct {
		name   string
		height func(x float64) float64
		want   [4]float64
	}{
		{"5 mm sine of 2.5 m", func(x float64) float64 { return 0.005 * math.Sin(2*math.Pi*x/2.5) },
			[4]float64{12.25761812, 12.37483854, 12.37483854, 12.37483854}},
		{"20 mm sine of 15 m", func(x float64) float64 { return 0.020 * math.Sin(2*math.Pi*x/15) },
			[4]float64{7.71518105, 8.20118696, 8.20365779, 8.01982321}},
		{"20 mm triangle", func(x float64) float64 { return 0.020 * max(0, 1-math.Abs(x-101)) },
			[4]float64{0, 0.710505379, 1.471e-6, 0}},
		{"10 mm step", func(x float64) float64 {
			if x < 200 {
				return 0
			}
			return 0.010
		}, [4]float64{0, 0.0222120673, 0.323460224, 1.512e-6}},
	} {
		t.Run(c.name, func(t *testing.T) {
			profile := make([]unit.Length, 1601)
			for i := range profile {
				profile[i] = unit.Length(math.Round(c.height(0.25*float64(i))*1e9) / 1e9)
			}
			r := must[Roughness](t)(IRI(profile, 0.25))
			if len(r.Stretches) != 4 {
				t.Fatalf("%d stretches", len(r.Stretches))
			}
			var mean float64
			for i, want := range c.want {
				got := 1000 * float64(r.Stretches[i])
				mean += got / 4
				if math.Abs(got-want) > 1e-8*want+1e-9 {
					t.Errorf("stretch %d: %.10g mm/m, want %.10g", i, got, want)
				}
			}
			tuningtest.Near(t, "whole", 1000*float64(r.Whole), mean, 1e-12)
		})
	}
}

// A road that only climbs is smooth.
func TestSteadySlopeIsSmooth(t *testing.T) {
	profile := make([]unit.Length, 500)
	for i := range profile {
		profile[i] = unit.Length(0.05 * 0.1 * float64(i))
	}
	if r := must[Roughness](t)(IRI(profile, 0.1)); math.Abs(float64(r.Whole)) > 1e-12 {
		t.Errorf("a steady slope has roughness %g", float64(r.Whole))
	}
}

func TestBadProfiles(t *testing.T) {
	flat := make([]unit.Length, 100)
	for name, bad := range map[string]struct {
		profile []unit.Length
		dx      unit.Length
	}{
		"no samples":    {nil, 0.25},
		"one sample":    {flat[:1], 0.25},
		"too short":     {flat[:25], 0.01},
		"no spacing":    {flat, 0},
		"spacing NaN":   {flat, unit.Length(math.NaN())},
		"coarse":        {flat, 2},
		"height NaN":    {append([]unit.Length{unit.Length(math.NaN())}, flat...), 0.25},
		"height no end": {append([]unit.Length{unit.Length(math.Inf(-1))}, flat...), 0.25},
	} {
		if r, err := IRI(bad.profile, bad.dx); err == nil {
			t.Errorf("%s has roughness %+v", name, r)
		}
	}
}
