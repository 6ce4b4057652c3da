package migrations_test

import (
	"errors"
	"fmt"
	"net/url"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/pressly/goose/v3"

	"detent/migrations"
	"detent/store/storetest"
)

// withoutHashes is a database as an earlier program left it: at schema 6, with
// no hashes. It returns its address.
func withoutHashes(t *testing.T, tell ...string) string {
	t.Helper()
	address := storetest.Empty(t)
	db := connect(t, address)
	provider, err := goose.NewProvider(goose.DialectPostgres, db, migrations.Files, goose.WithTableName(migrations.Table))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := provider.UpTo(t.Context(), 6); err != nil {
		t.Fatal(err)
	}
	for _, statement := range tell {
		if _, err := db.Exec(statement); err != nil {
			t.Fatal(err)
		}
	}
	return address
}

func proof(t *testing.T, address string) (proof string) {
	t.Helper()
	if err := connect(t, address).QueryRow(migrations.HadQuery).Scan(&proof); err != nil {
		t.Fatal(err)
	}
	return proof
}

func TestADatabaseWithoutHashesIsComparedAndStamped(t *testing.T) {
	// Comments are set right. Rows, an extension's objects and the rights of a role of the server's
	// owner are no part of the schema.
	reader := fmt.Sprintf("reader_%d", os.Getpid())
	address := withoutHashes(t, `insert into clubs select 'harrow-hill', 'UTC', '', '', 0, 0, 0, 'metric', 1, 2, 3, 1, 1, 2`,
		`comment on table cars is 'other words'; comment on table events is null; comment on column cars.name is 'it''s new'`,
		`create extension pg_trgm`, `create role `+reader, `grant select on all tables in schema public to `+reader)
	db := connect(t, address)
	t.Cleanup(func() { db.Exec(`drop owned by ` + reader + `; drop role ` + reader) })
	for range 2 {
		if err := migrations.Up(t.Context(), db); err != nil {
			t.Fatal(err)
		}
	}
	if had := proof(t, address); had != migrations.Proof {
		t.Errorf("it had %q, want %q", had, migrations.Proof)
	}
	var clubs int
	if err := db.QueryRow(`select count(*) from clubs`).Scan(&clubs); err != nil || clubs != 1 {
		t.Errorf("%d clubs are left: %v", clubs, err)
	}
	fresh := connect(t, storetest.URL(t))
	if lines := catalogue(t, db).Differences(catalogue(t, fresh)); len(lines) > 0 {
		t.Errorf("it differs from a fresh one: %q", lines)
	}
}

func TestADatabaseOfOtherMigrationsIsRefused(t *testing.T) {
	address := withoutHashes(t, `alter table cars drop column aero`)
	before := proof(t, address)
	err := migrations.Up(t.Context(), connect(t, address))
	differs, ok := errors.AsType[*migrations.Differs](err)
	if !ok {
		t.Fatalf("got %v", err)
	}
	if want := []string{"column aero of cars is missing", "constraint cars_aero_check of cars is missing"}; differs.Number != 6 || !slices.Equal(differs.Differences, want) {
		t.Errorf("at %d it differs in %q", differs.Number, differs.Differences)
	}
	if after := proof(t, address); after != before {
		t.Errorf("it had %q and has %q", before, after)
	}
}

// A hash that is not the file's is looked into like one that is missing.
func TestAnotherHash(t *testing.T) {
	address := storetest.URL(t)
	db := connect(t, address)
	if _, err := db.Exec(`update migrations set hash = 'other' where version_id = 3`); err != nil {
		t.Fatal(err)
	}
	if err := migrations.Up(t.Context(), db); err != nil || proof(t, address) != migrations.Proof {
		t.Errorf("the schema is the same: %v, %q", err, proof(t, address))
	}
	for _, statement := range []string{`update migrations set hash = 'other' where version_id = 3`, `drop index cars_name`} {
		if _, err := db.Exec(statement); err != nil {
			t.Fatal(err)
		}
	}
	if _, ok := errors.AsType[*migrations.Differs](migrations.Up(t.Context(), db)); !ok {
		t.Error("the schema is another")
	}
	if _, err := db.Exec(`delete from migrations where version_id = 2`); err != nil {
		t.Fatal(err)
	}
	if err := migrations.Up(t.Context(), db); err == nil || !strings.Contains(err.Error(), "migration 0003 does not follow") {
		t.Errorf("migrations that were numbered differently: %v", err)
	}
	if _, err := db.Exec(`insert into migrations (version_id, is_applied) values (1000, true)`); err != nil {
		t.Fatal(err)
	}
	if err := migrations.Up(t.Context(), db); err == nil || !strings.Contains(err.Error(), "migration 1000 is not known") {
		t.Errorf("a migration of another program: %v", err)
	}
}

// The comparison takes no more than the rights of the database's owner.
func TestTheOwnerMayCompare(t *testing.T) {
	address := withoutHashes(t)
	admin := connect(t, address)
	owner := fmt.Sprintf("comparer_%d", os.Getpid())
	u, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	for _, statement := range []string{
		`create role ` + owner + ` login in role detent_app`,
		`alter database ` + strings.TrimPrefix(u.Path, "/") + ` owner to ` + owner,
		`do $$ declare t record; begin
			for t in select c.oid::regclass as name from pg_class c where relnamespace = 'public'::regnamespace and relkind = 'r' loop
				execute format('alter table %s owner to ` + owner + `', t.name);
			end loop;
			for t in select oid::regprocedure as name from pg_proc where pronamespace = 'public'::regnamespace loop
				execute format('alter function %s owner to ` + owner + `', t.name);
			end loop;
			for t in select typname as name from pg_type where typnamespace = 'public'::regnamespace and typtype = 'e' loop
				execute format('alter type %s owner to ` + owner + `', t.name);
			end loop;
		end $$`,
	} {
		if _, err := admin.Exec(statement); err != nil {
			t.Fatal(err)
		}
	}
	t.Cleanup(func() {
		if _, err := admin.Exec(`reassign owned by ` + owner + ` to postgres; drop owned by ` + owner + `; drop role ` + owner); err != nil {
			t.Error(err)
		}
	})
	u.User = url.User(owner)
	db := connect(t, u.String())
	if err := migrations.Up(t.Context(), db); err != nil {
		t.Fatal(err)
	}
	db.Close()
	if had := proof(t, address); had != migrations.Proof {
		t.Errorf("it had %q", had)
	}
}
