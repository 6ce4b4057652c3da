package main

import (
	"encoding/binary"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/url"
	"path/filepath"
	"regexp"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"detent/bot"
	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
)

// tripCounter stands between the program and its database and counts the
// answers that the server ends: one for each round trip.
type tripCounter struct{ answered atomic.Int64 }

// between returns the address of the database by way of the counter.
func (c *tripCounter) between(t *testing.T, address string) string {
	t.Helper()
	u, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	query := u.Query()
	const socket = ".s.PGSQL.5432"
	server, here := filepath.Join(query.Get("host"), socket), t.TempDir()
	listener, err := net.Listen("unix", filepath.Join(here, socket))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { listener.Close() })
	go func() {
		for {
			client, err := listener.Accept()
			if err != nil {
				return
			}
			far, err := net.Dial("unix", server)
			if err != nil {
				client.Close()
				return
			}
			go func() { io.Copy(far, client); far.Close() }()
			go func() { c.relay(client, far); client.Close() }()
		}
	}()
	query.Set("host", here)
	u.RawQuery = query.Encode()
	return u.String()
}

// relay hands on what the server says and counts its ReadyForQuery messages.
func (c *tripCounter) relay(client io.Writer, server io.Reader) {
	head := make([]byte, 5)
	for {
		if _, err := io.ReadFull(server, head); err != nil {
			return
		}
		body := make([]byte, binary.BigEndian.Uint32(head[1:])-4)
		if _, err := io.ReadFull(server, body); err != nil {
			return
		}
		if head[0] == 'Z' {
			c.answered.Add(1)
		}
		if _, err := client.Write(slices.Concat(head, body)); err != nil {
			return
		}
	}
}

// The round trips of a member's lines, once their statements are prepared: begin,
// open the book, what the line reads and writes, keep the reply, commit. A line
// that only reads keeps nothing, and ends by rolling back.
func TestTripsToTheRecord(t *testing.T) {
	var counter tripCounter
	db, err := store.Rehearse(t.Context(), counter.between(t, storetest.URL(t)))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	router, asked := bot.NewRouter(lines, records{db}, slog.New(slog.DiscardHandler)), 0
	trips := func(text string) (bot.Reply, int64) {
		t.Helper()
		line, err := bot.ParseLine(text)
		if err != nil {
			t.Fatal(err)
		}
		asked++
		before := counter.answered.Load()
		reply := router.Answer(t.Context(), bot.Ask{ID: fmt.Sprint(asked), At: time.Date(2026, 5, 16, 9, asked, 0, 0, time.UTC), Line: line,
			Who: tuning.Who{Club: "paddock", Person: "robin", Name: "Robin", Role: tuning.MemberRole, Roles: []string{"drivers"}}})
		if reply.Problem != nil {
			t.Fatalf("%s: %s", text, reply.Problem.Say)
		}
		return reply, counter.answered.Load() - before
	}
	trips(`/car add name:"Blue hatch" drive:front engine:front`)
	trips(`/damper fit axle:both ways:two clicks:30 count:hard`)
	applying := regexp.MustCompile(`^/apply `)
	took := map[string]int64{}
	for range 3 { // a statement is prepared when it is asked a second time
		var reply bot.Reply
		reply, took["/symptom"] = trips(`/symptom what:understeer where:entry`)
		i := slices.IndexFunc(reply.Actions, func(a bot.Action) bool { return applying.MatchString(a.Ask) })
		_, took["/apply"] = trips(reply.Actions[i].Ask)
		_, took["/clicks show"] = trips(`/clicks show`)
		trips(`/undo`)
	}
	for line, want := range map[string]int64{"/symptom": 7, "/apply": 6, "/clicks show": 4} {
		if took[line] != want {
			t.Errorf("%s takes %d round trips, want %d", line, took[line], want)
		}
	}
}
