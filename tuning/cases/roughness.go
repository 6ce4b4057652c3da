package cases

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Roughness is the answer about a road profile, in mm/m.
type Roughness struct {
	IRI       float64   `json:"iri"`
	Stretches []float64 `json:"iri_per_100m"`
}

// millimetres turns m/m into mm/m.
const millimetres = 1000

func roughness(question []byte, dx float64) (*Roughness, error) {
	if dx <= 0 || math.IsNaN(dx) {
		return nil, errors.New("the spacing of the elevations is needed: --dx in metres, above zero")
	}
	profile, err := readProfile(string(question))
	if err != nil {
		return nil, err
	}
	found, err := ride.IRI(profile, unit.Length(dx))
	if err != nil {
		return nil, err
	}
	answer := &Roughness{IRI: float64(found.Whole) * millimetres, Stretches: []float64{}}
	for _, stretch := range found.Stretches {
		answer.Stretches = append(answer.Stretches, float64(stretch)*millimetres)
	}
	return answer, nil
}

// readProfile reads one elevation in m a line. The first line may be a heading;
// empty lines do not count.
func readProfile(text string) ([]unit.Length, error) {
	var profile []unit.Length
	for i, line := range strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n") {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		height, err := strconv.ParseFloat(line, 64)
		switch {
		case errors.Is(err, strconv.ErrSyntax) && i == 0:
			continue
		case err != nil || math.IsNaN(height) || math.IsInf(height, 0):
			return nil, fmt.Errorf("line %d: %q is not an elevation in metres", i+1, line)
		}
		profile = append(profile, unit.Length(height))
	}
	return profile, nil
}
