package gateway

import (
	"bytes"
	"compress/zlib"
	"encoding/json"
	"errors"
	"io"

	"github.com/gorilla/websocket"
)

// The operations of the gateway that the wire looks at.
const (
	opEvent     = 0
	opBeat      = 1 // a heartbeat; from the platform: send one
	opReconnect = 7
	opInvalid   = 9
	opHello     = 10
	opAck       = 11
)

// The events that the bot handles; it has asked for few others.
const (
	readyEvent       = "READY"
	resumedEvent     = "RESUMED"
	interactionEvent = "INTERACTION_CREATE"
	guildEvent       = "GUILD_CREATE"
	removalEvent     = "GUILD_DELETE"
)

// frame is one message of the gateway.
type frame struct {
	Op   int             `json:"op"`
	Data json.RawMessage `json:"d"`
	Seq  int64           `json:"s"`
	Type string          `json:"t"`
}

// maxMessage is the largest message that is read, in bytes.
const maxMessage = 64 << 20

var errStrange = errors.New("the gateway sent a message that breaks its own form")

// readFrame reads a message, compressed or not.
func readFrame(kind int, data []byte) (frame, error) {
	if kind == websocket.BinaryMessage {
		z, err := zlib.NewReader(bytes.NewReader(data))
		if err != nil {
			return frame{}, err
		}
		defer z.Close()
		if data, err = io.ReadAll(io.LimitReader(z, maxMessage)); err != nil {
			return frame{}, err
		}
	}
	var f *frame
	if err := json.Unmarshal(data, &f); err != nil {
		return frame{}, err
	}
	if f == nil {
		return frame{}, errStrange
	}
	return *f, nil
}

// text writes a frame as the library reads it.
func (f frame) text() []byte {
	data, err := json.Marshal(f)
	if err != nil {
		panic(err) // its data was read as JSON
	}
	return data
}

// interval is how often the platform wants a heartbeat, in milliseconds; the
// library would not survive 0.
func (f frame) interval() int {
	var hello struct {
		Interval int `json:"heartbeat_interval"`
	}
	if json.Unmarshal(f.Data, &hello) != nil {
		return 0
	}
	return hello.Interval
}

// bare is the event without its data. The library needs its number, to resume.
func (f frame) bare() frame { return frame{Op: opEvent, Seq: f.Seq, Data: json.RawMessage("null")} }

// bearable returns the event as the library may see it: of an event that the
// bot handles the fields that it reads, of any other its number alone. The
// library follows nulls deep inside an event on goroutines where nothing
// recovers. fits is false when a field that the event must have is missing.
func (f frame) bearable() (shown frame, fits bool) {
	switch f.Type {
	case readyEvent:
		var d *struct {
			Version int    `json:"v"`
			ID      string `json:"session_id"`
		}
		fits := json.Unmarshal(f.Data, &d) == nil && d != nil && d.ID != ""
		return f.with(d, fits)
	case guildEvent, removalEvent:
		var d *struct {
			ID          string `json:"id"`
			Unavailable bool   `json:"unavailable"`
		}
		fits := json.Unmarshal(f.Data, &d) == nil && d != nil && d.ID != ""
		return f.with(d, fits)
	case interactionEvent: // the library decodes it into plain values
		var d struct{ ID, Token string }
		if json.Unmarshal(f.Data, &d) != nil || d.ID == "" || d.Token == "" {
			return f.bare(), false
		}
		return f, true
	case resumedEvent:
		return f.with(struct{}{}, true)
	}
	return f.bare(), true
}

func (f frame) with(data any, fits bool) (frame, bool) {
	if !fits {
		return f.bare(), false
	}
	text, err := json.Marshal(data)
	f.Data = text
	return f, err == nil
}
