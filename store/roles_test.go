package store_test

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jmoiron/sqlx"
	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/store"
	"detent/store/localpg"
	"detent/tuning"
)

// These tests try what somebody could who has the login of a serving program
// and a prompt.

// as is a URL for another user.
func as(t *testing.T, address, user string) string {
	t.Helper()
	u, err := url.Parse(address)
	must(t, err)
	u.User = url.User(user)
	return u.String()
}

// fresh starts a server that holds nothing yet.
func fresh(t *testing.T) (owner string) {
	t.Helper()
	server, err := localpg.Start(t.Context(), t.TempDir(), localpg.Throwaway())
	must(t, err)
	t.Cleanup(func() { must(t, server.Close()) })
	return server.URL(localpg.Database)
}

// handChange saves a car for somebody and fits its dampers at some moment.
func handChange(ctx context.Context, db *store.DB, id string, at time.Time) error {
	who := tuning.Who{Club: sam.Club, Person: "person-" + id, Name: id}
	_, err := db.Once(ctx, who, at, id, func(b *store.Book) ([]byte, error) {
		car, err := b.SaveCar(ctx, hatch(who, "Car "+id))
		if err != nil {
			return nil, err
		}
		return nil, fit(ctx, b, &car, damper())
	})
	return err
}

// On a server of its own the program logs in as a role that can become nothing
// else, and dates a change now or not at all; rehearsing takes another role.
func TestPrivateServerRoles(t *testing.T) {
	owner := fresh(t)
	errs := make(chan error)
	const together = 6
	for i := range together { // as several processes would at once
		go func() {
			way := store.OpenPrivate
			if i%2 == 1 {
				way = store.RehearsePrivate
			}
			db, err := way(t.Context(), owner)
			if err == nil {
				err = db.Close()
			}
			errs <- err
		}()
	}
	for range together {
		must(t, <-errs)
	}
	db, err := store.OpenPrivate(t.Context(), owner)
	must(t, err)
	defer db.Close()
	if db.Unconfined() {
		t.Error("the program's login may do more than it needs")
	}
	must(t, handChange(t.Context(), db, "now", time.Now()))
	for _, at := range []time.Time{morning, time.Now().Add(6 * time.Minute), time.Now().Add(-6 * time.Minute)} {
		err := handChange(t.Context(), db, "then", at)
		if pq.As(err, pqerror.CheckViolation) == nil || tuning.KindOf(err) != tuning.Internal {
			t.Errorf("a change is dated %v: %v", at, err)
		}
	}
	rehearsed, err := store.RehearsePrivate(t.Context(), owner)
	must(t, err)
	defer rehearsed.Close()
	if rehearsed.Unconfined() {
		t.Error("the login for rehearsing may do more than it needs")
	}
	must(t, handChange(t.Context(), rehearsed, "then", morning))

	_, err = store.Rehearse(t.Context(), as(t, owner, "detent_app"))
	wantRefusal(t, err, tuning.CannotRehearse)
	given, err := store.Open(t.Context(), as(t, owner, "detent_app"))
	must(t, err)
	must(t, given.Close())
	owned, err := store.Open(t.Context(), owner)
	must(t, err)
	if !owned.Unconfined() {
		t.Error("nobody is told that the login is the owner's")
	}
	must(t, owned.Close())

	login := connect(t, as(t, owner, "detent_app"))
	login.SetMaxOpenConns(1)
	for _, statement := range []string{
		`set role postgres`, `set role detent_rehearsal`, `set session authorization postgres`, `set session authorization detent_rehearsal`,
		`alter role detent_app superuser`, `grant detent_rehearsal to detent_app`, `create role mine`, `create table mine ()`, `create schema mine`,
		`create temporary table mine ()`, `select pg_read_file('/etc/passwd')`, `copy members to program 'cat'`, `copy members to '/tmp/members'`,
		`alter table changes disable trigger changes_now`, `drop function rehearsing()`,
		`create or replace function rehearsing() returns boolean language sql as 'select true'`,
		`set session_replication_role = replica`, `insert into migrations (version_id, is_applied) values (9999, true)`,
		`select pg_terminate_backend(pid) from pg_stat_activity where usename = 'postgres'`,
	} {
		if _, err := login.Exec(statement); pq.As(err, pqerror.InsufficientPrivilege) == nil {
			t.Errorf("%s: %v", statement, err)
		}
	}
	// A setting that looks like another role makes it none.
	login.MustExec(`select set_config('detent.club', $1, false)`, sam.Club)
	for _, trick := range []string{`set role none`, `reset role`, `set detent.rehearsing = on`} {
		login.MustExec(trick)
		_, err := login.Exec(`insert into changes (car, at, person, reason) select id, now() - interval '1 day', owner, 'by hand' from cars limit 1`)
		if pq.As(err, pqerror.CheckViolation) == nil {
			t.Errorf("after %s a change is dated yesterday: %v", trick, err)
		}
	}
}

// An owner who is no superuser and makes the roles.
func TestOwnerWhoMakesRoles(t *testing.T) {
	address := fresh(t)
	admin := connect(t, address)
	admin.MustExec(`create role keeper login createrole`)
	admin.MustExec(`alter database ` + localpg.Database + ` owner to keeper`)
	keeper := as(t, address, "keeper")
	must(t, store.Migrate(t.Context(), keeper))
	rehearsed, err := store.Rehearse(t.Context(), keeper)
	must(t, err)
	defer rehearsed.Close()
	must(t, handChange(t.Context(), rehearsed, "then", morning))

	// The recipe of the README.
	connect(t, keeper).MustExec(`alter role detent_app login password 'choose-two'`)
	served, err := store.Open(t.Context(), as(t, address, "detent_app"))
	must(t, err)
	defer served.Close()
	if served.Unconfined() || !rehearsed.Unconfined() {
		t.Error("which login may do more than it needs is told wrongly")
	}
	must(t, handChange(t.Context(), served, "now", time.Now()))
	r := record{t, keeper, rehearsed, admin}
	r.confined(connect(t, as(t, address, "detent_app")))
}

// Who serves cannot migrate, and is told who can.
func TestServingCannotMigrate(t *testing.T) {
	owner := fresh(t)
	connect(t, owner).MustExec(`create role detent_app login`)
	_, err := store.Open(t.Context(), as(t, owner, "detent_app"))
	wantRefusal(t, err, tuning.CannotMigrate)
}

// callable are the functions that serving may call, and how somebody might try
// to reach another club with them. $1 is the other club, $2 a person of it.
var callable = map[string]string{
	"arrive":          `select arrive('nowhere', $2, 'request-1') where $1 <> ''`,
	"claim_due":       `select claim_due(now(), $1, interval '1 hour', 10) where $2 <> ''`,
	"erase_person":    `select erase_person($2) where $1 <> ''`,
	"event_of":        `select event_of(id, now(), '1 year') from generate_series(1, 99) id where $1 <> $2`,
	"forget_clubs":    `select forget_clubs('infinity') where $1 <> $2`,
	"forget_requests": `select forget_requests('infinity', 1000) where $1 <> $2`,
	"given_advice":    `select given_advice(id, $2) from generate_series(1, 99) id where $1 <> ''`,
	"keep_reply":      `select keep_reply($2, 'forged', now(), '', null) where $1 <> ''`,
	"known_clubs":     `select known_clubs($1) where $2 <> ''`,
	"open_book":       `select open_book('nowhere', $2, 'request-1') where $1 <> ''`,
	"record_change":   `select record_change(id, now(), $2, 'by hand', null, 0, 0::smallint, 0, true, '{FL}', '{rebound}', '{10}', '{12}') from generate_series(1, 99) id where $1 <> ''`,
	"rehearsing":      `select rehearsing() where $1 <> $2`,
	"unread_clubs":    `select unread_clubs() where $1 <> $2`,
	"waiting":         `select waiting('infinity', $1) where $2 <> ''`,
}

func TestServingIsConfined(t *testing.T) {
	r := open(t)
	login := connect(t, r.url)
	login.SetMaxOpenConns(1)
	login.MustExec(`set role detent_app`)
	r.confined(login)
}

// confined tries every function and every table as a login of the serving role.
func (r record) confined(login *sqlx.DB) {
	r.Helper()
	login.SetMaxOpenConns(1)
	r.everything(sam)
	r.everything(elsewhere)
	r.admin.MustExec(`update requests set at = now()`) // older ones may be forgotten
	r.admin.MustExec(`update drafts set at = now()`)
	before := r.contents(sam.Club)
	login.MustExec(`select set_config('detent.club', $1, false)`, elsewhere.Club)

	var functions []struct {
		Name    string
		Trigger bool
		Allowed bool
		Public  bool
	}
	must(r.T, r.admin.Select(&functions, `
		select proname as name, prorettype = 'trigger'::regtype as trigger,
			has_function_privilege('detent_app', oid, 'execute') as allowed,
			proacl is null or exists (select from aclexplode(proacl) where grantee = 0) as public
		from pg_proc where pronamespace = 'public'::regnamespace order by 1`))
	for _, f := range functions {
		attempt, known := callable[f.Name]
		if f.Allowed != known || f.Public || f.Trigger && f.Allowed {
			r.Errorf("the function %s may be called: by serving %v, by anyone %v", f.Name, f.Allowed, f.Public)
		}
		if known {
			if _, err := login.Exec(attempt, sam.Club, sam.Person); err != nil {
				r.discreet(f.Name, err)
			}
		}
	}
	if len(functions) < len(callable)+8 {
		r.Errorf("there are only %d functions", len(functions))
	}

	// Even with temporary tables no function of ours becomes a trigger.
	if _, err := login.Exec(`create temporary table mine (like clicks)`); pq.As(err, pqerror.InsufficientPrivilege) == nil {
		r.Errorf("a temporary table: %v", err)
	}
	r.admin.MustExec(`do $$ begin execute format('grant temporary on database %I to detent_app', current_database()); end $$`)
	login.MustExec(`create temporary table mine (like clicks)`)
	for _, f := range functions {
		if _, err := login.Exec(`create trigger t after insert on mine for each row execute function ` + f.Name + `()`); err == nil {
			r.Errorf("%s becomes the trigger of a table of one's own", f.Name)
		}
	}
	for _, table := range r.tables() {
		for _, attempt := range []string{`truncate %s`, `truncate %s cascade`, `drop table %s`, `alter table %s disable trigger all`,
			`create rule r as on select to %s do instead nothing`, `alter table %s owner to detent_app`, `lock table %s in access exclusive mode`,
			`create trigger t before insert on %s for each row execute function suppress_redundant_updates_trigger()`,
			`update %s set club = 'harrow-hill'`, `delete from %s where club = 'harrow-hill'`} {
			result, err := login.Exec(fmt.Sprintf(attempt, table))
			if err == nil {
				if n, _ := result.RowsAffected(); n != 0 || !strings.HasPrefix(attempt, "update") && !strings.HasPrefix(attempt, "delete") {
					r.Errorf(attempt+" is done", table)
				}
				continue
			}
			r.discreet(table, err)
		}
	}
	same(r.T, r.contents(sam.Club), before)
}

// contents are all rows of a club, but for what claiming changes.
func (r record) contents(club string) map[string][]string {
	r.Helper()
	all := map[string][]string{}
	for _, table := range r.tables() {
		var rows []string
		must(r.T, r.admin.Select(&rows, `
			select (to_jsonb(t) - '{lease,next_at,attempts}'::text[])::text from `+table+` t where club = $1`, club))
		slices.Sort(rows)
		all[table] = rows
	}
	return all
}

// discreet wants an error without a word of another club's.
func (r record) discreet(what string, err error) {
	r.Helper()
	e, ok := errors.AsType[*pq.Error](err)
	if !ok {
		r.Errorf("%s: %v", what, err)
		return
	}
	for _, text := range []string{e.Message, e.Detail, e.Hint, e.Where} {
		for _, word := range []string{"Car of", "said by", "Brake later", "the log\"", "Sam"} {
			if strings.Contains(text, word) {
				r.Errorf("%s: the error says %q", what, text)
			}
		}
	}
}

// A line is added to a change by whoever adds the change, and never later.
func TestOldChangesStay(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	var change tuning.Change
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		change, err = b.Record(ctx, c.Car, byHand(turn(c, tuning.Rebound, 1)))
		return err
	})
	at := c.Setting[tuning.RL][tuning.HighBump]
	add := `insert into clicks (car, change, corner, adjuster, from_click, to_click) values ($1, $2, 'RL', 'high-bump', $3::smallint, $3::smallint + 1)`
	r.asProgram(sam.Club, func(tx *sqlx.Tx) {
		refused(t, tx, []pqerror.Code{pqerror.RestrictViolation}, add, car.ID, change.ID, at)
	})
	r.asProgram(sam.Club, func(tx *sqlx.Tx) {
		var fresh int64
		must(t, tx.Get(&fresh, `insert into changes (car, at, person, reason) values ($1, now(), $2, 'by hand') returning id`, car.ID, sam.Person))
		tx.MustExec(add, car.ID, fresh, at)
	})
}

func TestClockSkewIsNotReady(t *testing.T) {
	r := open(t)
	ctx := t.Context()
	for _, by := range []time.Duration{0, 4 * time.Minute, -4 * time.Minute} {
		must(t, r.db.Ready(ctx, time.Now().Add(by)))
	}
	for _, by := range []time.Duration{6 * time.Minute, -6 * time.Minute} {
		err := r.db.Ready(ctx, time.Now().Add(by))
		if skew, ok := errors.AsType[tuning.ClockSkew](err); !ok || skew.Apart.Round(time.Minute) != 6*time.Minute {
			t.Errorf("clocks %v apart: %v", by, err)
		}
	}
	must(t, r.db.Close())
	if r.db.Ready(ctx, time.Now()) == nil {
		t.Error("a record that is closed is ready")
	}
}
