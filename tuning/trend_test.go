package tuning

import "testing"

func TestTrend(t *testing.T) {
	for name, test := range map[string]struct {
		grips []int // oldest first
		wet   string
		want  Trend
	}{
		"none":                     {nil, "", ""},
		"two":                      {[]int{3, 9}, "", ""},
		"a mark a run":             {[]int{4, 5, 6, 7, 8}, "", Rising},
		"down":                     {[]int{8, 8, 7, 6, 6}, "", Falling},
		"one mark over five":       {[]int{5, 5, 5, 5, 6}, "", Level},
		"a mark for two runs":      {[]int{5, 5, 5, 6, 6}, "", Rising},
		"to and fro":               {[]int{5, 7, 5, 7, 5}, "", Level},
		"exactly one mark is none": {[]int{5, 5, 6}, "", Level},
		"three":                    {[]int{5, 6, 7}, "", Rising},
		"four":                     {[]int{7, 7, 6, 5}, "", Falling},
		"only the last five":       {[]int{1, 1, 1, 6, 6, 6, 6, 6}, "", Level},
		"a wet day between":        {[]int{6, 7, 3, 8, 8}, "..w..", Rising},
		"a wet day last":           {[]int{6, 7, 8, 8, 3}, "....w", ""},
	} {
		var feels []Feel // newest first
		for i, grip := range test.grips {
			f := Feel{Grip: grip}
			if test.wet != "" && test.wet[i] == 'w' {
				f.Conditions = ItWasWet
			}
			feels = append([]Feel{f}, feels...)
		}
		if got := TrendOf(feels); got != test.want {
			t.Errorf("%s: %q, want %q", name, got, test.want)
		}
	}
}
