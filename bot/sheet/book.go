package sheet

import "io"

// WriteAll writes pages as one PDF, a sheet each in their order. There must be
// one at least.
func WriteAll(w io.Writer, pages []Page) error {
	pdf := pages[0].paper()
	for i, p := range pages {
		if i > 0 {
			pdf.AddPage()
		}
		p.draw(pdf, p.Scale())
	}
	return pdf.Output(w)
}
