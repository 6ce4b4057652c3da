package say

import "testing"

func TestChecks(t *testing.T) { saysEach(t, "../../tuning", checks) }
