-- An event may be on a rough track too.

-- +goose Up
alter table events
    drop constraint events_surface_check,
    add constraint events_surface_check check (surface in ('', 'smooth', 'bumpy', 'rough'));
