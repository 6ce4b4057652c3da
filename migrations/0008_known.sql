-- Which clubs have a book, to be held against where the program still is.

-- +goose Up

-- +goose StatementBegin
create function known_clubs(place text) returns setof text
    language sql stable security definer set search_path = public, pg_temp as $$
    select club from clubs where meets_at(club, place) order by club;
$$;
-- +goose StatementEnd
revoke execute on function known_clubs from public;
grant execute on function known_clubs to detent_app;
comment on function known_clubs is 'The keys of the clubs of a place. It tells nothing else of any club.';
