package ride

import (
	"cmp"
	"errors"
	"math"
	"math/cmplx"
	"slices"

	"gonum.org/v1/gonum/mat"

	"detent/tuning/unit"
)

// Mode is one free motion of a corner with a linear damper: a pair of complex
// eigenvalues, or a single real one, which has the ratio 1.
type Mode struct {
	Frequency unit.Frequency // |λ|/2π
	Ratio     unit.Ratio     // −Re λ/|λ|
}

// system is the matrix A of ẋ = A·x + B·ż_r for the state
// x = [z_s−z_u, ż_s, z_u−z_r, ż_u], row by row.
func (c Corner) system(damping unit.Damping) *mat.Dense {
	ms, mu, kw, kt := c.numbers()
	cs := float64(damping)
	return mat.NewDense(4, 4, []float64{
		0, 1, 0, -1,
		-kw / ms, -cs / ms, 0, cs / ms,
		0, 0, 0, 1,
		kw / mu, cs / mu, -kt / mu, -cs / mu,
	})
}

// Modes returns the exact modes of the corner with a linear damper, slowest
// first: two when both swing, three when the damping is stiff enough for the
// wheel to have two real roots.
func (c Corner) Modes(damping unit.Damping) ([]Mode, error) {
	if err := cmp.Or(c.Check(), unit.Positive("damping", damping)); err != nil {
		return nil, err
	}
	var eigen mat.Eigen
	if !eigen.Factorize(c.system(damping), mat.EigenNone) {
		return nil, errors.New("the eigenvalues of this corner cannot be found")
	}
	var modes []Mode
	for _, root := range eigen.Values(nil) {
		if imag(root) < 0 { // the other of a pair
			continue
		}
		size := cmplx.Abs(root)
		modes = append(modes, Mode{
			Frequency: unit.Frequency(size / (2 * math.Pi)),
			Ratio:     unit.Ratio(-real(root) / size),
		})
	}
	slices.SortFunc(modes, func(a, b Mode) int { return cmp.Compare(a.Frequency, b.Frequency) })
	return modes, nil
}
