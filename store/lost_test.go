package store_test

import (
	"bytes"
	"io"
	"net"
	"net/url"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/store"
	"detent/tuning"
)

// wire is a connection to the database that can be cut: in front of what is
// sent, or behind it so that only the answer is lost.
type wire struct {
	server string // the server's socket

	mu      sync.Mutex
	down    bool
	refused int // connections while it was down
	cuts    func(message []byte) cut
	conns   []net.Conn
}

type cut int

const (
	not cut = iota
	before
	behind
)

// wired opens the record through a wire.
func wired(t *testing.T) (record, *wire) {
	t.Helper()
	r := open(t)
	u, err := url.Parse(r.url)
	must(t, err)
	query := u.Query()
	socket := ".s.PGSQL." + query.Get("port")
	w := &wire{server: filepath.Join(query.Get("host"), socket), cuts: func([]byte) cut { return not }}
	dir := t.TempDir()
	listener, err := net.Listen("unix", filepath.Join(dir, socket))
	must(t, err)
	t.Cleanup(func() { listener.Close(); w.cutAll() })
	go func() {
		for {
			client, err := listener.Accept()
			if err != nil {
				return
			}
			go w.serve(client)
		}
	}()
	query.Set("host", dir)
	u.RawQuery = query.Encode()
	r.db = openAt(t, u.String())
	return r, w
}

func (w *wire) serve(client net.Conn) {
	defer client.Close()
	server, err := net.Dial("unix", w.server)
	if err != nil || !w.add(client, server) {
		return
	}
	defer server.Close()
	go func() {
		io.Copy(client, server)
		client.Close()
	}()
	buffer := make([]byte, 1<<16)
	for {
		n, err := client.Read(buffer)
		if err != nil {
			return
		}
		w.mu.Lock()
		where := w.cuts(buffer[:n])
		w.mu.Unlock()
		if where == before {
			return
		}
		if where == behind {
			client.Close()
		}
		if _, err := server.Write(buffer[:n]); err != nil {
			return
		}
	}
}

func (w *wire) add(conns ...net.Conn) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.conns = append(w.conns, conns...)
	if w.down {
		w.refused++
	}
	return !w.down
}

// cutAt decides from now on where to cut, by what comes by on its way to the
// server.
func (w *wire) cutAt(cuts func(message []byte) cut) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.cuts = cuts
}

// setDown lets no connection through, or does again.
func (w *wire) setDown(down bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.down = down
}

// refusedSome tells whether more connections were refused than a request asks
// for at once.
func (w *wire) refusedSome() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.refused > 20
}

func (w *wire) cutAll() {
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, c := range w.conns {
		c.Close()
	}
	w.conns = nil
}

// A lost connection does not show in what is read.
func TestLostWhileReading(t *testing.T) {
	r, w := wired(t)
	r.car(sam, "Blue hatch")
	for name, lose := range map[string]func(){"cut": w.cutAll, "killed": r.killAll} {
		runs := 0
		err := r.db.Read(t.Context(), sam, morning, func(b *store.Book) error {
			if runs++; runs <= 2 {
				lose()
			}
			_, err := b.Case(t.Context(), sam.Person, "")
			return err
		})
		if err != nil || runs != 3 {
			t.Errorf("%s twice, after %d runs: %v", name, runs, err)
		}
	}
}

// Of several questions asked at once the answers are lost half way.
func TestLostBetweenAnswers(t *testing.T) {
	r, w := wired(t)
	r.car(sam, "Blue hatch")
	want := r.theCase(sam)
	for name, where := range map[string]cut{"before them": before, "behind them": behind} {
		cuts := 0
		w.cutAt(func(message []byte) cut {
			if !bytes.Contains(message, []byte("from clicks")) || cuts > 0 {
				return not
			}
			cuts++
			return where
		})
		same(t, r.theCase(sam), want)
		if cuts != 1 {
			t.Errorf("%s: cut %d times", name, cuts)
		}
	}
	// One of them the server refuses: that is what the log must say.
	r.admin.MustExec(`revoke select on feels from detent_app`)
	err := r.db.Read(t.Context(), sam, morning, func(b *store.Book) error {
		_, err := b.Case(t.Context(), sam.Person, "")
		return err
	})
	if pq.As(err, pqerror.InsufficientPrivilege) == nil {
		t.Errorf("the error is %v", err)
	}
}

// killAll ends all of the store's sessions on the server, and waits until they
// have ended.
func (r record) killAll() {
	r.Helper()
	_, err := r.admin.Exec(`
		select pg_terminate_backend(pid, 5000) from pg_stat_activity
		where datname = current_database() and pid <> pg_backend_pid()`)
	must(r.T, err)
}

func TestDownWhileReading(t *testing.T) {
	r, w := wired(t)
	w.setDown(true)
	w.cutAll()
	err := r.db.Read(t.Context(), sam, morning, func(*store.Book) error { return nil })
	wantRefusal(t, err, tuning.Unreachable)
	w.setDown(false)
	must(t, r.db.Read(t.Context(), sam, morning, func(*store.Book) error { return nil }))
}

// Nothing is saved before the commit, so it can be done again.
func TestLostWhileWriting(t *testing.T) {
	r, w := wired(t)
	runs := 0
	reply, err := r.db.Once(t.Context(), sam, morning, "a", func(b *store.Book) ([]byte, error) {
		if runs++; runs == 1 {
			w.cutAll()
		}
		_, err := b.SaveCar(t.Context(), hatch(sam, "Blue hatch"))
		return []byte("saved"), err
	})
	must(t, err)
	if string(reply) != "saved" || runs != 2 || r.count("cars") != 1 {
		t.Errorf("the reply is %q after %d runs, and there are %d cars", reply, runs, r.count("cars"))
	}
}

func isCommit(message []byte) bool { return bytes.Contains(message, []byte("; commit\x00")) }

// saveOnce saves a car under one id, however often it is called.
func (r record) saveOnce(runs *int) (string, error) {
	reply, err := r.db.Once(r.Context(), sam, morning, "a", func(b *store.Book) ([]byte, error) {
		*runs++
		_, err := b.SaveCar(r.Context(), hatch(sam, "Blue hatch"))
		return []byte("saved"), err
	})
	return string(reply), err
}

// The connection is lost at the commit and comes back: the same id settles at
// once whether it was saved.
func TestLostAtCommit(t *testing.T) {
	for name, where := range map[string]cut{"before it": before, "behind it": behind} {
		t.Run(name, func(t *testing.T) {
			r, w := wired(t)
			cuts := 0
			w.cutAt(func(message []byte) cut {
				if isCommit(message) && cuts == 0 {
					cuts++
					return where
				}
				return not
			})
			runs := 0
			reply, err := r.saveOnce(&runs)
			must(t, err)
			if reply != "saved" || r.count("cars") != 1 || cuts != 1 || runs > 2 {
				t.Errorf("the reply is %q after %d cuts and %d runs, and there are %d cars", reply, cuts, runs, r.count("cars"))
			}
		})
	}
}

// The connection is lost at the commit and does not come back: the person is
// told, and the same id settles it later.
func TestUnknownOutcome(t *testing.T) {
	for name, where := range map[string]cut{"before the commit": before, "behind the commit": behind} {
		t.Run(name, func(t *testing.T) {
			r, w := wired(t)
			w.cutAt(func(message []byte) cut {
				if !isCommit(message) {
					return not
				}
				w.down = true
				return where
			})
			r.db.SettleWithin(0)
			runs := 0
			_, err := r.saveOnce(&runs)
			wantRefusal(t, err, tuning.Undecided)
			w.cutAt(func([]byte) cut { return not })
			w.setDown(false)
			reply, err := r.saveOnce(&runs)
			must(t, err)
			if reply != "saved" || r.count("cars") != 1 || runs > 2 {
				t.Errorf("the reply is %q after %d runs, and there are %d cars", reply, runs, r.count("cars"))
			}
		})
	}
}

// The connection is lost at the commit and comes back a while later, as when a
// standby takes over: whoever asked waits, and has their answer.
func TestSettledLater(t *testing.T) {
	for name, where := range map[string]cut{"before the commit": before, "behind the commit": behind} {
		t.Run(name, func(t *testing.T) {
			r, w := wired(t)
			down := make(chan struct{})
			w.cutAt(func(message []byte) cut {
				if !isCommit(message) || w.down {
					return not
				}
				w.down = true
				close(down)
				return where
			})
			go func() {
				<-down
				for !w.refusedSome() { // until a lost connection is not tried again at once
					time.Sleep(10 * time.Millisecond)
				}
				w.cutAt(func([]byte) cut { return not })
				w.setDown(false)
			}()
			runs := 0
			reply, err := r.saveOnce(&runs)
			must(t, err)
			if reply != "saved" || r.count("cars") != 1 || runs > 2 {
				t.Errorf("the reply is %q after %d runs, and there are %d cars", reply, runs, r.count("cars"))
			}
		})
	}
}
