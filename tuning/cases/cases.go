// Package cases puts written questions to the vehicle model and writes its
// answers down, so that anyone can check the model's figures by hand. Names and
// units of the figures are the same on both sides: SI, radians, seconds, all at
// the wheel.
//
// A question is read strictly: the error names everything that is unknown,
// missing, given twice or not physical, all at once.
package cases

import (
	"fmt"
	"strings"
)

// Kinds are the kinds of question Run answers.
func Kinds() []string { return []string{"quarter", "car", "window", "roughness"} }

// Run answers one question: a JSON object for quarter, car and window; for
// roughness a column of elevations in m, spaced dx metres (dx is read for no
// other kind). The answer is a struct with JSON names, free of NaN and infinity.
func Run(kind string, question []byte, dx float64) (any, error) {
	switch kind {
	case "quarter":
		return quarter(question)
	case "car":
		return car(question)
	case "window":
		return window(question)
	case "roughness":
		return roughness(question, dx)
	}
	return nil, fmt.Errorf("there is no %q model, only %s", kind, strings.Join(Kinds(), ", "))
}
