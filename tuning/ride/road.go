package ride

import (
	"cmp"
	"fmt"
	"math"

	"detent/tuning/unit"
)

// Spectrum is the roughness of a road: its one-sided displacement spectrum
// G_d(n0) at n0 = 0.1 cycle/m, in m³. The spectrum is G_d(n) = G_d(n0)·(n/n0)⁻².
type Spectrum float64

// reference is the spatial frequency n0 of ISO 8608, in cycle/m.
const reference = 0.1

// Class returns the geometric mean spectrum of a road class of ISO 8608, "A"
// (smooth) to "H": 16e-6·4^i m³.
func Class(letter string) (Spectrum, error) {
	if len(letter) != 1 || letter[0] < 'A' || letter[0] > 'H' {
		return 0, fmt.Errorf("a road class is one letter from A to H, not %q", letter)
	}
	return Spectrum(16e-6 * math.Pow(4, float64(letter[0]-'A'))), nil
}

// Class returns the letter of the class the road falls into. Each class reaches
// from half its mean to twice its mean; what is smoother than A counts as A and
// what is rougher than H as H.
func (s Spectrum) Class() (string, error) {
	if err := unit.Positive("road spectrum", s); err != nil {
		return "", err
	}
	step := math.Floor(math.Log2(float64(s)/8e-6) / 2)
	return string(rune('A' + int(min(max(step, 0), 7)))), nil
}

// Road is a rough road driven at a steady speed.
type Road struct {
	Spectrum Spectrum
	Speed    unit.Speed
}

// Check returns an error naming the first figure that is not physical.
func (r Road) Check() error {
	return cmp.Or(unit.Positive("road spectrum", r.Spectrum), unit.Positive("speed", r.Speed))
}

// VelocitySpectrum is the one-sided spectrum of the road's slope,
// (2π·n0)²·G_d(n0), in m: the same at every spatial frequency.
func (s Spectrum) VelocitySpectrum() float64 {
	return math.Pow(2*math.Pi*reference, 2) * float64(s)
}

// intensity is S in E[w(t)·w(t+τ)] = S·δ(τ), the white noise that the road's
// vertical velocity w is at a steady speed: 2π²·n0²·G_d(n0)·v, in m²/s.
func (r Road) intensity() float64 {
	return r.Spectrum.VelocitySpectrum() / 2 * float64(r.Speed)
}
