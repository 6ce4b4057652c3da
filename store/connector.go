package store

import (
	"context"
	"database/sql/driver"
	"errors"
	"fmt"
	"net"
	"strings"
	"time"

	"github.com/lib/pq"
)

// silence is how long the server may keep a statement waiting without a word.
// Then the connection is given up: a machine that has vanished never answers,
// and the kernel would wait for it for many minutes.
const silence = 20 * time.Second

// connector connects as lib/pq does, and marks what it refuses because it can
// only be read.
type connector struct{ *pq.Connector }

// errStandby says that a server answers but takes no writes.
var errStandby = errors.New("no server that can be written to")

func (c connector) Connect(ctx context.Context) (driver.Conn, error) {
	conn, err := c.Connector.Connect(ctx)
	if err == nil {
		return conn, nil
	}
	// lib/pq has no type for these, and these words (conn.go, checkTSA).
	for _, words := range []string{"session is read-only", "server is in hot standby mode"} {
		if strings.Contains(err.Error(), words) {
			return nil, fmt.Errorf("%w: %w", errStandby, err)
		}
	}
	return nil, err
}

// dialer dials connections that do not wait for ever.
type dialer struct {
	net.Dialer
	silence time.Duration
}

func (d *dialer) Dial(network, address string) (net.Conn, error) {
	return d.DialContext(context.Background(), network, address)
}

func (d *dialer) DialTimeout(network, address string, timeout time.Duration) (net.Conn, error) {
	ctx, cancel := context.WithTimeout(context.Background(), timeout)
	defer cancel()
	return d.DialContext(ctx, network, address)
}

func (d *dialer) DialContext(ctx context.Context, network, address string) (net.Conn, error) {
	conn, err := d.Dialer.DialContext(ctx, network, address)
	if err != nil {
		return nil, err
	}
	return &impatientConn{Conn: conn, silence: d.silence}, nil
}

// impatientConn fails a read that nothing comes to within silence. lib/pq reads
// only when it waits for an answer.
type impatientConn struct {
	net.Conn
	silence time.Duration
	bounded bool // lib/pq has set a deadline of its own, for connecting
}

func (c *impatientConn) SetDeadline(t time.Time) error {
	c.bounded = !t.IsZero()
	return c.Conn.SetDeadline(t)
}

func (c *impatientConn) Read(p []byte) (int, error) {
	if !c.bounded {
		if err := c.Conn.SetReadDeadline(time.Now().Add(c.silence)); err != nil {
			return 0, err
		}
	}
	return c.Conn.Read(p)
}
