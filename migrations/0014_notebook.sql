-- The season's notebook: what was on the car other than clicks, and what was
-- measured with how it felt.

-- +goose Up

create table car_notes (
    club   text not null default current_setting('detent.club'),
    car    bigint not null,
    id     bigint generated always as identity,
    person text not null,
    at     timestamptz not null,
    event  bigint,
    what   text not null check (what in ('pressures', 'tyres', 'springs', 'bars', 'ride-height', 'alignment', 'brakes', 'other')),
    text   text not null check (length(text) <= 1000),
    heat   text check (heat in ('cold', 'hot')),
    fl     double precision check (fl between 1e4 and 1e6),
    fr     double precision check (fr between 1e4 and 1e6),
    rl     double precision check (rl between 1e4 and 1e6),
    rr     double precision check (rr between 1e4 and 1e6),
    primary key (club, car, id),
    foreign key (club, car) references cars on delete cascade,
    foreign key (club, person) references members on delete cascade,
    foreign key (club, event) references events,
    check (text <> '' or heat is not null),
    check ((heat is not null) = (num_nonnulls(fl, fr, rl, rr) > 0))
);
create index car_notes_person on car_notes (club, person);
create index car_notes_event on car_notes (club, event) where event is not null;
select club_only('car_notes');
create trigger car_notes_at_event before insert on car_notes for each row execute function at_event('at', '12 hours');
grant select, insert on car_notes to detent_app;
comment on table car_notes is 'What was changed on a car other than clicks. Rows are added and never changed.';
comment on column car_notes.heat is 'Whether the pressures were taken cold or hot; null where there are none.';
comment on column car_notes.fl is 'The tyre''s pressure in Pa, null where it was not said; as for fr, rl and rr.';

alter table feels
    add column hot_fl double precision check (hot_fl between 1e4 and 1e6),
    add column hot_fr double precision check (hot_fr between 1e4 and 1e6),
    add column hot_rl double precision check (hot_rl between 1e4 and 1e6),
    add column hot_rr double precision check (hot_rr between 1e4 and 1e6),
    add column conditions text check (conditions in ('dry', 'damp', 'wet')),
    add column air double precision check (air between 173 and 523),
    add column track double precision check (track between 173 and 523);
comment on column feels.hot_fl is 'The tyre''s pressure in Pa, hot; null where it was not said; as for hot_fr, hot_rl and hot_rr.';
comment on column feels.air is 'The temperature of the air in K, and in track that of the track; null where it was not said.';
