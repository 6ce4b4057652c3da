-- Clubs whose workspace has removed the program: marked, and forgotten for
-- good when they stay away.

-- +goose Up

alter table clubs add column left_at timestamptz;
comment on column clubs.left_at is 'When the workspace removed the program, null while it is there.';
create index clubs_left on clubs (left_at) where left_at is not null;
-- The owner alone sees the rows of all clubs, and works only in forget_clubs.
alter table clubs no force row level security;

-- +goose StatementBegin
create function forget_clubs(before timestamptz) returns integer
    language plpgsql security definer set search_path = public, pg_temp as $$
declare
    gone      text;
    forgotten integer := 0;
begin
    for gone in select club from clubs where left_at < before order by club for update skip locked loop
        perform set_config('detent.club', gone, true);
        delete from due where club = gone;
        delete from members where club = gone; -- and all that hangs on them
        delete from entries where club = gone;
        delete from events where club = gone;
        delete from clubs where club = gone;
        forgotten := forgotten + 1;
    end loop;
    perform set_config('detent.club', '', true);
    return forgotten;
end $$;
-- +goose StatementEnd
revoke execute on function forget_clubs from public;
grant execute on function forget_clubs to detent_app;
comment on function forget_clubs is 'Removes every club that left before a moment, with all that it has, and tells how many those were.';

-- +goose StatementBegin
create function known_clubs(place text) returns setof text
    language sql stable security definer set search_path = public, pg_temp as $$
    select club from clubs where meets_at(club, place) order by club;
$$;
-- +goose StatementEnd
revoke execute on function known_clubs from public;
grant execute on function known_clubs to detent_app;
comment on function known_clubs is 'The keys of the clubs of a place. It tells nothing else of any club.';
