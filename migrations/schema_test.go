package migrations_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"detent/migrations"
	"detent/store/storetest"
)

var update = flag.Bool("update", false, "write schema.sql anew")

const schemaHead = `-- The whole schema in one place, for people to read. Nothing runs this file: the
-- numbered files beside it make the schema. It is written from the catalogue of
-- a fresh database, the same on every Postgres that the program runs on, with
--
--     go test ./migrations -run TestSchema -update
`

func TestSchemaIsWrittenDown(t *testing.T) {
	db := connect(t, storetest.Empty(t))
	if err := migrations.Up(t.Context(), db); err != nil {
		t.Fatal(err)
	}
	fresh := catalogue(t, db)
	text := fmt.Sprintf("%s\n-- Up to migration %d.\n%s", schemaHead, migrations.Newest, fresh.SQL())
	if *update {
		if err := os.WriteFile("schema.sql", []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	written, err := os.ReadFile("schema.sql")
	if err != nil {
		t.Fatal(err)
	}
	if string(written) != text {
		t.Errorf("schema.sql is not the schema that the migrations make; the first line that differs:\n%s\nwrite it anew: go test ./migrations -run TestSchema -update",
			firstDifference(string(written), text))
	}
	// What a reader looks for stands there.
	for _, item := range fresh {
		if !strings.Contains(text, strings.ReplaceAll(item.Name, "'", "''")) {
			t.Errorf("%s %s of %s does not stand in it", item.Kind, item.Name, item.Of)
		}
	}
}

func firstDifference(written, want string) string {
	have, wanted := strings.Split(written, "\n"), strings.Split(want, "\n")
	for n, line := range wanted {
		if n >= len(have) || have[n] != line {
			return fmt.Sprintf("%d: %s", n+1, line)
		}
	}
	return fmt.Sprintf("%d: it is longer", len(wanted)+1)
}
