package learn

import (
	"slices"
	"testing"
)

func TestOrder(t *testing.T) {
	first, second := EstimateOf(Sums{}, ClubOf(true, nil)), EstimateOf(Sums{}, ClubOf(false, nil))
	at := func(mean float64) Estimate { return Estimate{mean, 0.25} }
	for _, tt := range []struct {
		name       string
		candidates []Candidate
		answered   int
		want       []int
	}{
		{"nothing", nil, 0, nil},
		{"nothing tried", []Candidate{{Estimate: first}, {Estimate: second}}, 0, []int{0, 1}},
		{"a little better, too soon", []Candidate{{Estimate: at(0.5)}, {Estimate: at(0.6)}}, 1, []int{0, 1}},
		{"a little better after two tries", []Candidate{{Estimate: at(0.5)}, {Estimate: at(0.6)}}, 2, []int{1, 0}},
		{"surely better at once", []Candidate{{Estimate: at(0.5)}, {Estimate: at(0.7)}}, 0, []int{1, 0}}, // Φ(0.283) = 0.611
		{"not quite surely", []Candidate{{Estimate: at(0.5)}, {Estimate: at(0.67)}}, 0, []int{0, 1}},     // Φ(0.240) = 0.595
		{"equal means keep the table's order", []Candidate{{Estimate: at(0.5)}, {Estimate: at(0.5)}}, 9, []int{0, 1}},
		{"a shrunk one is judged by what is left", []Candidate{{Estimate: at(0.6).Shrunk(1.0 / 3)}, {Estimate: at(0.5)}}, 2, []int{1, 0}},
		{"felt worse last time", []Candidate{{Estimate: at(0.9), Worse: true}, {Estimate: at(0.1)}}, 5, []int{1, 0}},
		{"both felt worse", []Candidate{{Estimate: at(0.1), Worse: true}, {Estimate: at(0.9), Worse: true}}, 5, []int{1, 0}},
		{"three", []Candidate{{Estimate: at(0.1)}, {Estimate: at(0.9)}, {Estimate: at(0.5)}}, 3, []int{1, 2, 0}},
	} {
		if got := Order(tt.candidates, tt.answered); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}
