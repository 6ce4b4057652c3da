-- Those who are in an event can be told that it is cancelled, like anything else
-- that an organiser tells them.

-- +goose Up

alter table event_messages add column cancels boolean not null default false;
comment on column event_messages.cancels is 'Whether it tells that the event is cancelled, and so goes out although the event is.';
