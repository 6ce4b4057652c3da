package localpg_test

import (
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"detent/store/localpg"
)

// secret stands for what a person wrote.
const secret = "the coach said 7731 and nobody else"

// The cluster and its log are those of an earlier version, and its owner has
// asked for all that Postgres can log.
func TestTheLogHoldsNothingThatPeopleSaid(t *testing.T) {
	dir := folder(t)
	earlier := start(t, dir)
	tell(t, earlier, "DROP TABLE IF EXISTS said; CREATE TABLE said (text text PRIMARY KEY, n int CHECK (n > 0))")
	for _, setting := range []string{"log_statement = 'all'", "log_min_duration_statement = 0", "log_min_error_statement = 'debug5'",
		"log_min_messages = 'info'", "log_error_verbosity = 'verbose'", "log_parameter_max_length_on_error = -1"} {
		tell(t, earlier, "ALTER SYSTEM SET "+setting)
	}
	must(t, earlier.Close())
	log := filepath.Join(dir, "postgres.log")
	must(t, os.WriteFile(log, []byte("STATEMENT:  insert into said values ('"+secret+"')\n"), 0o600))

	server := start(t, dir)
	db, err := sql.Open("postgres", server.URL(localpg.Database))
	must(t, err)
	defer db.Close()
	for _, failing := range []string{
		"INSERT INTO said VALUES ($1, 1), ($1, 1)",
		"INSERT INTO said VALUES ($1, -1)",
		"SELECT CAST($1::text AS integer)",
		"SELECT $1::text FROM nothing_of_the_kind",
	} {
		if _, err := db.Exec(failing, secret); err == nil {
			t.Errorf("%s passed", failing)
		}
		if _, err := db.Exec(strings.ReplaceAll(failing, "$1", "'"+secret+"'")); err == nil {
			t.Errorf("%s passed with its value written out", failing)
		}
	}
	tell(t, server, "ALTER SYSTEM RESET ALL") // for the next start
	tell(t, server, "DO $$ BEGIN RAISE WARNING '"+secret+"'; END $$")
	crashWhileRunning(t, db, "SELECT pg_sleep(60), '"+secret+"'")
	must(t, startAndAsk(t, dir))
	must(t, server.Close())

	text, err := os.ReadFile(log)
	must(t, err)
	if strings.Contains(string(text), "7731") {
		t.Errorf("the log says\n%s", text)
	}
	for _, of := range []string{"database system is ready", "terminated by signal 9"} {
		if !strings.Contains(string(text), of) {
			t.Errorf("the log does not say %q of the server:\n%s", of, text)
		}
	}
}

// crashWhileRunning kills the session that runs a statement.
func crashWhileRunning(t *testing.T, db *sql.DB, statement string) {
	t.Helper()
	conn, err := db.Conn(t.Context())
	must(t, err)
	defer conn.Close()
	var pid int
	must(t, conn.QueryRowContext(t.Context(), "SELECT pg_backend_pid()").Scan(&pid))
	ended := make(chan error, 1)
	go func() { _, err := conn.ExecContext(context.Background(), statement); ended <- err }()
	for running := 0; running == 0; {
		must(t, db.QueryRow("SELECT count(*) FROM pg_stat_activity WHERE pid = $1 AND state = 'active' AND query LIKE '%pg_sleep%'", pid).Scan(&running))
	}
	must(t, syscall.Kill(pid, syscall.SIGKILL))
	if err := <-ended; err == nil {
		t.Error("the statement passed")
	}
}
