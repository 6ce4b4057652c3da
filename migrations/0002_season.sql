-- The season: events, the cars entered in them, and what of the record belongs
-- to which event.

-- +goose Up

create table events (
    club       text not null default current_setting('detent.club') references clubs,
    id         bigint generated always as identity,
    name       text not null check (length(name) between 1 and 60),
    starts     timestamptz not null,
    ends       timestamptz not null,
    place      text not null,
    surface    text not null check (surface in ('', 'smooth', 'bumpy')),
    weather    text not null check (weather in ('', 'dry', 'wet')),
    most       smallint not null check (most >= 0),
    organiser  text,
    cancelled  boolean not null default false,
    guide_at   timestamptz,
    guide_hash text not null default '',
    gone_cars    smallint not null default 0,
    gone_answers smallint not null default 0,
    version    bigint not null default 1,
    primary key (club, id),
    foreign key (club, organiser) references members on delete set null (organiser),
    check (starts < ends)
);
create index events_ends on events (club, ends);
create index events_organiser on events (club, organiser);
select club_only('events');
grant select, insert, update on events to detent_app;
comment on column events.surface is 'Empty is not said, as for weather.';
comment on column events.most is 'The most cars, 0 for no limit.';
comment on column events.organiser is 'Who made it; null when they have left the club for good.';
comment on column events.guide_at is 'When the guide is posted by itself, null for by hand.';
comment on column events.guide_hash is 'Of the guide as last posted, empty for never.';
comment on column events.gone_cars is 'How many cars were in whose owners have left for good, and in gone_answers how many of them had answered.';
comment on column events.version is 'Goes up with every entry; taking it locks the event.';

create table entries (
    club     text not null default current_setting('detent.club'),
    event    bigint not null,
    car      bigint not null,
    at       timestamptz not null,
    reminded boolean not null,
    left_at  timestamptz,
    primary key (club, event, car),
    foreign key (club, event) references events,
    foreign key (club, car) references cars on delete cascade
);
create index entries_car on entries (club, car);
select club_only('entries');
grant select, insert, update on entries to detent_app;
comment on column entries.reminded is 'Whether the check before the event and the question after it are wanted.';
comment on column entries.left_at is 'When the car was taken out again, null while it is in.';

-- What of the record belongs to an event ------------------------------------

alter table changes add foreign key (club, event) references events;
alter table feels add foreign key (club, event) references events;
alter table searches add foreign key (club, event) references events;
alter table advice add column event bigint, add foreign key (club, event) references events;
create index changes_event on changes (club, event) where event is not null;
create index feels_event on feels (club, event, car) where event is not null;
create index searches_event on searches (club, event) where event is not null;
create index advice_event on advice (club, event) where event is not null;
comment on column changes.event is 'The event that the car was entered in that day, null for none; as for searches, advice and feels, where it may also be named.';

-- +goose StatementBegin
create function event_of(entered bigint, moment timestamptz, afterwards interval) returns bigint
    language sql stable as $$
    select e.id
    from entries n join events e on e.club = n.club and e.id = n.event
    where n.car = entered and n.left_at is null and not e.cancelled
        and moment between e.starts - interval '12 hours' and e.ends + afterwards
    order by e.starts <= moment desc, case when e.starts <= moment then e.starts end desc, e.starts
    limit 1
$$;
-- +goose StatementEnd
comment on function event_of is 'The event whose day a moment belongs to for a car entered in it: from twelve hours before it starts, when the car is made ready, to so long after it ends. Of two, the one that began last, and of two that have not begun the next.';

-- +goose StatementBegin
create function at_event() returns trigger
    language plpgsql set search_path = public, pg_temp as $$
begin
    new.event := coalesce(new.event, event_of(new.car, (to_jsonb(new)->>tg_argv[0])::timestamptz, tg_argv[1]::interval));
    return new;
end $$;
-- +goose StatementEnd
comment on function at_event is 'Puts a new row that names no event to the one its car is at. It is told which column holds the time, and how long after the end of an event still belongs to it.';
create trigger changes_at_event before insert on changes for each row execute function at_event('at', '12 hours');
create trigger advice_at_event before insert on advice for each row execute function at_event('at', '12 hours');
create trigger searches_at_event before insert on searches for each row execute function at_event('started', '12 hours');
-- Whoever is asked how the car felt may take three days to answer.
create trigger feels_at_event before insert on feels for each row execute function at_event('at', '84 hours');

-- Erasing keeps the club's totals: how many cars were in, and how many had
-- answered, without whose they were.
-- +goose StatementBegin
create or replace function erase_person(leaver text) returns void
    language plpgsql security definer set search_path = public, pg_temp as $$
declare
    here text := current_setting('detent.club');
begin
    update events e
        set gone_cars = gone_cars + t.cars, gone_answers = gone_answers + t.answers
        from (
            select n.event, count(*) as cars, count(*) filter (where exists (
                select from feels f where f.club = n.club and f.event = n.event and f.car = n.car)) as answers
            from entries n join cars c on c.club = n.club and c.id = n.car
            where n.club = here and c.owner = leaver and n.left_at is null
            group by n.event) t
        where e.club = here and e.id = t.event;
    delete from members where club = here and person = leaver;
end $$;
-- +goose StatementEnd
