package sheet

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image/png"

	"codeberg.org/go-pdf/fpdf"
)

// picture draws a picture and goes below it. It is as wide as its place, and
// shrinks with the letters of a full page. What is no PNG leaves nothing.
func (n *pen) picture(data []byte, x, w float64) {
	if len(data) == 0 {
		return
	}
	size, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil || size.Width == 0 {
		return
	}
	w *= min(1, n.scale)
	tall := w * float64(size.Height) / float64(size.Width)
	if !n.dry {
		sum := sha256.Sum256(data)
		name, options := hex.EncodeToString(sum[:8]), fpdf.ImageOptions{ImageType: "PNG"}
		n.pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(data))
		n.pdf.ImageOptions(name, x, n.y, w, tall, false, options, 0, "")
	}
	n.y += tall
}
