-- Clicks that were kept under a name, and what it takes to go back to them.

-- +goose Up

create table kept_settings (
    club    text not null default current_setting('detent.club'),
    car     bigint not null,
    id      bigint generated always as identity,
    name    text not null check (length(name) between 1 and 60),
    at      timestamptz not null,
    event   bigint,
    weather text check (weather in ('dry', 'damp', 'wet')),
    clicks  jsonb not null check (jsonb_typeof(clicks) = 'object'),
    dampers jsonb not null check (jsonb_typeof(dampers) = 'object'),
    change  bigint not null,
    primary key (club, car, id),
    foreign key (club, car) references cars on delete cascade,
    foreign key (club, event) references events,
    foreign key (club, car, change) references changes on delete cascade
);
create unique index kept_settings_name on kept_settings (club, car, lower(name));
create index kept_settings_event on kept_settings (club, event) where event is not null;
select club_only('kept_settings');
create trigger kept_settings_at_event before insert on kept_settings for each row execute function at_event('at', '12 hours');
grant select, insert, delete on kept_settings to detent_app;
comment on table kept_settings is 'Where a car''s clicks stood, under a name. Rows are added and forgotten, and never changed.';
comment on column kept_settings.clicks is 'Clicks from full soft: adjusters by corner, in words, without those at 0.';
comment on column kept_settings.dampers is 'The dampers that the car had then, by axle: ways, count, moves of a one-way, and range, the clicks of each adjuster.';
comment on column kept_settings.change is 'The last change that turned something or fitted dampers. What was felt after it, and before another, was felt with these clicks.';

alter table changes drop constraint changes_reason_check;
alter table changes add constraint changes_reason_check
    check (reason in ('fitted', 'baseline', 'remedy', 'by hand', 'undo', 'search', 'loaded', 'copied'));
