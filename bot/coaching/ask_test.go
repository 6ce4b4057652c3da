package coaching_test

import (
	"testing"

	"detent/tuning"
)

func TestCoachingIsAskedAcceptedAndEnded(t *testing.T) {
	wall, kim, robin := newPitwall(t)
	robin.Refused(tuning.Forbidden, "coaches", `/coach ask member:kim`)
	kim.Refused(tuning.Invalid, "cannot coach yourself", `/coach ask member:kim`)
	robin.Refused(tuning.NotFound, "has not offered", `/coach accept member:kim`)
	kim.Does(`/coach ask member:robin`)
	kim.Refused(tuning.Conflict, "waits to be accepted", `/coach ask member:robin`)
	kim.Refused(tuning.NotFound, "robin has not offered to coach you", `/coach accept member:robin`) // nobody accepts their own offer
	robin.Does(`/coach accept member:kim`)
	robin.Refused(tuning.Conflict, "is your coach already", `/coach accept member:kim`)
	kim.Refused(tuning.Conflict, "coach and student already", `/coach ask member:robin`)
	if wall.due["0 kim"] != 1 {
		t.Errorf("a coach with a student has a weekly digest due: %v", wall.due)
	}
	robin.Does(`/coach end member:kim`)
	if wall.due["0 kim"] != 0 || wall.ties[0].Ended.IsZero() {
		t.Errorf("after the end: %v, %+v", wall.due, wall.ties[0])
	}
	robin.Refused(tuning.NotFound, "no coaching between you", `/coach end member:kim`)
}
