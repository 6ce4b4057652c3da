package say

import (
	"fmt"
	"strings"

	"detent/tuning"
	"detent/tuning/unit"
)

// Feel says how a car felt, and what was measured with it, after ": ", or ""
// where only the grip was marked.
func Feel(f tuning.Feel, imperial bool) string {
	var parts []string
	for _, m := range []struct {
		where string
		mark  *int
	}{{"entry", f.Entry}, {"mid", f.Mid}, {"exit", f.Exit}} {
		if m.mark != nil {
			parts = append(parts, m.where+" "+Mark(*m.mark))
		}
	}
	if f.Hop != nil {
		parts = append(parts, map[bool]string{true: "hops", false: "no hop"}[*f.Hop])
	}
	switch f.Better {
	case tuning.BetterYes:
		parts = append(parts, "better than before")
	case tuning.BetterNo:
		parts = append(parts, "worse than before")
	case tuning.BetterSame:
		parts = append(parts, "the same as before")
	}
	if f.Lap > 0 {
		parts = append(parts, "lap "+unit.ShowLap(f.Lap))
	}
	parts = append(parts, measured(f, imperial)...)
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, ", ")
}

// Mark says a balance mark in words, so that no sign needs explaining.
func Mark(mark int) string {
	switch {
	case mark < 0:
		return fmt.Sprintf("pushes wide %d", -mark)
	case mark > 0:
		return fmt.Sprintf("comes round %d", mark)
	}
	return "neutral"
}
