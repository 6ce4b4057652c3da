package localpg

import (
	"bytes"
	"encoding/binary"
	"io"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// state is what a server that may run says of itself.
type state string

const (
	ready    state = "ready"    // takes connections
	busy     state = "busy"     // starting or recovering: it will take them
	stopping state = "stopping" // will be gone, unless it is stuck
	silent   state = "silent"   // says nothing, or is not there
)

// state asks the server with a real connection. What the socket grants alone
// proves nothing: the last children of a killed server accept connections, and
// a recovering server answers the question whether it encrypts.
func (c cluster) state() state {
	_, phase := c.postmaster()
	switch phase {
	case "ready", "standby":
	case "stopping":
		return stopping
	case "starting":
		return busy
	default:
		return silent
	}
	conn, err := net.Dial("unix", filepath.Join(c.sockets, ".s.PGSQL."+port))
	if err != nil {
		return silent
	}
	defer conn.Close()
	conn.SetDeadline(time.Now().Add(c.waits.answer))
	if _, err := conn.Write(greeting); err != nil {
		return silent
	}
	return judge(conn)
}

// judge reads the server's first message. The rest is read until the server
// hangs up: it would note in its log that a client left early.
func judge(conn io.Reader) state {
	said := silent
	var head [5]byte // the kind of the message, and its length without the kind
	if _, err := io.ReadFull(conn, head[:]); err != nil {
		return silent
	}
	length := binary.BigEndian.Uint32(head[1:])
	switch head[0] {
	case 'R': // a question for authentication, or word that none is needed
		said = ready
	case 'E':
		const longest = 1 << 16 // a server that cannot fork answers with bare text here
		if length < 4 || length > longest {
			return silent
		}
		fields := make([]byte, length-4)
		if _, err := io.ReadFull(conn, fields); err != nil {
			return silent
		}
		said = complained(fields)
	default:
		return silent
	}
	io.Copy(io.Discard, conn)
	return said
}

// complained judges an error by its code. 57P03 is cannot_connect_now, 57P01
// and 57P02 are a shutdown and a crash. Whoever complains of anything else, of
// too many connections say, is at work.
func complained(fields []byte) state {
	for field := range bytes.SplitSeq(fields, []byte{0}) {
		switch string(field) {
		case "C57P03", "C57P01", "C57P02":
			return busy
		}
	}
	return ready
}

// greeting is a StartupMessage of protocol 3.0, and a Terminate after it, so
// that the server hangs up by itself.
var greeting = func() []byte {
	var body []byte
	for _, word := range []string{"user", superuser, "database", "postgres", "application_name", "detent", ""} {
		body = append(append(body, word...), 0)
	}
	message := binary.BigEndian.AppendUint32(nil, uint32(8+len(body)))
	message = binary.BigEndian.AppendUint32(message, 3<<16)
	return append(append(message, body...), 'X', 0, 0, 0, 4)
}()

// gone reports whether no process of the server is left.
func (c cluster) gone() bool {
	alive, err := openLock(c.path("alive"))
	if err != nil {
		return false
	}
	defer alive.Close()
	free, err := tryLock(alive, shared)
	return err == nil && free
}

func (c cluster) pidFile() string { return filepath.Join(c.data(), "postmaster.pid") }

// postmaster reads what the server writes of itself: its process number in the
// first line, its phase in the eighth. They are zero where they are not known.
func (c cluster) postmaster() (pid int, phase string) {
	text, err := os.ReadFile(c.pidFile())
	if err != nil {
		return 0, ""
	}
	lines := strings.Split(string(text), "\n")
	pid, _ = strconv.Atoi(lines[0])
	if len(lines) >= 8 {
		phase = strings.TrimSpace(lines[7])
	}
	return pid, phase
}
