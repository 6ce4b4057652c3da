-- Whose the sums of tries are: a club is read without a look at each car.

-- +goose Up

alter table try_sums add column owner text;
-- +goose StatementBegin
do $$
declare
    each text;
begin
    for each in select club from clubs loop
        perform set_config('detent.club', each, true); -- the owner of the tables sees one club at a time too
        update try_sums s set owner = c.owner from cars c where c.club = s.club and c.id = s.car;
    end loop;
    perform set_config('detent.club', '', true);
end $$;
-- +goose StatementEnd
alter table try_sums alter column owner set not null;
comment on column try_sums.owner is 'Whose the car is. A trigger fills it in. A car never changes its owner, and goes with them; its sums go with it.';

-- +goose StatementBegin
create function owner_of_sums() returns trigger
    language plpgsql set search_path = public, pg_temp as $$
begin
    new.owner := coalesce((select owner from cars where club = new.club and id = new.car), ''); -- the foreign key refuses no car
    return new;
end $$;
-- +goose StatementEnd
create trigger try_sums_owner before insert on try_sums for each row execute function owner_of_sums();
