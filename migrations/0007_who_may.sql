-- Who may do what, drawn tighter: what the serving role may run, when a change
-- may be dated and lines added to it, and what of a coach's replies and looks
-- is kept for whom.

-- +goose Up

-- Roles ---------------------------------------------------------------------

-- Rehearsing is done as a role of its own, since it may date a change as it
-- likes. Whoever migrates may lack the right to make it or to hand it on: then
-- there is no rehearsal on this server, and all else works.
-- +goose StatementBegin
do $$
begin
    if not exists (select from pg_roles where rolname = 'detent_rehearsal') then
        create role detent_rehearsal nologin;
    end if;
exception
    when duplicate_object or unique_violation then
        null;
    when insufficient_privilege then
        raise notice 'no role detent_rehearsal: % may not create it', current_user;
end $$;
-- +goose StatementEnd

-- +goose StatementBegin
do $$
begin
    if exists (select from pg_roles where rolname = 'detent_rehearsal') then
        begin
            grant detent_app to detent_rehearsal;
        exception when insufficient_privilege or unique_violation then
            null;
        end;
        begin
            grant detent_rehearsal to current_user;
        exception when insufficient_privilege or unique_violation then
            null;
        end;
    end if;
end $$;
-- +goose StatementEnd

-- The role that a session works as: that of "set role", else that of its login.
-- It is the same inside a function with the rights of its owner.
-- +goose StatementBegin
create function rehearsing() returns boolean
    language plpgsql stable set search_path = pg_catalog, pg_temp as $$
begin
    return exists (
        select from pg_roles
        where rolname = 'detent_rehearsal'
            and pg_has_role(coalesce(nullif(current_setting('role'), 'none'), session_user)::name, oid, 'member'));
end $$;
-- +goose StatementEnd
comment on function rehearsing is 'Tells whether the session may take another time for now.';

-- Functions and temporary tables --------------------------------------------

-- A function with its owner's rights that anyone may execute can be made the
-- trigger of a table of their own. What serving calls is granted by name.
-- +goose StatementBegin
do $$
declare
    ours regprocedure;
begin
    for ours in
        select oid from pg_proc p
        where pronamespace = 'public'::regnamespace and prokind = 'f'
            and not exists (select from pg_depend where classid = 'pg_proc'::regclass and objid = p.oid and deptype = 'e')
    loop
        execute format('revoke execute on function %s from public', ours);
    end loop;
end $$;
-- +goose StatementEnd
alter default privileges revoke execute on functions from public;
grant execute on function rehearsing, event_of, given_advice, record_change to detent_app;

-- +goose StatementBegin
do $$
begin
    execute format('revoke temporary on database %I from public', current_database());
end $$;
-- +goose StatementEnd

-- The log is dated and whole -------------------------------------------------

-- +goose StatementBegin
create function change_is_now() returns trigger
    language plpgsql as $$
begin
    if new.at not between clock_timestamp() - interval '5 minutes' and clock_timestamp() + interval '5 minutes'
        and not rehearsing() then
        raise exception 'a change is dated other than now'
            using errcode = 'check_violation', constraint = 'changes_now', table = 'changes';
    end if;
    return new;
end $$;
-- +goose StatementEnd
create trigger changes_now before insert on changes for each row execute function change_is_now();

-- As before, and a line goes with the transaction that adds its change. The
-- errors name no values: a row may be another club's.
-- +goose StatementBegin
create or replace function move_clicks() returns trigger
    language plpgsql security definer set search_path = public, pg_temp as $$
declare
    most    smallint;
    stood   smallint;
    fitting boolean;
    fresh   boolean;
begin
    select case new.adjuster
            when 'bump' then bump
            when 'rebound' then rebound
            when 'low-bump' then low_bump
            when 'high-bump' then high_bump
            when 'low-rebound' then low_rebound
            when 'high-rebound' then high_rebound
        end into most
        from dampers
        where club = new.club and car = new.car
            and axle = case when new.corner in ('FL', 'FR') then 'front' else 'rear' end::axle;
    if most is null or new.to_click not between 0 and most or new.from_click not between 0 and most then
        raise exception 'a line is past a stop'
            using errcode = 'check_violation', constraint = 'clicks_in_range', table = 'clicks';
    end if;
    select reason = 'fitted', xmin = pg_current_xact_id()::xid into fitting, fresh from changes
        where club = new.club and car = new.car and id = new.change;
    if not fresh then
        raise exception 'a line is added to an old change'
            using errcode = 'restrict_violation', constraint = 'log_kept', table = 'clicks';
    end if;
    select clicks into stood from positions
        where club = new.club and car = new.car and corner = new.corner and adjuster = new.adjuster
        for update;
    if new.from_click is distinct from stood or fitting <> (new.from_click is null) then
        raise exception 'a line does not start where the adjuster stands'
            using errcode = 'check_violation', constraint = 'clicks_follow', table = 'clicks';
    end if;
    insert into positions (club, car, corner, adjuster, clicks, change)
        values (new.club, new.car, new.corner, new.adjuster, new.to_click, new.change)
        on conflict (club, car, corner, adjuster)
        do update set clicks = excluded.clicks, change = excluded.change;
    return null;
end $$;
-- +goose StatementEnd

-- Replies are remembered for a while, and serving may not forget them sooner.
-- +goose StatementBegin
create or replace function forget_requests(before timestamptz, most integer) returns integer
    language sql security definer set search_path = public, pg_temp as $$
    with old as materialized (
        select club, person, id from requests
        where at < before and (at < now() - interval '29 days' or rehearsing())
        limit most for update skip locked
    ), forgotten as (
        delete from requests r using old o
        where r.club = o.club and r.person = o.person and r.id = o.id
        returning r.id
    )
    select count(*) from forgotten;
$$;
-- +goose StatementEnd

comment on column events.version is 'Goes up with every entry in an event that has a limit; taking it locks the event.';

-- Coaches and students -------------------------------------------------------

-- When a coach leaves for good, the student still sees that one looked.
alter table looks
    alter column coach drop not null,
    drop constraint looks_club_coach_fkey,
    add foreign key (club, coach) references members on delete set null (coach);
comment on column looks.coach is 'Null when they have left the club for good.';

alter table requests add column shows text[];
comment on column requests.shows is 'The students whose things the reply shows; it is not given again once one of those coachings has ended. Null for none.';
comment on column requests.reply is 'JSON in UTF-8: select convert_from(reply, ''UTF8''). Older ones are in a form of the program''s own.';

comment on column advice.setting is 'Where the clicks stood: adjusters by corner, in words, from full soft, without those at 0. Older rows hold four corners of six adjusters by number.';

drop function arrive(text, text, text);
-- +goose StatementBegin
create function arrive(here text, who text, request text,
    out known boolean, out name text, out reply bytea, out withheld boolean)
    language plpgsql as $$
declare
    shown text[];
begin
    perform set_config('detent.club', here, true);
    select exists (select from clubs),
        (select m.name from members m where m.person = who and not m.no_direct)
        into known, name;
    select r.reply, r.shows into reply, shown from requests r where r.person = who and r.id = request;
    withheld := shown is not null and exists (
        select from unnest(shown) seen (student)
        where not exists (
            select from coachings c
            where c.coach = who and c.student = seen.student and c.accepted is not null and c.ended is null));
end $$;
-- +goose StatementEnd
comment on function arrive is 'Makes the transaction one of a club, and tells whether the club is known, under what name the person is, null when they are not or the platform refused direct messages to them, what was answered to the request, null when nothing was, and whether that is no longer to be shown.';
grant execute on function arrive to detent_app;

drop function keep_reply(text, text, timestamptz, bytea);
-- +goose StatementBegin
create function keep_reply(who text, request text, moment timestamptz, said bytea, students text[]) returns void
    language plpgsql as $$
begin
    insert into requests (person, id, at, reply, shows) values (who, request, moment, said, students);
end $$;
-- +goose StatementEnd
comment on function keep_reply is 'Remembers what was answered to a request, and which students it shows.';
grant execute on function keep_reply to detent_app;
