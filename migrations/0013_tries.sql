-- What a turn did: one row a try, read from the record when the car's feel is
-- kept, and the sums of a car's tries by remedy.

-- +goose Up

create table refits (
    club text not null default current_setting('detent.club'),
    car  bigint not null,
    id   bigint not null generated always as identity,
    at   timestamptz not null,
    what text not null check (what in ('tyres', 'springs')),
    primary key (club, car, id),
    foreign key (club, car) references cars on delete cascade
);
comment on table refits is 'When a car got other tyres or springs. Other dampers are changes of reason fitted.';
select club_only('refits');
grant select, insert on refits to detent_app;

create table tries (
    club     text not null default current_setting('detent.club'),
    car      bigint not null,
    change   bigint not null,
    feel     bigint,
    search   bigint,
    run      smallint,
    at       timestamptz not null,
    what     text not null check (length(what) between 1 and 40),
    place    text not null check (place in ('', 'entry', 'exit')),
    drive    text not null check (drive in ('', 'front', 'rear', 'four')),
    part     text not null check (part in ('front', 'rear', 'whole')),
    job      text not null check (length(job) between 1 and 40),
    turn     text not null check (turn in ('stiffer', 'softer')),
    fraction double precision not null check (fraction > 0),
    moved    double precision not null,
    variance double precision not null check (variance > 0),
    helped   boolean not null,
    worse    boolean not null,
    primary key (club, car, change),
    foreign key (club, car, change) references changes on delete cascade,
    foreign key (club, car, feel) references feels on delete cascade,
    foreign key (club, car, search, run) references search_runs on delete cascade,
    check (num_nonnulls(feel, search) = 1 and num_nonnulls(search, run) in (0, 2))
);
comment on table tries is 'One change that made a remedy of the table, and what was felt after it. Rows are added and never changed.';
comment on column tries.feel is 'What judged it; a run of a grip search where that is null.';
comment on column tries.at is 'When that was felt.';
comment on column tries.what is 'With place and drive the row of the table of remedies; with part, job and turn besides, the remedy.';
comment on column tries.fraction is 'Clicks turned over clicks that the row asks for, the mean of two axles.';
comment on column tries.moved is 'Marks that the car moved the wanted way, and in variance the variance of that reading, before age and refits.';
select club_only('tries');
grant select, insert on tries to detent_app;
create index tries_feel on tries (club, feel) where feel is not null;

create table try_sums (
    club   text not null default current_setting('detent.club'),
    what   text not null,
    place  text not null,
    drive  text not null,
    part   text not null,
    job    text not null,
    turn   text not null,
    car    bigint not null,
    at     timestamptz not null,
    a      double precision not null,
    b      double precision not null,
    tries  integer not null,
    helped integer not null,
    last   timestamptz not null,
    worse  boolean not null,
    primary key (club, what, place, drive, car, part, job, turn),
    foreign key (club, car) references cars on delete cascade
);
comment on table try_sums is 'A car''s tries of a remedy added up as they weigh at a moment. Written anew from tries with each try and each refit, so that a club is read at one row a car.';
comment on column try_sums.a is 'The sum of weight · fraction² / variance, and in b of weight · fraction · moved / variance.';
comment on column try_sums.last is 'When the newest try was felt, and in worse whether it felt worse.';
select club_only('try_sums');
grant select, insert, update on try_sums to detent_app;
create index try_sums_car on try_sums (club, car);

-- Cars of before are read by the program, one at a time.
alter table cars add column tries_read boolean not null default false;
alter table cars alter column tries_read set default true;
comment on column cars.tries_read is 'Whether the record of before there were tries has been read into them.';
create index cars_unread on cars (club, id) where not tries_read;
alter table clubs add column tries_read boolean not null default false;
alter table clubs alter column tries_read set default true;
comment on column clubs.tries_read is 'Whether that holds for all cars of the club.';

-- +goose StatementBegin
create function unread_clubs() returns setof text
    language sql stable security definer set search_path = public, pg_temp as $$
    select club from clubs where not tries_read order by club;
$$;
-- +goose StatementEnd
comment on function unread_clubs is 'The keys of the clubs with cars whose record has not been read into tries. It tells nothing else of any club.';
grant execute on function unread_clubs to detent_app;
