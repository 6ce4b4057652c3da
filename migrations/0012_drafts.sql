-- Lines that were refused, kept for a day to be corrected; and of a position
-- that was set by hand, whether it was turned or the record was corrected.

-- +goose Up

-- Drafts ---------------------------------------------------------------------

create table drafts (
    club   text not null default current_setting('detent.club'),
    id     bigint generated always as identity,
    person text not null,
    at     timestamptz not null,
    line   text not null check (length(line) between 1 and 8000),
    primary key (club, id),
    foreign key (club, person) references members on delete cascade
);
create index drafts_person on drafts (club, person);
create index drafts_at on drafts (at);
select club_only('drafts');
grant select, insert on drafts to detent_app;
comment on table drafts is 'Lines that could not be answered as they were typed, for the person to correct. They go after a day.';
-- The owner alone sees the rows of all clubs, and works only in forget_requests.
alter table drafts no force row level security;

-- As before, and drafts go with the replies.
-- +goose StatementBegin
create or replace function forget_requests(before timestamptz, most integer) returns integer
    language sql security definer set search_path = public, pg_temp as $$
    delete from drafts where at < now() - interval '1 day' and (club, id) in (
        select club, id from drafts where at < now() - interval '1 day' limit most for update skip locked);
    with old as materialized (
        select club, person, id from requests
        where at < before and (at < now() - interval '29 days' or rehearsing())
        limit most for update skip locked
    ), forgotten as (
        delete from requests r using old o
        where r.club = o.club and r.person = o.person and r.id = o.id
        returning r.id
    )
    select count(*) from forgotten;
$$;
-- +goose StatementEnd
comment on function forget_requests is 'Removes at most so many requests made before a moment, of all clubs, and tells how many those were; and as many drafts that are a day old.';

-- Turned or corrected --------------------------------------------------------

alter table changes add column turned boolean not null default false;
comment on column changes.turned is 'By hand: turned at that time. Otherwise the record was corrected, and nothing was turned.';

drop function record_change(bigint, timestamptz, text, text, jsonb, bigint, smallint, bigint, corner[], adjuster[], smallint[], smallint[]);
-- +goose StatementBegin
create function record_change(of_car bigint, moment timestamptz, maker text, why text, said jsonb,
    of_advice bigint, of_remedy smallint, taken_back bigint, really boolean,
    corners corner[], adjusters adjuster[], starts smallint[], ends smallint[],
    out recorded bigint, out overtaken_by bigint, out spent boolean)
    language plpgsql as $$
begin
    spent := false;
    update cars set version = version + 1 where id = of_car; -- shut to others until the transaction ends
    select coalesce(p.change, 0) into overtaken_by
        from unnest(corners, adjusters, starts) with ordinality line (corner, adjuster, start, n)
        left join positions p on p.car = of_car and p.corner = line.corner and p.adjuster = line.adjuster
        where p.clicks is distinct from nullif(line.start, -1)
        order by n
        limit 1;
    if found then
        return;
    end if;
    insert into changes (car, at, person, reason, complaint, advice, remedy, undoes, turned)
        values (of_car, moment, maker, why, said, nullif(of_advice, 0), nullif(of_remedy, 0), nullif(taken_back, 0), really)
        returning id into recorded;
    insert into clicks (car, change, corner, adjuster, from_click, to_click)
        select of_car, recorded, line.corner, line.adjuster, nullif(line.start, -1), line.stop
        from unnest(corners, adjusters, starts, ends) line (corner, adjuster, start, stop);
    if of_advice <> 0 then
        update advice set applied = of_remedy, change = recorded
            where id = of_advice and applied is null and declined is null;
        spent := not found;
    end if;
end $$;
-- +goose StatementEnd
comment on function record_change is 'Adds a change to the log, a start of -1 being a fitting and 0 for none, and notes the advice it came from as applied. When a line does not start where its adjuster stands it goes no further than to tell which change moved that, 0 for none; whether the advice was applied or declined already it tells at the end. Either way the caller takes all of it back.';
grant execute on function record_change to detent_app;
