package migrations_test

import (
	"database/sql"
	"fmt"
	"net/url"
	"os"
	"testing"

	"github.com/pressly/goose/v3"

	"detent/migrations"
	"detent/store/storetest"
)

// The sums of every club get the owner of their car, though whoever migrates sees
// one club at a time.
func TestSumsOfBeforeGetTheirOwner(t *testing.T) {
	keeper := fmt.Sprintf("keeper_%d", os.Getpid())
	address := storetest.Empty(t)
	admin := connect(t, address)
	run := func(db *sql.DB, statements ...string) {
		t.Helper()
		for _, statement := range statements {
			if _, err := db.Exec(statement); err != nil {
				t.Fatalf("%s: %v", statement, err)
			}
		}
	}
	run(admin, `create role `+keeper+` login createrole`, `do $$ begin execute format('alter database %I owner to `+keeper+`', current_database()); end $$`)
	// The roles are those of all databases of the server, which other tests use at
	// the same time, and since Postgres 16 nobody joins a role of another's making.
	for _, role := range []string{"detent_app", "detent_rehearsal"} {
		run(admin, `do $$ begin create role `+role+`; exception when duplicate_object or unique_violation then null; end $$`, `grant `+role+` to `+keeper)
	}
	t.Cleanup(func() {
		admin.Exec(`reassign owned by ` + keeper + ` to postgres; drop owned by ` + keeper + `; drop role ` + keeper)
	})
	u, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	u.User = url.User(keeper)
	db := connect(t, u.String())
	provider, err := goose.NewProvider(goose.DialectPostgres, db, migrations.Files, goose.WithTableName(migrations.Table))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := provider.UpTo(t.Context(), 14); err != nil {
		t.Fatal(err)
	}
	const car = `insert into cars (club, owner, name, main, retired, drive, engine, tyre, aero, use, torque_front, mass, front_share, wheelbase, cg_height,
			track_front, track_rear, spring_front, spring_rear, ratio_front, ratio_rear, unsprung_front, unsprung_rear, tyre_rate_front, tyre_rate_rear)
		values ('%s', '%s', 'Hatch', true, false, 'front', 'front', '', '', '', 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)`
	const sums = `insert into try_sums (club, what, place, drive, part, job, turn, car, at, a, b, tries, helped, last, worse)
		select club, 'hops', '', '', 'whole', 'bump', 'softer', id, now(), 1, 1, 1, 1, now(), false from cars where club = '%s'`
	for _, club := range []string{"hill", "harbour"} {
		run(admin, fmt.Sprintf(`insert into clubs select '%s', 'UTC', '', '', 0, 0, 0, 'metric', 1, 2, 3, 1, 1, 2`, club))
		for _, person := range []string{"robin", "sam"} {
			run(admin, fmt.Sprintf(`insert into members (club, person, name) values ('%s', '%s of %s', '%s')`, club, person, club, person), fmt.Sprintf(car, club, person+" of "+club))
		}
		run(admin, fmt.Sprintf(sums, club))
	}
	if err := migrations.Up(t.Context(), db); err != nil {
		t.Fatal(err)
	}
	run(admin, `delete from try_sums where club = 'hill'`, fmt.Sprintf(sums, "hill")) // as a program of before adds them
	var right, all int
	err = admin.QueryRow(`select count(*) filter (where s.owner = c.owner), count(*) from try_sums s join cars c on c.club = s.club and c.id = s.car`).Scan(&right, &all)
	if err != nil || right != 4 || all != 4 {
		t.Errorf("%d of %d sums have the owner of their car: %v", right, all, err)
	}
}
