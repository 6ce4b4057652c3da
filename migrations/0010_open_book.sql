-- What every ask begins with, in one round trip: whose the transaction is, whose
-- settings hold, and what was answered before. arrive, which told less, stays for
-- the programs that were started before this migration.

-- +goose Up

-- +goose StatementBegin
create function open_book(here text, who text, request text,
    out club json, out member json, out reply bytea, out withheld boolean)
    language plpgsql as $$
declare
    shown text[];
begin
    perform set_config('detent.club', here, true);
    club := (select to_json(c) from clubs c);
    member := (select to_json(m) from members m where m.person = who);
    if request is not null then
        select r.reply, r.shows into reply, shown from requests r where r.person = who and r.id = request;
    end if;
    withheld := shown is not null and exists (
        select from unnest(shown) seen (student)
        where not exists (
            select from coachings c
            where c.coach = who and c.student = seen.student and c.accepted is not null and c.ended is null));
end $$;
-- +goose StatementEnd
comment on function open_book is 'Makes the transaction one of a club, and tells the rows of the club and of the person, null when they are not known, what was answered to the request, null when nothing was or none is named, and whether that is no longer to be shown.';
grant execute on function open_book to detent_app;
