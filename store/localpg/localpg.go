// Package localpg keeps a private Postgres for a program that was given no
// database: it makes a cluster in a folder of the program's own, starts the
// installed server programs on it, and lets several processes share the one
// server, reached by a Unix socket and by nothing else.
//
// Three lock files in the folder carry the sharing, and the kernel lets go of
// each when its holder dies, however it dies:
//
//	door   held by whoever is starting or stopping the server, one at a time
//	lease  held, shared, by every process that uses the server
//	alive  held by the server itself and all its children
//
// Whoever leaves and finds no other lease stops the server. A user that was
// killed leaves it running, and the next one finds it, uses it and stops it.
package localpg

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"time"
)

const (
	// Database is the database that every cluster holds from its birth.
	Database = "detent"

	superuser = "postgres"
	port      = "5432"

	// patience bounds a start, crash recovery included, and a stop.
	patience = 2 * time.Minute
)

// An Option changes how Start makes and runs a server.
type Option func(*cluster)

// Throwaway gives up durability for speed: after a crash of the machine the
// data may be lost. It is for tests. A server that is already running keeps
// the durability it was started with.
func Throwaway() Option {
	return func(c *cluster) { c.throwaway = true }
}

// A Server is one process's share in a running Postgres. While it is held, a
// server that dies is started again. Close gives it back.
type Server struct {
	cluster cluster
	lease   *os.File
	unwatch context.CancelFunc
	watched sync.WaitGroup
	leave   sync.Once
	left    error
}

// Start joins the server that works on the folder dir, starting it when none
// runs and making folder and cluster when there are none. It returns when the
// server takes connections. The errors are sentences for a person.
func Start(ctx context.Context, dir string, options ...Option) (*Server, error) {
	home, err := settle(dir)
	if err != nil {
		return nil, explain(err, dir)
	}
	c := cluster{home: home, waits: usualWaits}
	for _, option := range options {
		option(&c)
	}
	ctx, cancel := context.WithTimeoutCause(ctx, patience,
		fmt.Errorf("the private database in %s was not ready after %v; what it says stands in %s", home, patience, c.log()))
	defer cancel()
	s, err := join(ctx, c)
	return s, explain(err, home)
}

// join takes a share in the server of a cluster.
func join(ctx context.Context, c cluster) (*Server, error) {
	door, err := lock(ctx, c.path("door"), exclusive)
	if err != nil {
		return nil, err
	}
	defer door.Close()
	if c.sockets, err = shortName(c.data()); err != nil {
		return nil, err
	}
	lease, err := lock(ctx, c.path("lease"), shared)
	if err != nil {
		return nil, errors.Join(err, c.forgetShortName())
	}
	if err := c.run(ctx, door); err != nil {
		return nil, errors.Join(err, c.release(lease))
	}
	watching, unwatch := context.WithCancel(context.Background())
	s := &Server{cluster: c, lease: lease, unwatch: unwatch}
	s.watched.Go(func() { s.watch(watching) })
	return s, nil
}

// watch starts the server again when it dies under its users. A start that
// fails has left its reason in the log, and is tried again.
func (s *Server) watch(ctx context.Context) {
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			if s.cluster.gone() {
				s.revive(ctx)
			}
		}
	}
}

func (s *Server) revive(ctx context.Context) error {
	door, err := lock(ctx, s.cluster.path("door"), exclusive)
	if err != nil {
		return err
	}
	defer door.Close()
	return s.cluster.run(ctx, door)
}

// URL is the address of the named database for the server's superuser, in the
// form that lib/pq and psql read.
func (s *Server) URL(database string) string {
	u := url.URL{
		Scheme: "postgres",
		User:   url.User(superuser),
		Path:   "/" + database,
		// All that the environment (PGPORT, PGSSLMODE) could bend is named.
		RawQuery: url.Values{"host": {s.cluster.sockets}, "port": {port}, "sslmode": {"disable"}}.Encode(),
	}
	return u.String()
}

// Close leaves the server, and stops it when nobody else uses it. Calls after
// the first return what the first did.
func (s *Server) Close() error {
	s.leave.Do(func() {
		s.unwatch()
		s.watched.Wait()
		ctx, cancel := context.WithTimeout(context.Background(), patience)
		defer cancel()
		door, err := lock(ctx, s.cluster.path("door"), exclusive)
		if err != nil {
			s.left = errors.Join(err, s.lease.Close())
			return
		}
		defer door.Close()
		s.left = s.cluster.release(s.lease)
	})
	return s.left
}

// settle makes the folder and returns its one true name, so that every
// process computes the same paths however it was told where the folder is.
func settle(dir string) (string, error) {
	if dir == "" {
		return "", errors.New("no data folder is named for the private database")
	}
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("cannot tell where the data folder is: %w", err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", fmt.Errorf("cannot make the data folder: %w", err)
	}
	if dir, err = filepath.EvalSymlinks(dir); err != nil {
		return "", fmt.Errorf("cannot follow the path of the data folder: %w", err)
	}
	return dir, nil
}
