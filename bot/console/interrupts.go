package console

import "io"

// The keys that matter here, as a terminal sends them.
const (
	ctrlC     = 3
	ctrlD     = 4 // ends the input where the line is empty
	lineEnd   = 5
	dropStart = 21 // drops what stands before the cursor
)

// interrupts reads a terminal's keys and makes Ctrl-C drop the line that is
// being typed, which the line editor takes for the end of the input. Pressed
// twice with nothing between it is the end.
type interrupts struct {
	in      io.Reader
	dropped func() // told of the first of two
	pending []byte
	once    bool
}

// Read implements io.Reader.
func (i *interrupts) Read(p []byte) (int, error) {
	if len(i.pending) == 0 {
		buffer := make([]byte, max(1, len(p)))
		n, err := i.in.Read(buffer)
		i.pending = i.translate(buffer[:n])
		if err != nil {
			return i.give(p), err
		}
	}
	return i.give(p), nil
}

func (i *interrupts) give(p []byte) int {
	n := copy(p, i.pending)
	i.pending = i.pending[n:]
	return n
}

func (i *interrupts) translate(keys []byte) []byte {
	var out []byte
	for _, key := range keys {
		if key != ctrlC {
			i.once = false
			out = append(out, key)
			continue
		}
		out = append(out, lineEnd, dropStart)
		if i.once {
			out = append(out, ctrlD)
		} else if i.dropped != nil {
			i.dropped()
		}
		i.once = true
	}
	return out
}
