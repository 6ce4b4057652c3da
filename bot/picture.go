package bot

import (
	"bytes"
	"io"
)

// Drawing is a chart with its words for those who cannot see it.
type Drawing interface {
	Draw(out io.Writer) error
	Alt() string
}

// PictureOf draws a chart; where that fails it returns nil, and the words of the
// reply stand alone.
func PictureOf(d Drawing) *Picture {
	var png bytes.Buffer
	if err := d.Draw(&png); err != nil {
		return nil
	}
	return &Picture{Alt: d.Alt(), Type: "image/png", PNG: png.Bytes()}
}
