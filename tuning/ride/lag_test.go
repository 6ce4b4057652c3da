package ride

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"detent/tuning/tuningtest"
	"detent/tuning/unit"
)

// L1 to L3: computed for this program two ways, by a covariance equation and by
// a frequency integral in scipy, for invented corners; no published source.
func TestWorkedLags(t *testing.T) {
	for _, w := range workedLags() {
		got := must[Unrest](t)(w.corner.Unrest(w.damping, w.road))
		tuningtest.Near(t, w.name+" load variation", got.Load, w.load, 1e-9)
		tuningtest.Near(t, w.name+" lag", got.Lag, w.lag, 1e-9)
	}
}

// The worked lags by the frequency integral S/π·∫|H(iω)|² dω, with H from the
// equations of motion.
func TestLagAgainstFrequencyIntegral(t *testing.T) {
	for _, w := range workedLags() {
		ms, mu, kw, kt := w.corner.numbers()
		tau := float64(w.corner.Relaxation / unit.Length(w.road.Speed))
		density := func(omega float64) float64 {
			p := complex(0, omega)
			link := p*complex(float64(w.damping), 0) + complex(kw, 0)
			body := complex(ms, 0)*p*p + link
			wheel := complex(mu, 0)*p*p + link + complex(kt, 0)
			moved := complex(kt, 0) * body / (body*wheel - link*link)
			load := complex(kt/w.corner.weight(), 0) * (1 - moved) / p
			late := complex(tau, 0) * p / (1 + complex(tau, 0)*p)
			return math.Pow(cmplx.Abs(load*late), 2)
		}
		var sum float64
		const low, high, pieces = -3.0, 16.0, 400 // of ln ω
		for i := range pieces {
			from := low + (high-low)*float64(i)/pieces
			sum += quad.Fixed(func(u float64) float64 { return density(math.Exp(u)) * math.Exp(u) },
				from, from+(high-low)/pieces, 8, quad.Legendre{}, 0)
		}
		tuningtest.Near(t, w.name, w.corner.lag(float64(w.damping), w.road), w.road.intensity()/math.Pi*sum, 1e-3)
	}
}

// The recursion against a Lyapunov equation, for stable filters of any shape.
func TestWhiteVariance(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		a := [6]float64{1}
		for i, factor := range [][3]float64{ // (p² + 2ζω·p + ω²)² · (p + ω)
			{1, 2 * random.Float64(), 1 + 9*random.Float64()}, {1, 0.1 + random.Float64(), 0.1 + random.Float64()}, {0, 1, 0.2 + 3*random.Float64()},
		} {
			var product [6]float64
			for j, v := range a {
				for k, f := range factor {
					if at := j + k - map[int]int{0: 0, 1: 0, 2: 1}[i]; f != 0 && at >= 0 && at < 6 {
						product[at] += v * f
					}
				}
			}
			a = product
		}
		var b [5]float64
		for i := range b {
			b[i] = random.NormFloat64()
		}
		tuningtest.Near(t, "variance", whiteVariance(b, a), companionVariance(t, b, a), 1e-8)
	}
}

// companionVariance solves A·Σ + Σ·Aᵀ + e·eᵀ = 0 in companion form.
func companionVariance(t *testing.T, b [5]float64, a [6]float64) float64 {
	t.Helper()
	companion := mat.NewDense(5, 5, nil)
	for i := range 4 {
		companion.Set(i, i+1, 1)
	}
	for i := range 5 {
		companion.Set(4, i, -a[5-i]/a[0])
	}
	identity := mat.NewDiagDense(5, []float64{1, 1, 1, 1, 1})
	var left, right, both mat.Dense
	left.Kronecker(identity, companion)
	right.Kronecker(companion, identity)
	both.Add(&left, &right)
	input := mat.NewVecDense(25, nil)
	input.SetVec(24, -1)
	var sigma mat.VecDense
	if err := sigma.SolveVec(&both, input); err != nil {
		t.Fatal(err)
	}
	var sum float64
	for i := range 5 {
		for j := range 5 {
			sum += b[4-i] * b[4-j] / (a[0] * a[0]) * sigma.AtVec(5*i+j)
		}
	}
	return sum
}

// What a tyre that answers late loses, against the deflection equation itself on
// long seeded roads, smooth enough for the second order to be all there is.
func TestLagAgainstSimulation(t *testing.T) {
	for i, w := range workedLags() {
		road := Road{Spectrum: w.road.Spectrum / 16, Speed: w.road.Speed}
		want := w.corner.lag(float64(w.damping), road)
		tuningtest.Near(t, w.name, lostToLag(t, w.corner, w.damping, road, uint64(i)), want, 0.02)
	}
}

// lostToLag drives a linear corner over a white road with a tyre whose contact
// patch follows ẇ = v·(1 − w/σ(F)), and returns what is lost of the mean w, which
// the side force at constant slip is in proportion to. The patch of a tyre whose
// σ does not change is driven along beside it: it loses nothing in the long run,
// and what it loses in this run is chance.
func lostToLag(t *testing.T, c Corner, damping unit.Damping, road Road, seed uint64) float64 {
	t.Helper()
	hop, err := newTrial(c, linear(t, damping))
	if err != nil {
		t.Fatal(err)
	}
	weight := hop.weight
	hop.weight = 1e9 // the tyre stays on the road
	random := rand.New(rand.NewPCG(13, seed))
	const h, n = 1e-3, 1_000_000
	rate := h * float64(road.Speed) / float64(c.Relaxation) / 2
	var m motion
	var height, loadBefore, lost float64
	patch, steady := 1.0, 1.0
	for range n {
		rise, from := math.Sqrt(road.intensity()/h)*random.NormFloat64(), height
		m = hop.step(m, func(at float64) shove { return shove{road: from + rise*at} }, 0, h)
		height += rise * h
		load := hop.kt * (height - m.wheel) / weight
		patch = (patch*(1-rate/(1+loadBefore)) + 2*rate) / (1 + rate/(1+load))
		steady = (steady*(1-rate) + rate*(2+load+loadBefore)) / (1 + rate)
		loadBefore = load
		lost += (steady - patch) / n
	}
	return lost
}

// anyCorner draws a corner of a car, whose spring is some part of its tyre.
func anyCorner(r *rapid.T, softest, stiffest float64) Corner {
	c := Corner{
		Sprung:     unit.Mass(rapid.Float64Range(180, 450).Draw(r, "sprung")),
		Tyre:       unit.Stiffness(rapid.Float64Range(150e3, 320e3).Draw(r, "tyre")),
		Relaxation: unit.Length(rapid.Float64Range(0.25, 0.35).Draw(r, "relaxation")),
	}
	c.Unsprung = c.Sprung * unit.Mass(rapid.Float64Range(0.09, 0.14).Draw(r, "unsprung part"))
	c.Wheel = c.Tyre * unit.Stiffness(rapid.Float64Range(softest, stiffest).Draw(r, "spring part"))
	return c
}

func TestLagRises(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c := anyCorner(r, 0.05, 0.8)
		damping := c.critical() * unit.Damping(rapid.Float64Range(0.15, 1.5).Draw(r, "ratio"))
		road := Road{Spectrum: 16e-6, Speed: unit.Speed(rapid.Float64Range(10, 70).Draw(r, "speed"))}
		more := 1 + rapid.Float64Range(0.01, 3).Draw(r, "more")
		lag := c.lag(float64(damping), road)
		rougher, longer, quick := road, c, c
		rougher.Spectrum *= Spectrum(more)
		tuningtest.Near(t, "lag on a rougher road", c.lag(float64(damping), rougher), more*lag, 1e-9)
		longer.Relaxation *= unit.Length(more)
		if got := longer.lag(float64(damping), road); got <= lag {
			t.Errorf("%g times the relaxation length loses %g, not more than %g", more, got, lag)
		}
		quick.Relaxation = 0
		if got := quick.lag(float64(damping), road); got != 0 {
			t.Errorf("a tyre that answers at once loses %g", got)
		}
		quick.Relaxation = 1e-6
		if got := quick.lag(float64(damping), road); got > 1e-3*lag {
			t.Errorf("a tyre that answers nearly at once loses %g of %g", got, lag)
		}
	})
}

// On the road a corner grips best with more damping than makes its load vary
// least, and with less than the hardest nominal damper; with stiff springs, or
// slower, with a little less than the first. Where the tyre often leaves the road
// there may be more than one peak, and this does not hold.
func TestBestDampingOnTheRoad(t *testing.T) {
	for _, c := range []struct {
		softest, stiffest float64 // spring over tyre
		speed             unit.Speed
		least             float64 // best damping over that of the least load variation
	}{{0.1, 0.3, 35, 1}, {0.1, 0.3, 24, 0.93}, {0.3, 0.6, 24, 0.75}, {0.3, 0.6, 35, 0.75}} {
		rapid.Check(t, func(r *rapid.T) {
			corner := anyCorner(r, c.softest, c.stiffest)
			road := Road{Spectrum: Spectrum(rapid.SampledFrom([]float64{16e-6, 64e-6}).Draw(r, "spectrum")), Speed: c.speed}
			calm := float64(must[Optimum](t)(corner.Optimum()).Tyre)
			if corner.unrest(calm, road).Load > 0.05 {
				r.Skip("the tyre often leaves the road")
			}
			grip := func(cs float64) unit.Ratio { return corner.unrest(cs, road).Grip(Ordinary) }
			hard := nominalHard * float64(corner.critical())
			best := bestOf(grip, 0.5*calm, max(hard, calm))
			if best < c.least*calm {
				t.Errorf("%+v: best at %g N·s/m, least load variation at %g", corner, best, calm)
			}
			if hard > calm && best >= 0.999*hard {
				t.Errorf("%+v: still rising at full hard, %g N·s/m", corner, hard)
			}
		})
	}
}

// bestOf is where a figure with one peak is greatest, by the golden section.
func bestOf(figure func(float64) unit.Ratio, low, high float64) float64 {
	const part = 0.6180339887498949
	for high-low > 1e-6*high {
		a, b := high-part*(high-low), low+part*(high-low)
		if figure(a) < figure(b) {
			low = a
		} else {
			high = b
		}
	}
	return (low + high) / 2
}
