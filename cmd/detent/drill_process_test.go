//go:build drill

package main

import (
	"bytes"
	"encoding/hex"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"detent/bot/discord/discordtest"
)

// built is the program as it is shipped, built once a drill.
var built struct {
	once sync.Once
	path string
	err  error
}

func builtProgram(t testing.TB) string {
	t.Helper()
	built.once.Do(func() {
		dir, err := os.MkdirTemp("/tmp", "detent-drill-")
		if err != nil {
			built.err = err
			return
		}
		atTheEnd = append(atTheEnd, func() { os.RemoveAll(dir) })
		built.path = filepath.Join(dir, "detent")
		build := exec.Command("go", "build", "-o", built.path, ".")
		build.Env = append(os.Environ(), "CGO_ENABLED=0")
		if said, err := build.CombinedOutput(); err != nil {
			built.err = fmt.Errorf("%w: %s", err, said)
		}
	})
	drillMust(t, built.err)
	return built.path
}

// drillProcess is one running program.
type drillProcess struct {
	testing.TB
	cmd    *exec.Cmd
	http   string // where it takes interactions, "" over the gateway
	listen string
	log    *loud
	ended  chan struct{}
}

// serveBeside starts a process that serves a stand-in workspace from a
// database, in one of the two ways, and waits until it is ready.
func serveBeside(t testing.TB, p *discordtest.Platform, database string, args ...string) *drillProcess {
	t.Helper()
	d := &drillProcess{TB: t, listen: drillAddress(t), log: &loud{}, ended: make(chan struct{})}
	args = append([]string{"--database-url", database, "serve", "--token", p.Token(), "--api", p.URL(), "--listen", d.listen}, args...)
	d.cmd = exec.Command(builtProgram(t), args...)
	d.cmd.Stdout, d.cmd.Stderr = d.log, d.log
	drillMust(t, d.cmd.Start())
	go func() { d.cmd.Wait(); close(d.ended) }()
	t.Cleanup(func() {
		d.signal(syscall.SIGKILL)
		<-d.ended
		if t.Failed() {
			said := d.log.String()
			t.Logf("%q says, at last:\n%s", args[2:], said[max(0, len(said)-3000):])
		}
	})
	return d
}

// servePosted is serveBeside for signed interactions.
func servePosted(t testing.TB, p *discordtest.Platform, database string) *drillProcess {
	t.Helper()
	address := drillAddress(t)
	d := serveBeside(t, p, database, "--http", address, "--public-key", hex.EncodeToString(p.PublicKey()))
	d.http = address
	return d.ready()
}

// ready waits until the process says that it is.
func (d *drillProcess) ready() *drillProcess {
	d.Helper()
	drillAwait(d, "the process to be ready", 30*time.Second, func() bool {
		select {
		case <-d.ended:
			d.Fatalf("it ended: %s", d.log)
		default:
		}
		r, err := http.Get("http://" + d.listen + "/readyz")
		if err != nil {
			return false
		}
		r.Body.Close()
		return r.StatusCode == http.StatusOK
	})
	return d
}

func (d *drillProcess) signal(s syscall.Signal) { d.cmd.Process.Signal(s) } // fails when it has ended

// roundRobin is a small load balancer: it passes each post to the next process,
// and to the one after that when the first cannot take it. The same post twice
// is one request by its id.
type roundRobin struct {
	processes []*drillProcess
	turn      atomic.Int64
}

func (r *roundRobin) ServeHTTP(w http.ResponseWriter, post *http.Request) {
	body, err := io.ReadAll(post.Body)
	if err != nil {
		http.Error(w, err.Error(), http.StatusBadRequest)
		return
	}
	first := int(r.turn.Add(1))
	for n := range r.processes {
		to := r.processes[(first+n)%len(r.processes)]
		again, err := http.NewRequestWithContext(post.Context(), http.MethodPost, "http://"+to.http, bytes.NewReader(body))
		if err != nil {
			continue
		}
		again.Header = post.Header.Clone()
		answer, err := http.DefaultTransport.RoundTrip(again)
		if err != nil {
			continue
		}
		defer answer.Body.Close()
		for name, values := range answer.Header {
			w.Header()[name] = values
		}
		w.WriteHeader(answer.StatusCode)
		io.Copy(w, answer.Body) // what fails the platform notices
		return
	}
	http.Error(w, "no process takes it", http.StatusBadGateway)
}

// drillRounds is how many kill rounds are asked for: DRILL, or 300.
func drillRounds(t testing.TB) int {
	t.Helper()
	text, given := os.LookupEnv("DRILL")
	if !given || text == "" {
		return 300
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		t.Fatalf("DRILL is the number of kill rounds, not %q", text)
	}
	return n
}
