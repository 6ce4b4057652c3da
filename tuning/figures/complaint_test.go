package figures

import (
	"slices"
	"testing"

	"detent/tuning"
)

// unmeasured are the complaints that nothing in the model measures: it has no yaw
// and no driver.
var unmeasured = []tuning.What{tuning.SlowTurnIn, tuning.Nervous, tuning.OneSided}

// TestEveryComplaintIsMeasuredOrSaidNotToBe fails for a new complaint until asks
// has a measure of it, or it is named above.
func TestEveryComplaintIsMeasuredOrSaidNotToBe(t *testing.T) {
	car := tuning.Car{Drive: tuning.RearDrive}
	for _, w := range tuning.Whats {
		for _, where := range places(w.What) {
			for axle := range tuning.Axle(tuning.Axles) {
				a, ok := asks(tuning.Complaint{What: w.What, Where: where}, car, []tuning.Axle{axle}, true)
				if ok == slices.Contains(unmeasured, w.What) {
					t.Errorf("%s %s: measured %v", w.What, where, ok)
				}
				if ok && (a.wanted != 1 && a.wanted != -1 || a.counts < Balance || a.counts > Mechanism) {
					t.Errorf("%s %s at the %s: %+v", w.What, where, axle, a)
				}
			}
		}
	}
}

func TestWhatWheelspinAsks(t *testing.T) {
	for drive, want := range map[tuning.Drive]tuning.Axle{tuning.FrontDrive: tuning.Front, tuning.RearDrive: tuning.Rear, tuning.FourDrive: tuning.Rear} {
		a, ok := asks(tuning.Complaint{What: tuning.Wheelspin}, tuning.Car{Drive: drive}, []tuning.Axle{tuning.Rear}, false)
		if !ok || a.gains != want || !a.one || a.mechanism != Squat {
			t.Errorf("%s drive: %+v", drive, a)
		}
	}
}
