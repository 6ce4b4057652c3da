package say

import (
	"testing"

	"detent/tuning/tuningtest"
)

func TestChecks(t *testing.T) { tuningtest.SaysEach(t, "../../tuning", checks) }
