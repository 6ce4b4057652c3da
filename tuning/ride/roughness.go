package ride

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"detent/tuning/unit"
)

// The golden car, the one corner all roughness is measured with, by its ratios
// to the sprung mass: k_w/m_s = 63.3 and k_t/m_s = 653 1/s², c/m_s = 6 1/s,
// m_u/m_s = 0.15. It drives at 80 km/h on a tyre that bridges 250 mm.
const (
	goldenSpeed = 80 / 3.6 // m/s
	tyreBridge  = 0.25     // m
	runUp       = 0.5      // s of road whose mean slope the car starts with
	stretch     = 100      // m
	highest     = 1e5      // m, that an elevation may be
)

func goldenCar() (Corner, unit.Damping) {
	return Corner{Sprung: 1, Unsprung: 0.15, Wheel: 63.3, Tyre: 653}, 6
}

// Roughness is the International Roughness Index of a road profile: the mean
// |ż_s − ż_u|/v of the golden car, in metres of travel per metre of road. As a
// plain ratio, 0.002 is what is usually written 2 mm/m.
type Roughness struct {
	Whole unit.Ratio
	// Stretches holds the index of each full 100 m, in order.
	Stretches []unit.Ratio
}

// IRI returns the roughness of a profile of elevations spaced dx apart (0 < dx
// ≤ 1 m, at least three samples). The road is straight between samples, which
// are averaged over 250 mm where they are closer than that; the car starts in
// step with the mean slope of the first half second.
//
// Source of the parameters and the start: the open program iri by M. Šorel, with
// F. Šroubek, M. Šorel, J. Žák, Int. J. Pavement Res. Technol., 2021, doi
// 10.1007/s42947-021-00097-z.
func IRI(profile []unit.Length, dx unit.Length) (Roughness, error) {
	if err := unit.Positive("sample spacing", dx); err != nil {
		return Roughness{}, err
	}
	if dx > 1 {
		return Roughness{}, fmt.Errorf("a profile sampled every %g m is too coarse: 1 m at most", float64(dx))
	}
	for i, height := range profile {
		if !(math.Abs(float64(height)) <= highest) {
			return Roughness{}, fmt.Errorf("elevation %d must be within %g m of zero, not %g", i+1, highest, float64(height))
		}
	}
	smooth := bridged(profile, dx)
	if len(smooth) < 2 {
		return Roughness{}, errors.New("the profile is too short: it must be longer than 250 mm and two samples")
	}
	return follow(smooth, float64(dx)), nil
}

// bridged is the profile as the tyre feels it: each value the mean of the
// samples in the 250 mm that begin there.
func bridged(profile []unit.Length, dx unit.Length) []float64 {
	n := max(1, int(math.Round(tyreBridge/float64(dx))))
	if len(profile) < n {
		return nil
	}
	smooth := make([]float64, len(profile)-n+1)
	for i := range smooth {
		for _, height := range profile[i : i+n] {
			smooth[i] += float64(height) / float64(n)
		}
	}
	return smooth
}

// follow drives the golden car over the profile. The state is per metre of
// road, so that a steady slope moves both masses at that slope.
func follow(profile []float64, dx float64) Roughness {
	state, input := goldenSteps(dx)
	start := startSlope(profile, dx)
	z := vector{start, 0, start, 0}
	perStretch := int(math.Round(stretch / dx))
	var sum, part float64
	var r Roughness
	for i := range len(profile) - 1 {
		slope := (profile[i+1] - profile[i]) / dx
		z = times(state, z)
		for j := range z {
			z[j] += input[j] * slope
		}
		travel := math.Abs(z[0] - z[2])
		sum, part = sum+travel, part+travel
		if (i+1)%perStretch == 0 {
			r.Stretches = append(r.Stretches, unit.Ratio(part/float64(perStretch)))
			part = 0
		}
	}
	r.Whole = unit.Ratio(sum / float64(len(profile)-1))
	return r
}

// startSlope is the mean slope of the road covered in the first half second, or
// of the whole profile where that is shorter.
func startSlope(profile []float64, dx float64) float64 {
	reach := goldenSpeed * runUp
	at := reach / dx
	i := int(at)
	if i >= len(profile)-1 {
		return (profile[len(profile)-1] - profile[0]) / (float64(len(profile)-1) * dx)
	}
	height := profile[i] + (at-float64(i))*(profile[i+1]-profile[i])
	return (height - profile[0]) / reach
}

// goldenSteps returns the exact step of the golden car over dx of road of
// steady slope: z ← state·z + input·slope, with z = [ż_s, z̈_s, ż_u, z̈_u] as the
// derivative of each height along the road.
func goldenSteps(dx float64) (state *mat.Dense, input vector) {
	car, damping := goldenCar()
	ms, mu, kw, kt := car.numbers()
	c := float64(damping)
	// The slope is carried along as a fifth, constant figure: the exponential
	// of the larger matrix then holds the integral over the step as well.
	system := mat.NewDense(5, 5, []float64{
		0, 1, 0, 0, 0,
		-kw / ms, -c / ms, kw / ms, c / ms, 0,
		0, 0, 0, 1, 0,
		kw / mu, c / mu, -(kw + kt) / mu, -c / mu, kt / mu,
		0, 0, 0, 0, 0,
	})
	system.Scale(dx/goldenSpeed, system)
	var step mat.Dense
	step.Exp(system)
	state = mat.DenseCopyOf(step.Slice(0, 4, 0, 4))
	for i := range input {
		input[i] = step.At(i, 4)
	}
	return state, input
}
