package typeset

import (
	"sync"
	"testing"
)

// TestManyAtOnce shapes the same text in several places at the same time, as
// members who ask together do; the race detector watches.
func TestManyAtOnce(t *testing.T) {
	const text = "Blue רכב 12 سيارة 車 कि 가"
	want := Set(text, Bold).Width
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 20 {
				if got := Set(text, Bold).Width; got != want {
					t.Errorf("%.4f em wide, want %.4f", got, want)
				}
			}
		})
	}
	all.Wait()
}

// TestSpacesAreNarrow: the font of Han has no space of its own.
func TestSpacesAreNarrow(t *testing.T) {
	apart, together := Set("车 车", Regular).Width, Set("车车", Regular).Width
	if space := apart - together; space < 0.2 || space > 0.35 {
		t.Errorf("a space between Han letters is %.2f em", space)
	}
}
