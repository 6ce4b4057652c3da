-- Messages that people send each other: what coaches write and suggest reaches
-- the student, and an organiser tells those who are in an event something.

-- +goose Up

alter table members add column messages boolean not null default true;
comment on column members.messages is 'Whether what coaches and organisers write reaches them as a direct message.';

-- What coaches write ---------------------------------------------------------

alter table coachings add column told_at timestamptz;
grant update (told_at) on coachings to detent_app;
comment on column coachings.told_at is 'When the student was told how to stop the messages that come of it; null while they were not.';

-- What was written before this could be read all along: it counts as seen.
alter table coach_notes add column seen_at timestamptz default now();
alter table coach_notes alter column seen_at drop default;
create index coach_notes_unseen on coach_notes (club, student, id) where seen_at is null;
grant update (seen_at) on coach_notes to detent_app;
comment on column coach_notes.seen_at is 'When the student read it; null while they have not.';

alter table advice add column seen_at timestamptz;
create index advice_unseen on advice (club, car, id)
    where coach is not null and seen_at is null and applied is null and declined is null;
grant update (seen_at) on advice to detent_app;
comment on column advice.seen_at is 'When the student read a coach''s suggestion; null while they have not, and for the bot''s own.';

-- What organisers tell -------------------------------------------------------

create table event_messages (
    club   text not null default current_setting('detent.club'),
    id     bigint generated always as identity,
    event  bigint not null,
    sender text not null,
    at     timestamptz not null,
    text   text not null check (length(text) between 1 and 1000),
    primary key (club, id),
    foreign key (club, event) references events,
    foreign key (club, sender) references members on delete cascade
);
create index event_messages_event on event_messages (club, event, at);
create index event_messages_sender on event_messages (club, sender);
select club_only('event_messages');
grant select, insert on event_messages to detent_app;
comment on table event_messages is 'What an organiser told those who were in an event. To whom it goes stands in due.';

-- When they go out -----------------------------------------------------------

alter table due
    add column about bigint,
    drop constraint due_kind_check,
    add check (kind in ('ask-feel', 'ask-again', 'check-before', 'post-guide', 'digest', 'coach-note', 'suggestion', 'event-message')),
    add check ((about is not null) = (kind in ('coach-note', 'suggestion', 'event-message'))),
    add check (about is null or person is not null);
comment on column due.about is 'The coach''s note, the suggestion (an advice) or the event''s message that it brings to the person; null for what the program says of itself.';
drop index due_once;
create unique index due_once on due (club, coalesce(event, 0), coalesce(person, ''), kind, coalesce(about, 0));
create index due_messages on due (club, person, due_at) where about is not null;

-- As before, and tells what a thing is about.
drop function claim_due;
-- +goose StatementBegin
create function claim_due(moment timestamptz, place text, lasting interval, most integer)
    returns table (id bigint, club text, kind text, person text, event bigint, about bigint,
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
    select c.id, c.club, c.kind, coalesce(c.person, ''), coalesce(c.event, 0), coalesce(c.about, 0), c.due_at, c.until, c.attempts, c.lease
    from claimed c
    order by c.due_at, c.id;
$$;
-- +goose StatementEnd
revoke execute on function claim_due from public;
grant execute on function claim_due to detent_app;
comment on function claim_due is 'Claims for so long what is due in any club of a place: the one door between clubs. Each row is claimed by one caller, and again by another when its lease has run out.';
