package main

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/jmoiron/sqlx"
	_ "github.com/lib/pq"

	"detent/bot"
	"detent/store/storetest"
)

// A database that another program made is refused with its differences, and its
// record can be moved as README.md tells.
func TestMovingTheRecordToAFreshDatabase(t *testing.T) {
	p := newPaddock(t)
	robin := p.as("--as", "Robin").blueHatch()
	robin.does(`/baseline`, `/apply advice:1`, `/symptom what:understeer where:entry`, `/apply advice:2`, `/undo`, `/feel grip:7 notes:"turns in"`)
	looks := []string{`/car show`, `/clicks show`, `/log`}
	before := shown(robin.ask(looks...))

	old := os.Getenv("DETENT_DATABASE_URL")
	db, err := sqlx.Connect("postgres", old)
	if err != nil {
		t.Fatal(err)
	}
	db.MustExec(`update migrations set hash = null; drop index cars_name; alter table cars alter column name type varchar(80); alter table cars add column colour text; alter table cars drop column colour`)
	db.Close()
	for _, args := range [][]string{{"migrate"}, {"ask", "/help"}} {
		_, errs, code := execute(t, args...)
		for _, want := range []string{"column name of cars is another", "index cars_name of cars is missing", "Nothing was changed", "Moving the record to a fresh database"} {
			if code != exitProblem || !strings.Contains(errs, want) {
				t.Errorf("%s left with %d and said %q, without %q", args, code, errs, want)
			}
		}
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil || !strings.Contains(string(readme), "### Moving the record to a fresh database") {
		t.Errorf("README.md does not tell how to move the record: %v", err)
	}

	fresh := storetest.Empty(t)
	t.Setenv("DETENT_DATABASE_URL", fresh)
	if out, errs, code := execute(t, "migrate"); code != exitAnswered {
		t.Fatal(out, errs)
	}
	recipe(t, string(readme), old, fresh)
	if after := shown(robin.ask(looks...)); after != before {
		t.Errorf("the record reads\n%s\nand read\n%s", after, before)
	}
	robin.does(`/clicks set at:FL adjuster:bump to:5`) // and goes on
}

func shown(replies []bot.Reply) string {
	var b strings.Builder
	for _, r := range replies {
		fmt.Fprintln(&b, r.Title, r.Text, r.Corners, r.Notes)
	}
	return b.String()
}

// recipe runs the lines of README.md that dump and restore.
func recipe(t *testing.T, readme, old, fresh string) {
	t.Helper()
	_, section, _ := strings.Cut(readme, "### Moving the record to a fresh database")
	ran, folder := 0, t.TempDir()
	for line := range strings.Lines(section) {
		program, _, _ := strings.Cut(line, " ")
		if program != "pg_dump" && program != "pg_restore" {
			continue
		}
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("the standard tools are not on the PATH: %v", err)
		}
		cmd := exec.Command("sh", "-ec", line)
		cmd.Dir = folder
		cmd.Env = append(os.Environ(), "OLD_URL="+old, "NEW_URL="+fresh)
		if said, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%s: %v: %s", line, err, said)
		}
		if ran++; ran == 2 {
			return
		}
	}
	t.Errorf("README.md has %d of the two commands", ran)
}
