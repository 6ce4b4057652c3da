//go:build drill

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"

	"detent/bot"
	"detent/store/localpg"
)

// TestDrillKills kills the server, one of its backends or the program itself at
// a random moment while people ask, and has every ask that was not answered be
// asked again under the same id, round after round: on the private Postgres and
// on one that is named.
func TestDrillKills(t *testing.T) {
	rounds := drillRounds(t)
	t.Run("private", func(t *testing.T) {
		dir, err := os.MkdirTemp("/tmp", "detent-drill-") // which the server's own user may enter
		drillMust(t, err)
		drillMust(t, os.Chmod(dir, 0o755))
		t.Cleanup(func() { os.RemoveAll(dir) })
		site := &killSite{T: t, env: []string{"DETENT_DATA=" + dir}, revive: func() {},
			postmaster: func() int {
				text, _ := os.ReadFile(filepath.Join(dir, "postgres", "postmaster.pid")) // none while no server runs
				first, _, _ := bytes.Cut(text, []byte("\n"))
				pid, _ := strconv.Atoi(string(first))
				return workingIn(pid, filepath.Join(dir, "postgres"))
			}}
		site.run(rounds/2, func() map[string]int {
			server, err := localpg.Start(t.Context(), dir)
			drillMust(t, err)
			defer server.Close()
			admin, err := sqlx.Open("postgres", server.URL(localpg.Database))
			drillMust(t, err)
			defer admin.Close()
			return keptNotes(t, admin)
		})
	})
	t.Run("named", func(t *testing.T) {
		server := newDrillServer(t, "named").create().start()
		server.admin("postgres").MustExec(`create database detent`)
		site := &killSite{T: t, env: []string{"DETENT_DATABASE_URL=" + server.url("detent"), "DETENT_DATA=" + t.TempDir()},
			postmaster: func() int { return workingIn(server.pid, server.path("data")) },
			revive: func() { // as whatever keeps the server does
				if !server.alive() {
					server.start()
				}
			}}
		site.run(rounds-rounds/2, func() map[string]int {
			drillAwait(t, "the server after the last kill", time.Minute, func() bool { site.revive(); return server.ping() == nil })
			return keptNotes(t, server.admin("detent"))
		})
	})
}

const (
	askers = 3 // at once in a round

	// answeredIn bounds one run of the program, and settledIn a request with
	// all its repetitions; what takes longer is stuck.
	answeredIn = time.Minute
	settledIn  = 3 * time.Minute
)

// killSite is a database that is asked and killed.
type killSite struct {
	*testing.T
	env        []string
	postmaster func() int // 0 while there is none
	revive     func()     // starts a server again that nobody else starts

	mu      sync.Mutex
	figures drillFigures
	hits    map[string]int
	told    map[string]bool // the ids of what was answered
}

// run goes through the rounds, compares what was told with what is kept, and
// reports what came of it.
func (s *killSite) run(rounds int, kept func() map[string]int) {
	s.Helper()
	s.hits, s.told = map[string]int{}, map[string]bool{}
	random := rand.New(rand.NewPCG(uint64(rounds), 9)) // seeded: the choices can be had again
	for n := range askers {
		drillAwait(s, "a car", settledIn, func() bool { return s.asks(n, "car", `/car add name:"Blue hatch" drive:front engine:front`) != "" })
	}
	s.figures = drillFigures{} // nothing was killed yet
	began := time.Now()
	s.round(-1, func(<-chan struct{}) {})
	usual := time.Since(began)
	for n, hits := 0, 0; hits < rounds; n++ {
		if n > 3*rounds {
			s.Fatalf("only %d of %d rounds had anything to kill", hits, n)
		}
		s.round(n, func(answered <-chan struct{}) {
			time.Sleep(time.Duration(random.Int64N(int64(usual)))) // the moment is random
			if s.kill(random, answered) {
				hits++
			}
		})
		if n%25 == 24 {
			s.Logf("so far %d rounds, %v: %v", hits, s.hits, s.figures)
		}
	}
	record := kept()
	for id := range s.told {
		switch times := record[id]; {
		case times == 0:
			s.figures.lost++
		case times > 1:
			s.figures.doubled++
		}
	}
	s.figures.noted = len(s.told)
	s.Logf("%d rounds, killed %v: %v", rounds, s.hits, s.figures)
	s.figures.sound(s)
}

// round has the askers ask, something happen meanwhile, and every ask that was
// not answered be asked again until it is.
func (s *killSite) round(n int, meanwhile func(answered <-chan struct{})) {
	var asking sync.WaitGroup
	for k := range askers {
		asking.Go(func() { s.settle(k, fmt.Sprintf("round %d of %d", n, k)) })
	}
	answered := make(chan struct{})
	go func() { asking.Wait(); close(answered) }()
	meanwhile(answered)
	for {
		s.revive()
		select {
		case <-answered:
			return
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// settle asks one thing until it is answered, and what was not answered at once
// one more time: it has the same answer from then on.
func (s *killSite) settle(asker int, id string) {
	line := `/feel grip:7 notes:"` + id + `"`
	began, tries := time.Now(), 0
	var reply string
	for ; reply == "" && time.Since(began) < settledIn; tries++ {
		reply = s.asks(asker, id, line)
	}
	again := reply
	if tries > 1 {
		again = s.asks(asker, id, line)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.figures.asked++
	s.figures.slowest = max(s.figures.slowest, time.Since(began))
	switch {
	case reply == "":
		s.figures.stuck++
		s.Errorf("%s was not answered in %v", id, settledIn)
		return
	case again != "" && again != reply:
		s.Errorf("%s was answered %s and then %s", id, reply, again)
	}
	s.told[id] = true
}

// asks runs the program once and returns its reply, "" when it gave none or one
// that leaves the matter open.
func (s *killSite) asks(asker int, id, line string) string {
	ctx, cancel := context.WithTimeout(context.Background(), answeredIn)
	defer cancel()
	cmd := exec.CommandContext(ctx, builtProgram(s), "ask", "--json", "--as", fmt.Sprint("driver ", asker), "--id", id, line)
	cmd.Env = append(os.Environ(), s.env...)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	err := cmd.Run()
	if ctx.Err() != nil {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.figures.stuck++
		s.Logf("%s: the program did not answer in %v", id, answeredIn)
		return ""
	}
	var reply bot.Reply
	if out.Len() == 0 || json.Unmarshal(out.Bytes(), &reply) != nil {
		if err == nil {
			s.Errorf("%s: it left well and said nothing: %s", id, errs.String())
		}
		return ""
	}
	if reply.Problem != nil {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.figures.refused++
		if strings.ContainsRune(strings.TrimSpace(reply.Problem.Say), '\n') {
			s.Errorf("%s: more than a sentence: %q", id, reply.Problem.Say)
		}
		return ""
	}
	return strings.TrimSpace(out.String())
}

// kill kills one of the things that may die, as soon as there is one, and tells
// whether there was before all was answered.
func (s *killSite) kill(random *rand.Rand, answered <-chan struct{}) bool {
	what := []string{"backend", "detent", "postmaster", "whole server"}[random.IntN(4)]
	for {
		if s.strike(what, random) {
			s.hits[what]++
			return true
		}
		select {
		case <-answered:
			return false
		case <-time.After(time.Millisecond):
			s.revive() // a server that died late of the round before
		}
	}
}

// strike kills one thing of a kind and tells whether there was one.
func (s *killSite) strike(what string, random *rand.Rand) bool {
	server := s.postmaster()
	var victims []int
	switch what {
	case "backend":
		victims = childrenOf(server)
	case "detent":
		victims = s.programs()
	case "postmaster":
		victims = []int{server}
	case "whole server": // as when the machine goes down
		victims = append([]int{server}, childrenOf(server)...)
	}
	if len(victims) == 0 || victims[0] == 0 {
		return false
	}
	if what != "whole server" {
		return syscall.Kill(victims[random.IntN(len(victims))], syscall.SIGKILL) == nil
	}
	for _, pid := range victims {
		if syscall.Kill(pid, syscall.SIGKILL) != nil && pid == server {
			return false
		}
	}
	return true
}

// workingIn is the number of a process that works in a folder, and 0 when it
// has another's by now.
func workingIn(pid int, folder string) int {
	if where, err := os.Readlink(fmt.Sprintf("/proc/%d/cwd", pid)); err != nil || where != folder {
		return 0
	}
	return pid
}

// programs are the running programs that this drill started.
func (s *killSite) programs() (pids []int) {
	for _, pid := range childrenOf(os.Getpid()) {
		if path, err := os.Readlink(fmt.Sprintf("/proc/%d/exe", pid)); err == nil && path == builtProgram(s) {
			pids = append(pids, pid)
		}
	}
	return pids
}
