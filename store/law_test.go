package store_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/url"
	"os"
	"testing"

	"github.com/jmoiron/sqlx"
	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/store"
	"detent/store/storetest"
	"detent/tuning"
)

// These tests hold the database itself to its laws, whatever the program does.

// tables lists every table of the schema but the one the migrations keep.
func (r record) tables() (names []string) {
	r.Helper()
	must(r.T, r.admin.Select(&names, `
		select relname from pg_class where relnamespace = 'public'::regnamespace and relkind = 'r' and relname <> 'migrations' order by 1`))
	if len(names) < 13 {
		r.Fatalf("there are only %d tables: %v", len(names), names)
	}
	return names
}

// asProgram runs fn as the role the program works as, for a club ("" for
// none), and takes back what it did.
func (r record) asProgram(club string, fn func(tx *sqlx.Tx)) {
	r.Helper()
	tx, err := r.admin.BeginTxx(r.Context(), nil)
	must(r.T, err)
	defer tx.Rollback()
	tx.MustExec(`set local role detent_app`)
	if club != "" {
		tx.MustExec(`select set_config('detent.club', $1, true)`, club)
	}
	fn(tx)
}

// refused runs a statement and wants it to fail with one of the codes.
func refused(t *testing.T, tx *sqlx.Tx, codes []pqerror.Code, query string, args ...any) {
	t.Helper()
	tx.MustExec(`savepoint before`)
	_, err := tx.Exec(query, args...)
	if pq.As(err, codes...) == nil {
		t.Errorf("%s: %v, want one of %v", query, err, codes)
	}
	tx.MustExec(`rollback to before`)
}

// idle runs a statement and wants it forbidden or to find nothing.
func idle(t *testing.T, tx *sqlx.Tx, query string, args ...any) {
	t.Helper()
	tx.MustExec(`savepoint before`)
	result, err := tx.Exec(query, args...)
	if err == nil {
		if n, _ := result.RowsAffected(); n != 0 {
			t.Errorf("%s: it found %d rows", query, n)
		}
	} else if pq.As(err, forbidden...) == nil {
		t.Errorf("%s: %v", query, err)
	}
	tx.MustExec(`rollback to before`)
}

var (
	forbidden = []pqerror.Code{pqerror.InsufficientPrivilege}
	elsewhere = tuning.Who{Club: "long-beck", Person: "person-lee", Name: "Lee"}
)

func TestOneClubNeverSeesAnother(t *testing.T) {
	r := open(t)
	r.everything(sam)
	r.everything(elsewhere)
	for _, table := range r.tables() {
		var theirs string // a row of the other club
		if err := r.admin.Get(&theirs, `select to_jsonb(t) || jsonb_build_object('at', now()) from `+table+` t where club = $1 limit 1`, sam.Club); err != nil {
			t.Errorf("nothing is left in %s: %v", table, err)
			continue
		}
		insert := `insert into ` + table + ` overriding system value select * from jsonb_populate_record(null::` + table + `, $1)`

		for _, club := range []string{elsewhere.Club, ""} {
			r.asProgram(club, func(tx *sqlx.Tx) {
				var n int
				must(t, tx.Get(&n, `select count(*) from `+table+` where club is distinct from nullif($1, '')`, club))
				if n != 0 {
					t.Errorf("%q sees %d rows of another club in %s", club, n, table)
				}
				refused(t, tx, forbidden, insert, theirs)
				idle(t, tx, `update `+table+` set club = club where club = $1`, sam.Club)
				idle(t, tx, `delete from `+table+` where club = $1`, sam.Club)
			})
		}
		// A row cannot be given away, nor be made to point into another club.
		r.asProgram(sam.Club, func(tx *sqlx.Tx) {
			refused(t, tx, forbidden, `update `+table+` set club = $1`, elsewhere.Club)
		})
		var columns map[string]any
		must(t, json.Unmarshal([]byte(theirs), &columns))
		if _, ok := columns["car"]; ok {
			columns["club"] = elsewhere.Club
			moved, err := json.Marshal(columns)
			must(t, err)
			r.asProgram(elsewhere.Club, func(tx *sqlx.Tx) {
				refused(t, tx, []pqerror.Code{pqerror.InsufficientPrivilege, pqerror.ForeignKeyViolation, pqerror.CheckViolation}, insert, string(moved))
			})
		}
	}
}

func TestEveryTableIsShut(t *testing.T) {
	r := open(t)
	var open []string
	must(t, r.admin.Select(&open, `
		select relname from pg_class c where relnamespace = 'public'::regnamespace and relkind = 'r' and relname <> 'migrations'
			and not (relrowsecurity
				and (relforcerowsecurity or relname in ('due', 'clubs', 'requests', 'drafts')) -- their owner claims what is due, and forgets who left and what is old, in any club
				and exists (select from pg_policy where polrelid = c.oid and polname = 'club_only' and polcmd = '*' and polpermissive)
				and (select count(*) from pg_policy where polrelid = c.oid) = 1)`))
	if len(open) != 0 {
		t.Errorf("not shut to other clubs: %v", open)
	}
}

func TestProgramOwnsNothing(t *testing.T) {
	r := open(t)
	var owned []string
	must(t, r.admin.Select(&owned, `
		select objid::regclass::text from pg_shdepend
		where refobjid = 'detent_app'::regrole and deptype = 'o'`))
	if len(owned) != 0 {
		t.Errorf("it owns %v", owned)
	}
	var powers []string
	must(t, r.admin.Select(&powers, `
		select rolname from pg_roles where rolname = 'detent_app'
			and (rolsuper or rolbypassrls or rolcreaterole or rolcreatedb or rolreplication or rolcanlogin)`))
	if len(powers) != 0 {
		t.Error("its role may do more than the grants say")
	}
	var grants []string
	must(t, r.admin.Select(&grants, `
		select distinct table_name || ' ' || privilege_type from information_schema.column_privileges
		where grantee in ('detent_app', 'PUBLIC') and table_schema = 'public'
			and table_name in ('changes', 'clicks', 'positions') order by 1`))
	same(t, grants, []string{"changes INSERT", "changes SELECT", "clicks INSERT", "clicks SELECT", "positions SELECT"})
	r.asProgram(sam.Club, func(tx *sqlx.Tx) {
		for _, statement := range []string{
			`alter table cars disable row level security`,
			`alter table cars no force row level security`,
			`drop policy club_only on cars`,
			`drop trigger changes_kept on changes`,
			`truncate changes`,
			`delete from changes`,
			`delete from cars`,
			`delete from members`,
			`update changes set person = null`,
			`update clicks set to_click = 0`,
			`insert into positions (car, corner, adjuster, clicks, change) values (1, 'FL', 'rebound', 0, 1)`,
			`update positions set clicks = 0`,
			`create table mine ()`,
			`insert into migrations (version_id, is_applied) values (9999, true)`,
			`select club_only('cars')`,
			`set session_replication_role = replica`,
			`set local row_security = off; select * from cars`,
		} {
			refused(t, tx, forbidden, statement)
		}
	})
}

// The pool itself works as that role, not as the user of the URL.
func TestPoolWorksAsTheProgram(t *testing.T) {
	r := open(t)
	err := r.try(sam, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, robin.Person) })
	must(t, err)
	r.admin.MustExec(`revoke execute on function erase_person from detent_app`)
	err = r.try(sam, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, robin.Person) })
	if pq.As(err, pqerror.InsufficientPrivilege) == nil {
		t.Errorf("what the role was not granted: %v", err)
	}
}

// The log is only added to, by anyone.
func TestLogIsKept(t *testing.T) {
	r := open(t)
	r.everything(sam)
	tx, err := r.admin.Beginx() // as the owner of the tables
	must(t, err)
	defer tx.Rollback()
	kept := []pqerror.Code{pqerror.RestrictViolation}
	for _, statement := range []string{
		`update changes set at = now()`,
		`update changes set person = null`,
		`update changes set person = null, reason = 'search'`,
		`update clicks set to_click = to_click`,
		`delete from changes`,
		`delete from clicks`,
		`delete from cars`,
		`truncate changes cascade`,
		`truncate clicks`,
	} {
		refused(t, tx, kept, statement)
	}
}

// A line of the log that cannot be true is refused by the database.
func TestLogIsTrue(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	other := r.car(robin, "Red hatch")
	c := r.theCase(sam)
	stands := c.Setting[tuning.FL][tuning.Rebound]
	tx, err := r.admin.Beginx()
	must(t, err)
	defer tx.Rollback()
	tx.MustExec(`select set_config('detent.club', $1, true)`, sam.Club)
	change := func(reason string) (id int64) {
		must(t, tx.Get(&id, `insert into changes (car, at, person, reason) values ($1, $2, $3, $4) returning id`, car.ID, morning, sam.Person, reason))
		return id
	}
	hand, fitting := change("by hand"), change("fitted")
	insert := `insert into clicks (car, change, corner, adjuster, from_click, to_click) values ($1, $2, 'FL', $3, $4, $5)`
	for _, line := range []struct {
		why      string
		change   int64
		adjuster string
		from     any
		to       int
		want     string
	}{
		{"it starts elsewhere", hand, "rebound", stands + 1, stands, "clicks_follow"},
		{"it starts nowhere", hand, "rebound", nil, stands, "clicks_follow"},
		{"it is past the hard stop", hand, "rebound", stands, 21, "clicks_in_range"},
		{"it is past the soft stop", hand, "rebound", stands, -1, "clicks_in_range"},
		{"there is no such adjuster", hand, "bump", 0, 0, "clicks_in_range"},
		{"a fitting starts somewhere", fitting, "rebound", stands, stands, "clicks_follow"},
		{"a fitting where something is fitted", fitting, "rebound", nil, stands, "clicks_follow"},
	} {
		tx.MustExec(`savepoint before`)
		_, err := tx.Exec(insert, car.ID, line.change, line.adjuster, line.from, line.to)
		if e := pq.As(err, pqerror.CheckViolation); e == nil || e.Constraint != line.want {
			t.Errorf("%s: %v, want it refused by %s", line.why, err, line.want)
		}
		tx.MustExec(`rollback to before`)
	}
	refused(t, tx, []pqerror.Code{pqerror.ForeignKeyViolation},
		`insert into changes (car, at, person, reason, undoes) values ($1, now(), $2, 'undo', $3)`, other.ID, sam.Person, hand)
	tx.MustExec(insert, car.ID, hand, "rebound", stands, 20) // and what is true is taken
}

// What the schema says of a damper is what tuning says.
func TestImpossibleDampersAreRefused(t *testing.T) {
	r := open(t)
	for _, d := range []tuning.Damper{
		{Ways: 1, Count: tuning.FromHard, Range: [tuning.Adjusters]int{tuning.Rebound: 8}},
		{Ways: 2, Count: tuning.FromHard, Moves: tuning.MovesBoth, Range: [tuning.Adjusters]int{tuning.Bump: 8, tuning.Rebound: 8}},
		{Ways: 2, Count: tuning.FromHard, Range: [tuning.Adjusters]int{tuning.LowBump: 8, tuning.Rebound: 8}},
		{Ways: 3, Count: tuning.FromHard, Range: [tuning.Adjusters]int{tuning.LowBump: 8, tuning.Rebound: 8}},
		{Ways: 2, Count: tuning.FromHard, Range: [tuning.Adjusters]int{tuning.Bump: 100, tuning.Rebound: 8}},
		{Ways: 2, Count: "middle", Range: [tuning.Adjusters]int{tuning.Bump: 8, tuning.Rebound: 8}},
		{Ways: 5, Count: tuning.FromHard, Range: [tuning.Adjusters]int{8, 8, 8, 8, 8, 0}},
	} {
		if d.Validate() == nil {
			t.Fatalf("%+v is possible", d)
		}
		err := r.try(sam, func(ctx context.Context, b *store.Book) error {
			car, err := b.SaveCar(ctx, hatch(sam, "Blue hatch"))
			if err != nil {
				return err
			}
			car.Dampers[tuning.Front] = d
			return b.FitDampers(ctx, car, tuning.Front, nil)
		})
		if pq.As(err, pqerror.CheckViolation) == nil {
			t.Errorf("%+v: %v, want it refused", d, err)
		}
	}
}

// The user of the URL, who comes to own the tables, need not be a superuser.
func TestOwnerWithoutPowers(t *testing.T) {
	storetest.URL(t) // has made the roles
	address := storetest.Empty(t)
	admin := connect(t, address)
	owner := fmt.Sprintf("owner_%d", os.Getpid())
	admin.MustExec(`create role ` + owner + ` login in role detent_app, detent_rehearsal`)
	t.Cleanup(func() {
		admin.MustExec(`reassign owned by ` + owner + ` to postgres; drop owned by ` + owner + `; drop role ` + owner)
	})
	var database string
	must(t, admin.Get(&database, `select current_database()`))
	admin.MustExec(`alter database ` + database + ` owner to ` + owner)

	u, err := url.Parse(address)
	must(t, err)
	u.User = url.User(owner)
	r := record{t, u.String(), openAt(t, u.String()), admin}
	r.everything(sam)
	r.everything(robin)
	r.once(sam, func(ctx context.Context, b *store.Book) error { return b.Erase(ctx, sam.Person) })
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		mine, err := b.Cars(ctx, sam.Person)
		theirs, err2 := b.Cars(ctx, robin.Person)
		if len(mine) != 0 || len(theirs) != 1 {
			t.Errorf("after erasing there are %d and %d cars", len(mine), len(theirs))
		}
		return errors.Join(err, err2)
	})
	r.db.Close()
}
