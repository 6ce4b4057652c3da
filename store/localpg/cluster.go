package localpg

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// cluster is the folder the private database lives in:
//
//	postgres/      the cluster itself, with the socket
//	postgres.log   what the server says of itself
//	door, lease, alive
type cluster struct {
	home      string
	sockets   string // a name of the cluster's folder that a socket's path fits under
	throwaway bool
	waits     waits
}

func (c cluster) path(name string) string { return filepath.Join(c.home, name) }
func (c cluster) data() string            { return c.path("postgres") }
func (c cluster) log() string             { return c.path("postgres.log") }

// settings are given on the command line, so that a newer program brings its
// own to an older cluster. They suit a club's few users on a machine that has
// other work to do.
func (c cluster) settings() []string {
	settings := []string{
		"cluster_name=detent", // in the list of processes
		"listen_addresses=",
		"unix_socket_directories=.", // the data folder, whatever its name is
		"port=" + port,
		"max_connections=100",
		"shared_buffers=64MB",
		"wal_level=minimal", // nothing is replicated
		"max_wal_senders=0",
		"min_wal_size=32MB",
		"max_wal_size=512MB",
		"jit=off",
		"timezone=UTC",
		"log_timezone=UTC",
		"log_checkpoints=off",
	}
	settings = append(settings, discreet...)
	if c.throwaway {
		settings = append(settings, "fsync=off", "synchronous_commit=off", "full_page_writes=off")
	}
	args := make([]string, 0, 2*len(settings))
	for _, s := range settings {
		args = append(args, "-c", s)
	}
	return args
}

// discreet keeps what people say out of the server's log: the statements, which
// carry values, and the words of an error, which repeat them ("invalid input
// syntax for type integer: ..."). The program is told of every error of its own
// statements; what remains is what the server says of itself. Terse leaves out
// details, where a crash would name the statement that was running.
var discreet = []string{
	"log_min_messages=log", // above it are fatal and panic alone
	"log_min_error_statement=panic",
	"log_error_verbosity=terse",
	"log_statement=none",
	"log_duration=off",
	"log_min_duration_statement=-1",
	"log_min_duration_sample=-1",
	"log_transaction_sample_rate=0",
	"log_autovacuum_min_duration=-1",
	"log_parameter_max_length=0",
	"log_parameter_max_length_on_error=0",
	"log_lock_waits=off",
	"debug_print_parse=off",
	"debug_print_rewritten=off",
	"debug_print_plan=off",
}

// version reads which major version made the cluster; 0 means that there is no
// cluster yet.
func (c cluster) version() (int, error) {
	text, err := os.ReadFile(filepath.Join(c.data(), "PG_VERSION"))
	if err == nil {
		major, err := strconv.Atoi(strings.TrimSpace(string(text)))
		if err != nil {
			return 0, fmt.Errorf("the database in %s was made by a version of PostgreSQL (%.20q) that this program does not know: move it away, or choose another data folder (DETENT_DATA)", c.data(), text)
		}
		return major, nil
	}
	inside, err := os.ReadDir(c.data())
	if errors.Is(err, fs.ErrNotExist) || err == nil && len(inside) == 0 {
		return 0, nil
	}
	return 0, fmt.Errorf("%s is not a PostgreSQL database: move it away, or choose another data folder (DETENT_DATA)", c.data())
}

// create makes the cluster with its database. It grows under another name and
// is given its own when it is whole, so a half made one is never taken for the
// real one. The door goes along to the programs that make it: were this
// process killed, the door stays shut until they are done.
func (c cluster) create(ctx context.Context, p programs, a account, door *os.File) error {
	if err := c.sweep(); err != nil {
		return err
	}
	name, err := os.MkdirTemp(c.home, growing+"*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(name) // finds nothing once the folder is renamed
	if err := a.own(name); err != nil {
		return err
	}
	folder, err := os.Open(name)
	if err != nil {
		return err
	}
	defer folder.Close()

	if err := c.initialise(ctx, p, a, folder, door); err != nil {
		return fmt.Errorf("could not make the private database in %s: %w", c.home, err)
	}
	if err := os.Rename(name, c.data()); err != nil {
		return err
	}
	return c.sync()
}

// growing begins the name of a cluster that is being made.
const growing = "postgres.new-"

// sweep removes what a create that was killed left behind.
func (c cluster) sweep() error {
	inside, err := os.ReadDir(c.home)
	if err != nil {
		return err
	}
	for _, entry := range inside {
		if strings.HasPrefix(entry.Name(), growing) {
			if err := os.RemoveAll(c.path(entry.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}

func (c cluster) initialise(ctx context.Context, p programs, a account, folder, door *os.File) error {
	args := []string{"--username=" + superuser, "--auth=trust", "--encoding=UTF8", "--locale=C.UTF-8"}
	if c.throwaway {
		args = append(args, "--no-sync")
	}
	initdb, err := a.command(ctx, folder, door, p.initdb(), args...)
	if err != nil {
		return err
	}
	if said, err := initdb.CombinedOutput(); err != nil {
		return programError{fmt.Errorf("initdb failed (%w): %s", err, complaint(said))}
	}
	single, err := a.command(ctx, folder, door, p.postgres(), "--single", "-c", "exit_on_error=on", "template1")
	if err != nil {
		return err
	}
	single.Stdin = strings.NewReader("CREATE DATABASE " + Database + "\n")
	if said, err := single.CombinedOutput(); err != nil {
		return programError{fmt.Errorf("postgres --single failed (%w): %s", err, complaint(said))}
	}
	return nil
}

// sync makes a rename in the folder last through a loss of power.
func (c cluster) sync() error {
	folder, err := os.Open(c.home)
	if err != nil {
		return err
	}
	defer folder.Close()
	return folder.Sync()
}

// complaint picks, from what a server program said, the last line that is
// marked as an error.
func complaint(said []byte) (found string) {
	for line := range strings.Lines(string(said)) {
		for _, mark := range []string{"PANIC:", "FATAL:", "ERROR:", "error:"} {
			if _, after, marked := strings.Cut(line, mark); marked {
				found = strings.TrimSpace(after)
			}
		}
	}
	return found
}
