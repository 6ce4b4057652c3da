package unit

import (
	"errors"
	"math"
	"testing"
)

func TestNumber(t *testing.T) {
	for text, want := range map[string]float64{
		"0.95": 0.95, "0,95": 0.95, "12": 12, " -2 ": -2, "+3": 3, "1.25e3": 1250, "1,25e3": 1250, "1,250e3": 1250, "0,955": 0.955,
		"1,2501": 1.2501, ",5": 0.5, "-0,125": -0.125, "1234,567": 1234.567, "1.250": 1.25,
	} {
		if got, err := Number(text); err != nil || got != want {
			t.Errorf("Number(%q) = %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "kg", "1 2", "1,2,3", "1,", "1,2.3", "1.2.3", "nan", "inf", "1e309", "0x10", "1_000", "--1"} {
		if got, err := Number(text); err == nil {
			t.Errorf("Number(%q) = %v, want a refusal", text, got)
		}
	}
	_, err := Number("-1,250")
	var ambiguous *Ambiguous
	if !errors.As(err, &ambiguous) || ambiguous.Decimal != "-1.250" || ambiguous.Thousands != "-1250" {
		t.Errorf("Number(-1,250): %v", err)
	}
}

// What is read is finite, and either reading of an ambiguous number is plain.
func FuzzNumber(f *testing.F) {
	for _, s := range []string{"0,95", "1,250", "1e5", "-,5", "1,2e3,4", "e", "1e+"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := Number(text)
		var ambiguous *Ambiguous
		switch {
		case errors.As(err, &ambiguous):
			decimal, err := Number(ambiguous.Decimal)
			thousands, wrong := Number(ambiguous.Thousands)
			if err != nil || wrong != nil || math.Abs(thousands-1000*decimal) > 1e-6*math.Abs(thousands) {
				t.Errorf("%q could be %v (%v) or %v (%v)", text, decimal, err, thousands, wrong)
			}
		case err == nil && (math.IsInf(v, 0) || math.IsNaN(v)):
			t.Errorf("Number(%q) = %v", text, v)
		}
	})
}
