package discordtest

import (
	"bytes"
	"compress/zlib"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// outbox is what waits to be written to one client, so that nobody waits for a
// client that does not read.
type outbox struct {
	mu      sync.Mutex
	filled  *sync.Cond
	queue   []parcel
	zipped  bool
	ending  bool
	stopped bool
}

type parcel struct {
	text   []byte
	zipped bool
	code   int // to close with, instead of a text
}

func newOutbox() *outbox {
	o := &outbox{}
	o.filled = sync.NewCond(&o.mu)
	return o
}

func (o *outbox) do(change func()) {
	o.mu.Lock()
	defer o.mu.Unlock()
	change()
	o.filled.Broadcast()
}

func (o *outbox) push(text []byte) {
	o.do(func() { o.queue = append(o.queue, parcel{text: text, zipped: o.zipped}) })
}
func (o *outbox) pushClose(code int) {
	o.do(func() { o.queue, o.ending = append(o.queue, parcel{code: code}), true })
}
func (o *outbox) compress(on bool) { o.do(func() { o.zipped = on }) }
func (o *outbox) finish()          { o.do(func() { o.stopped = true }) }

func (o *outbox) closing() (ending bool) {
	o.do(func() { ending = o.ending })
	return ending
}

// next waits for something to write; it is false when the client has left.
func (o *outbox) next() (parcel, bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	for len(o.queue) == 0 && !o.stopped {
		o.filled.Wait()
	}
	if len(o.queue) == 0 {
		return parcel{}, false
	}
	first := o.queue[0]
	o.queue = o.queue[1:]
	return first, true
}

// write sends what waits, until the client has left or was sent a close code;
// after that the client has a second to leave by itself.
func (c *connection) write() {
	defer close(c.written)
	for {
		p, more := c.out.next()
		switch {
		case !more:
			return
		case p.code != 0:
			c.conn.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(p.code, ""), time.Now().Add(time.Second))
			c.conn.SetReadDeadline(time.Now().Add(time.Second))
			return
		case p.zipped:
			c.conn.WriteMessage(websocket.BinaryMessage, deflate(p.text))
		default:
			c.conn.WriteMessage(websocket.TextMessage, p.text)
		}
	}
}

func deflate(text []byte) []byte {
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	z.Write(text)
	z.Close()
	return packed.Bytes()
}
