-- What every line that changes something asks of the database, as functions,
-- each for one round trip: a connection keeps their plans.

-- +goose Up

-- +goose StatementBegin
create function arrive(here text, who text, request text, out known boolean, out name text, out reply bytea)
    language plpgsql as $$
begin
    perform set_config('detent.club', here, true);
    select exists (select from clubs),
        (select m.name from members m where m.person = who and not m.no_direct),
        (select r.reply from requests r where r.person = who and r.id = request)
        into known, name, reply;
end $$;
-- +goose StatementEnd
comment on function arrive is 'Makes the transaction one of a club, and tells whether the club is known, under what name the person is, null when they are not or the platform refused direct messages to them, and what was answered to the request, null when nothing was.';

-- In plpgsql, because Postgres 15 does not keep the plan of a function in SQL.
-- +goose StatementBegin
create or replace function event_of(entered bigint, moment timestamptz, afterwards interval) returns bigint
    language plpgsql stable as $$
begin
    return (
        select e.id
        from entries n join events e on e.club = n.club and e.id = n.event
        where n.car = entered and n.left_at is null and not e.cancelled
            and moment between e.starts - interval '12 hours' and e.ends + afterwards
        order by e.starts <= moment desc, case when e.starts <= moment then e.starts end desc, e.starts
        limit 1);
end $$;
-- +goose StatementEnd

-- +goose StatementBegin
create function given_advice(wanted bigint, whose text) returns json
    language plpgsql stable as $$
begin
    return (
        select json_build_object(
            'advice', a,
            'car', c,
            'dampers', (
                select json_agg(fitted)
                from (select d.*, t.csv from dampers d left join curves t using (club, car, axle) where d.car = c.id) fitted),
            'stands', (
                select json_agg(stands)
                from (select p.corner, p.adjuster, p.clicks from positions p where p.car = c.id) stands),
            'notes', (select f.notes from feels f where f.car = c.id order by f.id desc limit 1))
        from advice a join cars c on c.id = a.car
        where a.id = wanted and c.owner = whose);
end $$;
-- +goose StatementEnd
comment on function given_advice is 'An advice given on a car of a person''s, with the car, its dampers and their force tables, where its clicks stand, and the notes of the newest feel. Null when there is none.';

-- +goose StatementBegin
create function record_change(of_car bigint, moment timestamptz, maker text, why text, said jsonb,
    of_advice bigint, of_remedy smallint, taken_back bigint,
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
    insert into changes (car, at, person, reason, complaint, advice, remedy, undoes)
        values (of_car, moment, maker, why, said, nullif(of_advice, 0), nullif(of_remedy, 0), nullif(taken_back, 0))
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

-- +goose StatementBegin
create function keep_reply(who text, request text, moment timestamptz, said bytea) returns void
    language plpgsql as $$
begin
    insert into requests (person, id, at, reply) values (who, request, moment, said);
end $$;
-- +goose StatementEnd
comment on function keep_reply is 'Remembers what was answered to a request.';

-- As before, and without the cost of a search path of its own, which a function
-- with the rights of its caller does not need.
-- +goose StatementBegin
create or replace function at_event() returns trigger
    language plpgsql as $$
begin
    if new.event is null then
        new.event := event_of(new.car, (to_jsonb(new)->>tg_argv[0])::timestamptz, tg_argv[1]::interval);
    end if;
    return new;
end $$;
-- +goose StatementEnd
