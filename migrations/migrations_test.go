package migrations_test

import (
	"database/sql"
	"testing"

	_ "github.com/lib/pq"
	"github.com/pressly/goose/v3"

	"detent/migrations"
	"detent/store/storetest"
)

func TestMain(m *testing.M) {
	defer storetest.Leave()
	m.Run()
}

// Of two migrations made side by side the later may land first.
func TestUpFillsAGap(t *testing.T) {
	db, err := sql.Open("postgres", storetest.Empty(t))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	const coaching = 5 // nothing later builds on it
	without, err := goose.NewProvider(goose.DialectPostgres, db, migrations.Files,
		goose.WithTableName(migrations.Table), goose.WithExcludeVersions([]int64{coaching}))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := without.Up(t.Context()); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := migrations.Up(t.Context(), db); err != nil {
			t.Fatal(err)
		}
	}
	var had int
	if err := db.QueryRow(`select count(*) from migrations where version_id > 0`).Scan(&had); err != nil {
		t.Fatal(err)
	}
	if had != migrations.Count {
		t.Errorf("%d migrations were run, want %d", had, migrations.Count)
	}
}

func connect(t *testing.T, url string) *sql.DB {
	t.Helper()
	db, err := sql.Open("postgres", url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

func catalogue(t *testing.T, db *sql.DB) migrations.Catalogue {
	t.Helper()
	all, err := migrations.ReadCatalogue(t.Context(), db)
	if err != nil {
		t.Fatal(err)
	}
	return all
}
