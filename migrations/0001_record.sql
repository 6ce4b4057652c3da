-- The record: who is in a club, their cars and dampers, where the clicks
-- stand, the log of every change, the advice given and how the car felt.
--
-- Three things hold for every table, and the database sees to them itself:
--   * A row belongs to one club. It takes the club of the transaction, which
--     the setting detent.club names, and no other club can see it.
--   * The program works as the role detent_app, which owns nothing and may do
--     only what is granted beside each table: to the log it can only add.
--   * What belongs to a person hangs on their row in members and goes with it.

-- +goose Up

-- Roles are shared by all databases of a server, so another may have made it,
-- even this moment.
-- +goose StatementBegin
do $$
begin
    if not exists (select from pg_roles where rolname = 'detent_app') then
        create role detent_app nologin;
    end if;
exception when duplicate_object or unique_violation then
    null;
end $$;
-- +goose StatementEnd

-- Whoever migrates must be able to become the role. One who may not grant it
-- has it already, or is told.
-- +goose StatementBegin
do $$
begin
    grant detent_app to current_user;
exception
    when unique_violation then
        null;
    when insufficient_privilege then
        if not pg_has_role(current_user, 'detent_app', 'member') then
            raise;
        end if;
end $$;
-- +goose StatementEnd

revoke create on schema public from public;
grant usage on schema public to detent_app;
grant select on migrations to detent_app;

-- +goose StatementBegin
create function club_only(guarded regclass) returns void language plpgsql as $$
begin
    execute format('alter table %s enable row level security', guarded);
    execute format('alter table %s force row level security', guarded);
    execute format(
        'create policy club_only on %s'
        ' using (club = current_setting(''detent.club'', true))'
        ' with check (club = current_setting(''detent.club'', true))', guarded);
end $$;
-- +goose StatementEnd
revoke execute on function club_only from public;
comment on function club_only is 'Shuts a table that has a column club to all but the club of the transaction. Every migration calls it for every table it makes.';

-- Enumerations sort in the order that people are shown.
create type axle as enum ('front', 'rear');
create type corner as enum ('FL', 'FR', 'RL', 'RR');
create type adjuster as enum ('bump', 'low-bump', 'high-bump', 'rebound', 'low-rebound', 'high-rebound');

-- Clubs and members ---------------------------------------------------------

create table clubs (
    club          text primary key default current_setting('detent.club') check (length(club) between 1 and 200),
    zone          text not null,
    channel       text not null,
    coach_role    text not null,
    quiet_from    integer not null check (quiet_from between 0 and 1440),
    quiet_to      integer not null check (quiet_to between 0 and 1440),
    remind_after  integer not null check (remind_after >= 0),
    units         text not null check (units in ('metric', 'imperial')),
    step_few      smallint not null check (step_few between 1 and 9),
    step_some     smallint not null check (step_some between 1 and 9),
    step_many     smallint not null check (step_many between 1 and 9),
    slight        smallint not null check (slight between 1 and 9),
    back_off_few  smallint not null check (back_off_few between 1 and 9),
    back_off_many smallint not null check (back_off_many between 1 and 9)
);
select club_only('clubs');
grant select, insert, update on clubs to detent_app;
comment on column clubs.club is 'The key of the place the club meets in; it never changes.';
comment on column clubs.quiet_from is 'Minutes from midnight in the club''s zone, as quiet_to.';
comment on column clubs.remind_after is 'Minutes from the end of an event to the question how it felt.';

create table members (
    club      text not null default current_setting('detent.club') references clubs,
    person    text not null check (length(person) between 1 and 200),
    name      text not null,
    units     text check (units in ('metric', 'imperial')),
    reminders boolean not null default true,
    no_direct boolean not null default false,
    primary key (club, person)
);
select club_only('members');
grant select, insert, update on members to detent_app;
comment on table members is 'A person in a club. Every other row about the person hangs on this one and goes with it.';
comment on column members.name is 'How others know the person today.';
comment on column members.units is 'Null is the club''s.';
comment on column members.no_direct is 'The platform refused direct messages to them.';

create table requests (
    club   text not null default current_setting('detent.club'),
    person text not null,
    id     text not null check (length(id) between 1 and 200),
    at     timestamptz not null,
    reply  bytea not null,
    primary key (club, person, id),
    foreign key (club, person) references members on delete cascade
);
select club_only('requests');
grant select, insert on requests to detent_app;
comment on table requests is 'What was answered to a request that changes something. Asked again under the same id, the answer is given again and nothing is changed.';
-- The owner alone sees the rows of all clubs, and works only in forget_requests.
alter table requests no force row level security;

-- +goose StatementBegin
create function forget_requests(before timestamptz, most integer) returns integer
    language sql security definer set search_path = public, pg_temp as $$
    with old as materialized (
        select club, person, id from requests where at < before limit most for update skip locked
    ), forgotten as (
        delete from requests r using old o
        where r.club = o.club and r.person = o.person and r.id = o.id
        returning r.id
    )
    select count(*) from forgotten;
$$;
-- +goose StatementEnd
revoke execute on function forget_requests from public;
grant execute on function forget_requests to detent_app;
comment on function forget_requests is 'Removes at most so many requests made before a moment, of all clubs, and tells how many those were.';

-- Cars and dampers ----------------------------------------------------------

create table cars (
    club            text not null default current_setting('detent.club'),
    id              bigint generated always as identity,
    owner           text not null,
    name            text not null check (length(name) between 1 and 60),
    main            boolean not null check (not (main and retired)),
    retired         boolean not null,
    drive           text not null check (drive in ('front', 'rear', 'four')),
    engine          text not null check (engine in ('front', 'mid', 'rear')),
    tyre            text not null check (tyre in ('', 'road', 'semi-slick', 'slick')),
    aero            text not null check (aero in ('', 'none', 'wing', 'high')),
    use             text not null check (use in ('', 'track', 'road-and-track')),
    torque_front    double precision not null,
    mass            double precision not null,
    front_share     double precision not null,
    wheelbase       double precision not null,
    cg_height       double precision not null,
    track_front     double precision not null,
    track_rear      double precision not null,
    spring_front    double precision not null,
    spring_rear     double precision not null,
    ratio_front     double precision not null,
    ratio_rear      double precision not null,
    bar_front       double precision,
    bar_rear        double precision,
    unsprung_front  double precision not null,
    unsprung_rear   double precision not null,
    tyre_rate_front double precision not null,
    tyre_rate_rear  double precision not null,
    version         bigint not null default 1,
    primary key (club, id),
    foreign key (club, owner) references members on delete cascade
);
create unique index cars_name on cars (club, owner, lower(name));
create unique index cars_main on cars (club, owner) where main;
select club_only('cars');
grant select, insert, update on cars to detent_app;
comment on table cars is 'Quantities are in SI units; 0 is unknown.';
comment on column cars.bar_front is 'Null is unknown and 0 is none, as for bar_rear.';
comment on column cars.version is 'Goes up with every change of the clicks or dampers, which by that takes the car for itself.';

create table dampers (
    club         text not null default current_setting('detent.club'),
    car          bigint not null,
    axle         axle not null,
    ways         smallint not null check (ways between 1 and 4),
    bump         smallint check (bump between 1 and 99),
    rebound      smallint check (rebound between 1 and 99),
    low_bump     smallint check (low_bump between 1 and 99),
    high_bump    smallint check (high_bump between 1 and 99),
    low_rebound  smallint check (low_rebound between 1 and 99),
    high_rebound smallint check (high_rebound between 1 and 99),
    count        text not null check (count in ('soft', 'hard')),
    moves        text check (moves in ('rebound', 'both')),
    primary key (club, car, axle),
    foreign key (club, car) references cars on delete cascade,
    check ((moves is not null) = (ways = 1)),
    check (num_nonnulls(bump, rebound, low_bump, high_bump, low_rebound, high_rebound) = ways
        and case ways
            when 1 then num_nonnulls(rebound)
            when 2 then num_nonnulls(bump, rebound)
            when 3 then num_nonnulls(low_bump, high_bump, rebound)
            when 4 then num_nonnulls(low_bump, high_bump, low_rebound, high_rebound)
        end = ways)
);
select club_only('dampers');
grant select, insert, update on dampers to detent_app;
comment on table dampers is 'The pair on one axle: the clicks between the stops of each adjuster, null where there is none. Fitting others drops the axle''s positions and force table.';
comment on column dampers.count is 'The stop the member counts from. Everything kept is counted from full soft.';
comment on column dampers.moves is 'What the adjuster of a one-way damper moves.';

create table curves (
    club text not null default current_setting('detent.club'),
    car  bigint not null,
    axle axle not null,
    csv  text not null,
    primary key (club, car, axle),
    foreign key (club, car, axle) references dampers on delete cascade
);
select club_only('curves');
grant select, insert, update on curves to detent_app;
comment on table curves is 'The measured force table of an axle''s dampers, as it was given.';

-- Advice --------------------------------------------------------------------

create table advice (
    club      text not null default current_setting('detent.club'),
    id        bigint generated always as identity,
    car       bigint not null,
    at        timestamptz not null,
    complaint jsonb not null,
    given     jsonb not null,
    setting   jsonb not null,
    applied   smallint check (applied >= 1),
    change    bigint,
    primary key (club, id),
    unique (club, car, id),
    foreign key (club, car) references cars on delete cascade,
    check ((applied is null) = (change is null))
);
select club_only('advice');
grant select, insert, update (applied, change) on advice to detent_app;
comment on column advice.given is 'Remedies, checks, notes and cautions, as they were given.';
comment on column advice.setting is 'Where the clicks stood: four corners of six adjusters, from full soft.';
comment on column advice.applied is 'Which of the remedies was applied, and in change as which change.';

-- The log -------------------------------------------------------------------

create table changes (
    club      text not null default current_setting('detent.club'),
    car       bigint not null,
    id        bigint generated always as identity,
    at        timestamptz not null,
    person    text,
    reason    text not null check (reason in ('fitted', 'baseline', 'remedy', 'by hand', 'undo', 'search')),
    complaint jsonb,
    advice    bigint,
    remedy    smallint check (remedy >= 1),
    undoes    bigint,
    event     bigint,
    primary key (club, car, id),
    foreign key (club, car) references cars on delete cascade,
    foreign key (club, person) references members on delete set null (person),
    foreign key (club, car, advice) references advice (club, car, id) on delete cascade,
    foreign key (club, car, undoes) references changes on delete cascade,
    check (undoes < id)
);
create unique index changes_undoes on changes (club, car, undoes) where undoes is not null;
create index changes_fitted on changes (club, car, id) where reason = 'fitted';
create index changes_person on changes (club, person);
select club_only('changes');
grant select, insert on changes to detent_app;
comment on table changes is 'The log: everything that was turned on a car at once, and why. Rows are added and never changed.';
comment on column changes.person is 'Null when they have left the club for good.';
comment on column changes.undoes is 'The change that this one takes back.';

alter table advice add foreign key (club, car, change) references changes on delete cascade;

create table clicks (
    club       text not null default current_setting('detent.club'),
    car        bigint not null,
    change     bigint not null,
    corner     corner not null,
    adjuster   adjuster not null,
    from_click smallint,
    to_click   smallint not null,
    primary key (club, car, change, corner, adjuster),
    foreign key (club, car, change) references changes on delete cascade
);
select club_only('clicks');
grant select, insert on clicks to detent_app;
comment on table clicks is 'The lines of a change: one adjuster of one corner each, in clicks from full soft. Adding one moves the position.';
comment on column clicks.from_click is 'Null when the dampers have just been fitted.';

create table positions (
    club     text not null default current_setting('detent.club'),
    car      bigint not null,
    corner   corner not null,
    adjuster adjuster not null,
    clicks   smallint not null,
    change   bigint not null,
    primary key (club, car, corner, adjuster),
    foreign key (club, car, change) references changes on delete cascade
);
select club_only('positions');
grant select on positions to detent_app;
comment on table positions is 'Where each adjuster stands, in clicks from full soft. Only the log moves it.';
comment on column positions.change is 'The change that put it there.';

-- +goose StatementBegin
create function drop_axle() returns trigger
    language plpgsql security definer set search_path = public, pg_temp as $$
begin
    delete from curves where club = new.club and car = new.car and axle = new.axle;
    delete from positions where club = new.club and car = new.car
        and corner = any (case new.axle when 'front' then '{FL,FR}' else '{RL,RR}' end::corner[]);
    return null;
end $$;
-- +goose StatementEnd
create trigger dampers_changed after update on dampers for each row execute function drop_axle();

-- +goose StatementBegin
create function move_clicks() returns trigger
    language plpgsql security definer set search_path = public, pg_temp as $$
declare
    most    smallint;
    stood   smallint;
    fitting boolean;
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
        raise exception 'clicks % to % of % % are outside 0 to %', new.from_click, new.to_click, new.corner, new.adjuster, most
            using errcode = 'check_violation', constraint = 'clicks_in_range', table = 'clicks';
    end if;
    select reason = 'fitted' into fitting from changes
        where club = new.club and car = new.car and id = new.change;
    select clicks into stood from positions
        where club = new.club and car = new.car and corner = new.corner and adjuster = new.adjuster
        for update;
    if new.from_click is distinct from stood or fitting <> (new.from_click is null) then
        raise exception '% % stands at %, not at %', new.corner, new.adjuster, stood, new.from_click
            using errcode = 'check_violation', constraint = 'clicks_follow', table = 'clicks';
    end if;
    insert into positions (club, car, corner, adjuster, clicks, change)
        values (new.club, new.car, new.corner, new.adjuster, new.to_click, new.change)
        on conflict (club, car, corner, adjuster)
        do update set clicks = excluded.clicks, change = excluded.change;
    return null;
end $$;
-- +goose StatementEnd
create trigger clicks_move after insert on clicks for each row execute function move_clicks();

-- A log row goes only when its car has gone, a car only when its owner has
-- gone, and the name of who made a change only when they have gone.
-- +goose StatementBegin
create function keep_log() returns trigger
    language plpgsql security definer set search_path = public, pg_temp as $$
begin
    if tg_op = 'DELETE' then
        if not exists (select from cars where club = old.club and id = old.car) then
            return old;
        end if;
    elsif tg_op = 'UPDATE' then
        if to_jsonb(new) = to_jsonb(old) || '{"person": null}'
            and not exists (select from members where club = old.club and person = to_jsonb(old)->>'person') then
            return new;
        end if;
    end if;
    raise exception 'the log is only added to' using errcode = 'restrict_violation', constraint = 'log_kept', table = tg_table_name;
end $$;

create function keep_car() returns trigger
    language plpgsql security definer set search_path = public, pg_temp as $$
begin
    if exists (select from members where club = old.club and person = old.owner) then
        raise exception 'a car goes only with its owner' using errcode = 'restrict_violation', constraint = 'log_kept', table = 'cars';
    end if;
    return old;
end $$;
-- +goose StatementEnd
create trigger changes_kept before update or delete on changes for each row execute function keep_log();
create trigger changes_not_emptied before truncate on changes for each statement execute function keep_log();
create trigger clicks_kept before update or delete on clicks for each row execute function keep_log();
create trigger clicks_not_emptied before truncate on clicks for each statement execute function keep_log();
create trigger cars_kept before delete on cars for each row execute function keep_car();

-- +goose StatementBegin
create function erase_person(leaver text) returns void
    language sql security definer set search_path = public, pg_temp as $$
    delete from members where club = current_setting('detent.club') and person = leaver;
$$;
-- +goose StatementEnd
revoke execute on function erase_person from public;
grant execute on function erase_person to detent_app;
comment on function erase_person is 'Removes a person of the club of the transaction and all that hangs on them: the one door by which log rows leave.';

-- How it felt ---------------------------------------------------------------

create table feels (
    club   text not null default current_setting('detent.club'),
    car    bigint not null,
    id     bigint generated always as identity,
    person text not null,
    at     timestamptz not null,
    event  bigint,
    change bigint,
    grip   smallint not null check (grip between 1 and 10),
    entry  smallint check (entry between -3 and 3),
    mid    smallint check (mid between -3 and 3),
    exit   smallint check (exit between -3 and 3),
    hop    boolean,
    better text check (better in ('yes', 'no', 'same')),
    lap_ms integer check (lap_ms > 0),
    notes  text not null,
    primary key (club, car, id),
    foreign key (club, car) references cars on delete cascade,
    foreign key (club, person) references members on delete cascade,
    foreign key (club, car, change) references changes on delete cascade
);
create index feels_change on feels (club, car, change, id) where better is not null;
create index feels_person on feels (club, person);
select club_only('feels');
grant select, insert on feels to detent_app;
comment on column feels.change is 'The last change before it.';
comment on column feels.better is 'Against the run before that change.';
comment on column feels.entry is 'From -3, pushes wide, over 0, neutral, to +3, comes round; as mid and exit.';

create table searches (
    club    text not null default current_setting('detent.club'),
    car     bigint not null,
    id      bigint generated always as identity,
    weather text not null check (weather in ('dry', 'wet')),
    started timestamptz not null,
    event   bigint,
    stopped timestamptz,
    why     text check (why in ('hop', 'stop', 'driver')),
    primary key (club, car, id),
    foreign key (club, car) references cars on delete cascade,
    check ((stopped is null) = (why is null))
);
create unique index searches_under_way on searches (club, car, weather) where stopped is null;
select club_only('searches');
grant select, insert, update (stopped, why) on searches to detent_app;
comment on table searches is 'Grip searches: one under way at most for a car and a weather.';

create table search_runs (
    club   text not null default current_setting('detent.club'),
    car    bigint not null,
    search bigint not null,
    number smallint not null check (number >= 1),
    at     timestamptz not null,
    hop    boolean not null,
    grip   smallint check (grip between 1 and 10),
    clicks smallint not null,
    primary key (club, car, search, number),
    foreign key (club, car, search) references searches on delete cascade
);
select club_only('search_runs');
grant select, insert on search_runs to detent_app;
comment on column search_runs.clicks is 'The step that followed: stiffer above 0, softer below.';
