package chart

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

var keep = flag.Bool("keep", false, "leave the pictures in the temporary folder to be looked at")

// drawing is either kind of chart.
type drawing interface {
	Draw(io.Writer) error
	Alt() string
}

// window has its best in the middle of so many clicks.
func window(name string, clicks, best, today int, fromHard bool) Window {
	w := Window{Scale: Scale{Name: name, Clicks: clicks, FromHard: fromHard}, Today: today}
	for click := range clicks + 1 {
		off := float64(click-best) / float64(clicks)
		w.Grip = append(w.Grip, ride.Grip{Index: unit.Ratio(0.93 * (1 - 0.08*off*off))})
	}
	w.Best, w.From, w.To = best, max(0, best-clicks/4), min(clicks, best+clicks/4)
	return w
}

func windows() Windows {
	return Windows{Title: "Blue hatch, bumpy track", Axles: []Window{window("Front bump", 30, 14, 5, true), window("Rear bump", 12, 7, 7, false)}}
}

func ratios() Ratios {
	line := func(name string, from, to float64) Line {
		l := Line{Name: name, Today: 5}
		for click := range 17 {
			l.Values = append(l.Values, from+(to-from)*float64(click)/16)
		}
		return l
	}
	return Ratios{Title: "Blue hatch", Axles: []RatioAxle{
		{Scale{Name: "Front", Clicks: 16}, []Line{line("bump, low speed", 0.17, 0.67), line("bump, high speed", 0.08, 0.3), line("rebound, low speed", 0.33, 1.33), line("rebound, high speed", 0.15, 0.6)}},
		{Scale{Name: "Rear", Clicks: 16}, []Line{line("bump, low speed", 0.5, 0.5), line("rebound, low speed", 1, 1)}},
	}}
}

// drawn returns the picture as it decodes.
func drawn(t *testing.T, d drawing, name string) *image.Gray {
	t.Helper()
	var out bytes.Buffer
	if err := d.Draw(&out); err != nil {
		t.Fatal(err)
	}
	if *keep {
		path := filepath.Join(os.TempDir(), name+".png")
		if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		t.Log(path)
	}
	picture, err := png.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	grey, ok := picture.(*image.Gray)
	if !ok {
		t.Fatalf("%s is %T and not grey", name, picture)
	}
	return grey
}

// greys counts the pixels of each grey.
func greys(picture *image.Gray) (count [256]int) {
	for _, y := range picture.Pix {
		count[y]++
	}
	return count
}

func TestPicturesAreGreySquaresWithInk(t *testing.T) {
	for name, d := range map[string]drawing{"windows": windows(), "ratios": ratios()} {
		picture := drawn(t, d, name)
		if size := picture.Bounds().Size(); size != (image.Point{Side, Side}) {
			t.Errorf("%s: %v, want %d square", name, size, Side)
		}
		if dark := greys(picture)[ink.Y]; dark < 5000 {
			t.Errorf("%s: only %d pixels of ink", name, dark)
		}
	}
}

// columnOfInk is the column of the upper panel, below its curve, with the most
// ink: that of today's line.
func columnOfInk(picture *image.Gray) int {
	best, most := 0, 0
	for x := Side / 5; x < Side*97/100; x++ {
		dark := 0
		for y := Side / 8; y < Side*2/5; y++ {
			if picture.GrayAt(x, y) == ink {
				dark++
			}
		}
		if dark > most {
			best, most = x, dark
		}
	}
	return best
}

// The vertical axis never magnifies a tenth of a per cent, and is one for both
// panels.
func TestAxisIsTall(t *testing.T) {
	flat := window("Front bump", 30, 14, 5, true)
	for i := range flat.Grip {
		flat.Grip[i].Index = 0.9 + unit.Ratio(i%2)*1e-4
	}
	p, err := flat.panel(100 - tall)
	if err != nil {
		t.Fatal(err)
	}
	if p.Y.Max-p.Y.Min < 2 {
		t.Errorf("the axis goes from %g to %g", p.Y.Min, p.Y.Max)
	}
}

// Greys against what they stand on, by the usual measure of contrast (WCAG 2:
// 3:1 for what carries meaning, 4.5:1 for words).
func TestContrast(t *testing.T) {
	light := func(c color.Gray) float64 {
		v := float64(c.Y) / 255
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	contrast := func(a, b color.Gray) float64 {
		dark, bright := light(a), light(b)
		if dark > bright {
			dark, bright = bright, dark
		}
		return (bright + 0.05) / (dark + 0.05)
	}
	ground := color.Gray{0xff}
	for name, c := range map[string]struct {
		on, of color.Gray
		least  float64
	}{
		"words": {ground, ink, 4.5}, "curves": {ground, ink, 3}, "curves on the window": {shade, ink, 3},
		"faint curves": {ground, faint, 3}, "edge of the window": {ground, edge, 3}, "edge beside its shade": {shade, edge, 3},
	} {
		if got := contrast(c.on, c.of); got < c.least {
			t.Errorf("%s: %.1f:1, want %.1f:1", name, got, c.least)
		}
	}
}

func TestAltSaysThePicture(t *testing.T) {
	for _, c := range []struct {
		alt  string
		says []string
	}{
		{windows().Alt(), []string{"Blue hatch, bumpy track", "Front bump", "window 23 to 9, best at 16", "today 25", "clicks from hard", "Rear bump", "today 7", "clicks from soft"}},
		{ratios().Alt(), []string{"damping ratio by click", "Front rebound, low speed: 0.33 to 1.33", "Rear bump, low speed: 0.50 to 0.50"}},
	} {
		for _, want := range c.says {
			if !strings.Contains(c.alt, want) {
				t.Errorf("%q does not say %q", c.alt, want)
			}
		}
	}
	long := ratios()
	for len(long.Axles) < 20 {
		long.Axles = append(long.Axles, long.Axles[0])
	}
	if n := utf8.RuneCountInString(long.Alt()); n != MaxAlt || !strings.HasSuffix(long.Alt(), "…") {
		t.Errorf("an alt text of %d characters", n)
	}
}

func TestNothingToDraw(t *testing.T) {
	nan, past, hole := windows(), windows(), ratios()
	nan.Axles[1].Grip[3].Index = unit.Ratio(math.NaN())
	past.Axles[0].Today = 31
	hole.Axles[0].Lines[2].Values[0] = math.Inf(1)
	for name, d := range map[string]drawing{"no window": Windows{}, "no ratios": Ratios{}, "a window of no number": nan, "a ratio of no number": hole, "a click past the stop": past} {
		var out bytes.Buffer
		if err := d.Draw(&out); err == nil || out.Len() > 0 {
			t.Errorf("%s: error %v after %d bytes", name, err, out.Len())
		}
	}
}

func TestTicksAreInTheMembersCounting(t *testing.T) {
	for _, c := range []struct {
		scale Scale
		want  string
	}{
		{Scale{Clicks: 4}, "0=0 1=1 2=2 3=3 4=4"},
		{Scale{Clicks: 4, FromHard: true}, "0=4 1=3 2=2 3=1 4=0"},
		{Scale{Clicks: 16, FromHard: true}, "0=16 2=14 4=12 6=10 8=8 10=6 12=4 14=2 16=0"},
	} {
		var got []string
		for _, tick := range c.scale.Ticks(0, 0) {
			got = append(got, fmt.Sprintf("%g=%s", tick.Value, tick.Label))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%+v: %v, want %s", c.scale, got, c.want)
		}
	}
	if n := len(Scale{Clicks: 99}.Ticks(0, 0)); n > 14 {
		t.Errorf("%d numbers under 99 clicks", n)
	}
}

func BenchmarkWindows(b *testing.B) {
	for b.Loop() {
		if err := windows().Draw(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
