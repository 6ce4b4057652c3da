package store

import (
	"errors"
	"net"
	"os"
	"testing"
	"time"
)

// A server whose machine has vanished says nothing ever again.
func TestASilentServerIsGivenUp(t *testing.T) {
	server, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer server.Close()
	conn, err := (&dialer{silence: 20 * time.Millisecond}).DialTimeout("tcp", server.Addr().String(), time.Second)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if _, err := conn.Read(make([]byte, 1)); !errors.Is(err, os.ErrDeadlineExceeded) || !lost(err) {
		t.Errorf("a silent server is waited for: %v", err)
	}
	// While it connects, lib/pq's own deadline holds, and is not put off.
	if err := conn.SetDeadline(time.Now().Add(-time.Second)); err != nil {
		t.Fatal(err)
	}
	if _, err := conn.Read(make([]byte, 1)); !errors.Is(err, os.ErrDeadlineExceeded) {
		t.Errorf("the deadline for connecting is put off: %v", err)
	}
}
