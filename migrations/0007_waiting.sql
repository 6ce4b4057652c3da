-- How much is waiting to be sent, for whoever watches over the program.

-- +goose Up

-- +goose StatementBegin
create function waiting(moment timestamptz, place text) returns bigint
    language sql stable security definer set search_path = public, pg_temp as $$
    select count(*) from due where next_at <= moment and meets_at(club, place);
$$;
-- +goose StatementEnd
revoke execute on function waiting from public;
grant execute on function waiting to detent_app;
comment on function waiting is 'How many things are due in the clubs of a place and not yet sent. It tells a number and nothing else of any club.';
