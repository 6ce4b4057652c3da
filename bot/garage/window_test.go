package garage_test

import (
	"strings"
	"testing"

	"detent/tuning"
)

func TestWindowIsOfTheEventsSurface(t *testing.T) {
	box, robin := newToolbox(t)
	before := robin.Does(`/window`)
	box.event = tuning.Event{ID: 7, Surface: tuning.Bumpy}
	there := robin.Does(`/window`)
	if before.Picture == nil || there.Picture == nil ||
		!strings.Contains(before.Picture.Alt, "smooth track") || !strings.Contains(there.Picture.Alt, "bumpy track") {
		t.Errorf("%+v, then %+v", before.Picture, there.Picture)
	}
	if other := button(t, there, "On a smooth track"); other != "/window surface:smooth car:#1" {
		t.Errorf("the other surface is asked by %s", other)
	}
	box.cars[0].Dampers = [tuning.Axles]tuning.Damper{}
	robin.Refused(tuning.Invalid, "/damper fit", `/window`)
}
