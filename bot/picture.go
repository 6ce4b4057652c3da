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

// WithPage adds a chart to the reply, and a PDF that write makes with the chart's
// PNG in it; png is nil where the chart could not be drawn.
func (r Reply) WithPage(name string, d Drawing, write func(png []byte, pdf io.Writer) error) (Reply, error) {
	var png []byte
	if r.Picture = PictureOf(d); r.Picture != nil {
		png = r.Picture.PNG
	}
	var pdf bytes.Buffer
	err := write(png, &pdf)
	r.Files = []File{{Name: name, Type: "application/pdf", Data: pdf.Bytes()}}
	return r, err
}
