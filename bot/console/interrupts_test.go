package console

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"golang.org/x/term"
)

// Ctrl-C drops the line that is being typed, and twice leaves.
func TestInterrupts(t *testing.T) {
	for _, reader := range []func(io.Reader) io.Reader{func(r io.Reader) io.Reader { return r }, iotest.OneByteReader, iotest.DataErrReader} {
		drops := 0
		keys := &interrupts{in: reader(strings.NewReader("half a line\x03/log\rmore\x03x\x03\x03/never read\r")), dropped: func() { drops++ }}
		screen := term.NewTerminal(struct {
			io.Reader
			io.Writer
		}{keys, io.Discard}, prompt)
		if line, err := screen.ReadLine(); line != "/log" || err != nil {
			t.Errorf("read is %q, %v", line, err)
		}
		if line, err := screen.ReadLine(); line != "" || !errors.Is(err, io.EOF) {
			t.Errorf("pressed twice it reads %q, %v", line, err)
		}
		if drops != 3 {
			t.Errorf("dropped %d times", drops)
		}
	}
}
