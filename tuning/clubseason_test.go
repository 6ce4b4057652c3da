package tuning

import "testing"

func TestEnoughToTell(t *testing.T) {
	for s, told := range map[Sample]bool{{9, 3, 3}: true, {9, 3, 2}: false, {9, 2, 3}: false, {}: false, {3, 4, 5}: true} {
		if s.Told() != told {
			t.Errorf("%+v: told is %v", s, s.Told())
		}
	}
}
