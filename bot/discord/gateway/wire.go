package gateway

import (
	"context"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"github.com/gorilla/websocket"
)

// wire carries messages between the client library and the platform. It shows
// the library only messages that it survives. It ends a connection whose last
// beat was not acknowledged when the next is due, and one that the platform asks
// to end, because the library would stay or lock itself up. A connection that
// ends here without a goodbye can be resumed.
type wire struct {
	s        *session
	up, down *websocket.Conn // the platform, the library
	asked    atomic.Bool     // the platform asked for a beat out of turn
	unheard  atomic.Bool     // the last beat is not acknowledged
	greeted  atomic.Bool     // READY or RESUMED went to the library
	once     sync.Once
}

// Why a wire ended.
var (
	errDeaf      = errors.New("heartbeats are not acknowledged any more")
	errReconnect = errors.New("the gateway asks to connect anew")
	errInvalid   = errors.New("the gateway ended the session")
	errLeft      = errors.New("the connection is given up")
)

// writing is how long a message may take to be written.
const writing = 10 * time.Second

// serve answers the library's handshake at the far end of its pipe.
func (s *session) serve(scheme string, far net.Conn) {
	handler := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { s.carry(w, r, scheme) })
	server := &http.Server{Handler: handler, ReadHeaderTimeout: writing, ErrorLog: log.New(io.Discard, "", 0)}
	server.Serve(&oneConn{conn: far}) // ends after the one connection, which the wire has taken over by then
}

// carry connects to the platform, then lets the library in, and carries between
// them until one has left.
func (s *session) carry(w http.ResponseWriter, r *http.Request, scheme string) {
	dialer := websocket.Dialer{HandshakeTimeout: 20 * time.Second}
	up, _, err := dialer.DialContext(s.ctx, scheme+"://"+r.Host+r.RequestURI, nil)
	if err != nil {
		s.ended(err)
		http.Error(w, "the gateway cannot be reached", http.StatusBadGateway)
		return
	}
	defer up.Close()
	up.SetReadLimit(maxMessage)
	upgrader := websocket.Upgrader{}
	down, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		s.ended(err)
		return
	}
	down.SetCloseHandler(func(int, string) error { return nil }) // the library does not read the answer
	s.begun()
	v := &wire{s: s, up: up, down: down}
	stop := context.AfterFunc(s.ctx, func() { v.end(errLeft) })
	defer stop()
	var both sync.WaitGroup
	both.Go(v.carryUp)
	both.Go(v.carryDown)
	both.Wait()
}

// end ends the wire, once, and notes why.
func (v *wire) end(why error) {
	v.once.Do(func() {
		v.s.ended(why)
		v.up.Close()
		v.down.Close()
	})
}

// carryUp passes on what the library says.
func (v *wire) carryUp() {
	for {
		kind, data, err := v.down.ReadMessage()
		if err != nil {
			if v.s.leaving.Load() {
				goodbye := websocket.FormatCloseMessage(websocket.CloseNormalClosure, "")
				v.up.WriteControl(websocket.CloseMessage, goodbye, time.Now().Add(time.Second))
			}
			v.end(errLeft)
			return
		}
		if f, err := readFrame(kind, data); err == nil && f.Op == opBeat && !v.asked.Swap(false) && v.unheard.Swap(true) {
			v.end(errDeaf)
			return
		}
		v.up.SetWriteDeadline(time.Now().Add(writing))
		if err := v.up.WriteMessage(kind, data); err != nil {
			v.end(err)
			return
		}
	}
}

// carryDown passes on what the platform says, after sift.
func (v *wire) carryDown() {
	for {
		kind, data, err := v.up.ReadMessage()
		if err != nil {
			v.closed(err)
			return
		}
		f, err := readFrame(kind, data)
		if err != nil {
			v.strange("unreadable", err)
			continue
		}
		f, pass, err := v.sift(f)
		if err != nil {
			v.end(err)
			return
		}
		if !pass {
			continue
		}
		v.down.SetWriteDeadline(time.Now().Add(writing))
		if err := v.down.WriteMessage(websocket.TextMessage, f.text()); err != nil {
			v.end(err)
			return
		}
	}
}

// sift decides what becomes of one message: passed on, dropped, or the end of
// the wire.
func (v *wire) sift(f frame) (out frame, pass bool, end error) {
	switch f.Op {
	case opHello:
		if f.interval() <= 0 {
			return f, false, errStrange
		}
		return f, true, nil
	case opAck:
		v.unheard.Store(false)
		return f, v.greeted.Load(), nil // before READY it would lock the library up
	case opBeat:
		v.asked.Store(true)
		return f, true, nil
	case opReconnect:
		return f, false, errReconnect
	case opInvalid:
		if string(f.Data) != "true" {
			v.s.over.Store(true)
		}
		return f, false, errInvalid
	case opEvent:
		return v.siftEvent(f)
	}
	return f, false, nil
}

func (v *wire) siftEvent(f frame) (out frame, pass bool, end error) {
	out, fits := f.bearable()
	if !fits {
		v.strange(f.Type, errStrange)
	}
	switch f.Type {
	case readyEvent:
		if !fits {
			return out, false, errStrange
		}
		v.s.known.Store(true)
		v.greeted.Store(true)
	case resumedEvent:
		v.greeted.Store(true)
	}
	return out, true, nil
}

// strange counts what cannot be handled, and goes on.
func (v *wire) strange(event string, err error) {
	v.s.g.Broken(event)
	v.s.g.Log.Warn("the gateway sent what cannot be handled", "event", event, "err", err)
}

// closed ends the wire as the platform did, so that the library learns the code.
func (v *wire) closed(why error) {
	if c, ok := errors.AsType[*websocket.CloseError](why); ok && c.Code >= 4000 {
		if anew[c.Code] {
			v.s.over.Store(true)
		}
		v.down.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(c.Code, ""), time.Now().Add(time.Second))
	}
	v.end(why)
}

// anew are the codes after which a session has to be begun anew: of a sequence
// number that is wrong, and of a session that timed out.
var anew = map[int]bool{4007: true, 4009: true}

// oneConn is a listener that has one connection to give.
type oneConn struct{ conn net.Conn }

func (l *oneConn) Accept() (net.Conn, error) {
	if l.conn == nil {
		return nil, io.EOF
	}
	conn := l.conn
	l.conn = nil
	return conn, nil
}

func (l *oneConn) Close() error   { return nil }
func (l *oneConn) Addr() net.Addr { return &net.UnixAddr{Name: "pipe", Net: "unix"} }
