-- An event's weather may be either, and an entrant says whether they want their
-- car's sheet.

-- +goose Up
alter table events
    drop constraint events_weather_check,
    add constraint events_weather_check check (weather in ('', 'dry', 'wet', 'either'));
comment on column events.weather is 'What is expected; either is that nobody can tell.';
alter table entries add column sheet boolean not null default true;
comment on column entries.sheet is 'Whether the car''s sheet for the event is wanted.';
