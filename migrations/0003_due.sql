-- What is due: reminders, guides and digests. The truth is the row. A
-- heartbeat claims rows whose time has come, sends outside any transaction and
-- settles them; which it does for all clubs at once.

-- +goose Up

create table due (
    club       text not null default current_setting('detent.club') references clubs,
    id         bigint generated always as identity,
    kind       text not null check (kind in ('ask-feel', 'ask-again', 'check-before', 'post-guide', 'digest')),
    person     text,
    event      bigint,
    due_at     timestamptz not null,
    until      timestamptz not null check (due_at < until),
    next_at    timestamptz,
    attempts   smallint not null default 0,
    lease      uuid,
    settled_at timestamptz,
    outcome    text check (outcome in ('sent', 'dropped', 'gave up', 'withdrawn')),
    note       text not null default '',
    primary key (club, id),
    foreign key (club, person) references members on delete cascade,
    foreign key (club, event) references events,
    check (next_at is not null or outcome is not null)
);
create unique index due_once on due (club, coalesce(event, 0), coalesce(person, ''), kind);
create index due_fresh on due (next_at, id) where attempts = 0 and next_at is not null;
create index due_tried on due (next_at, id) where attempts > 0 and next_at is not null;
create index due_person on due (club, person);
select club_only('due');
-- The owner alone sees the rows of all clubs, and works only in claim_due.
alter table due no force row level security;
grant select, insert, update on due to detent_app;
comment on table due is 'One row for each thing of an event and a person, for good: what was sent is known to have been sent.';
comment on column due.person is 'Whom it is for, null for the club''s channel.';
comment on column due.until is 'From then on it is of no use.';
comment on column due.next_at is 'When it may be claimed next: its time, or the end of a pause or a lease. Null when nothing is left to do.';
comment on column due.attempts is 'How often it was claimed to be sent since it was scheduled.';
comment on column due.lease is 'The token of whoever claimed it last. Only with it can the row be settled.';
comment on column due.outcome is 'What came of it last, and when in settled_at, and why in note.';

-- +goose StatementBegin
create function meets_at(club text, place text) returns boolean language sql immutable as $$
    select case place when '' then strpos(club, ':') = 0 else starts_with(club, place || ':') end;
$$;
-- +goose StatementEnd
comment on function meets_at is 'Tells whether a club is of a place, the word before the colon of its key; those without one have none.';

-- What was tried before comes first: it may have been sent, and the platform
-- knows only for some minutes that it was.
-- +goose StatementBegin
create function claim_due(moment timestamptz, place text, lasting interval, most integer)
    returns table (id bigint, club text, kind text, person text, event bigint,
        at timestamptz, until timestamptz, attempts smallint, lease uuid)
    language sql security definer set search_path = public, pg_temp as $$
    with tried as materialized (
        select d.club, d.id from due d
        where d.next_at <= moment and d.attempts > 0 and meets_at(d.club, place)
        order by d.next_at, d.id
        limit most
        for update skip locked
    ), fresh as materialized (
        select d.club, d.id from due d
        where d.next_at <= moment and d.attempts = 0 and meets_at(d.club, place)
        order by d.next_at, d.id
        limit most - (select count(*) from tried)
        for update skip locked
    ), claimed as (
        update due d
        set lease = gen_random_uuid(), next_at = moment + lasting, attempts = d.attempts + 1
        from (table tried union all table fresh) free
        where d.club = free.club and d.id = free.id
        returning d.*
    )
    select c.id, c.club, c.kind, coalesce(c.person, ''), coalesce(c.event, 0), c.due_at, c.until, c.attempts, c.lease
    from claimed c
    order by c.due_at, c.id;
$$;
-- +goose StatementEnd
revoke execute on function claim_due from public;
grant execute on function claim_due to detent_app;
comment on function claim_due is 'Claims for so long what is due in any club of a place: the one door between clubs. Each row is claimed by one caller, and again by another when its lease has run out.';

-- +goose StatementBegin
create function waiting(moment timestamptz, place text) returns bigint
    language sql stable security definer set search_path = public, pg_temp as $$
    select count(*) from due where next_at <= moment and meets_at(club, place);
$$;
-- +goose StatementEnd
revoke execute on function waiting from public;
grant execute on function waiting to detent_app;
comment on function waiting is 'How many things are due in the clubs of a place and not yet sent. It tells a number and nothing else of any club.';
