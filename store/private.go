package store

import (
	"context"
	"errors"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"
)

// OpenPrivate is Open for a server of the program's own, which lets in whoever
// reaches it, named by its owner's URL. The owner only migrates: the program
// logs in as the role it works as, and can become nothing else.
func OpenPrivate(ctx context.Context, owner string) (*DB, error) {
	return openPrivate(ctx, owner, serving)
}

// RehearsePrivate is OpenPrivate for asks that take another time for now.
func RehearsePrivate(ctx context.Context, owner string) (*DB, error) {
	return openPrivate(ctx, owner, rehearsal)
}

func openPrivate(ctx context.Context, owner string, role role) (*DB, error) {
	config, err := configure(owner)
	if err != nil {
		return nil, err
	}
	config.User = string(role)
	db, err := open(ctx, config, role)
	shut := pq.As(err, pqerror.InvalidAuthorizationSpecification) != nil // no such role yet, or one without a login
	if !shut && !errors.Is(err, errBehind) {
		return readingOlder(ctx, db, err)
	}
	if err := errors.Join(Migrate(ctx, owner), admit(ctx, owner)); err != nil {
		return nil, problem(err)
	}
	db, err = open(ctx, config, role)
	if errors.Is(err, errBehind) {
		err = problem(err)
	}
	return readingOlder(ctx, db, err)
}

// admit lets the roles that the program works as log in. Of several processes
// that do so at once, each finds it done or waits for the other.
func admit(ctx context.Context, owner string) error {
	config, err := configure(owner)
	if err != nil {
		return err
	}
	pool, err := connect(config, nil)
	if err != nil {
		return err
	}
	defer pool.Close()
	_, err = pool.ExecContext(ctx, `
		do $$
		declare
			shut name;
		begin
			perform pg_advisory_xact_lock(hashtext('detent roles'));
			for shut in select rolname from pg_roles where rolname in ('detent_app', 'detent_rehearsal') and not rolcanlogin loop
				execute format('alter role %I login', shut);
			end loop;
		end $$`)
	return problem(err)
}
