-- Coaching: who coaches whom, what coaches write, suggest and look at.

-- +goose Up

create table coachings (
    club     text not null default current_setting('detent.club'),
    id       bigint generated always as identity,
    coach    text not null,
    student  text not null,
    asked    timestamptz not null,
    accepted timestamptz,
    ended    timestamptz,
    primary key (club, id),
    foreign key (club, coach) references members on delete cascade,
    foreign key (club, student) references members on delete cascade,
    check (coach <> student)
);
create unique index coachings_once on coachings (club, coach, student) where ended is null;
create index coachings_student on coachings (club, student);
select club_only('coachings');
grant select, insert, update (accepted, ended) on coachings to detent_app;
comment on table coachings is 'A coach asks, the student accepts, and either ends it. Between accepted and ended the coach may look.';

create table coach_notes (
    club    text not null default current_setting('detent.club'),
    id      bigint generated always as identity,
    coach   text not null,
    student text not null,
    at      timestamptz not null,
    text    text not null check (length(text) between 1 and 1000),
    primary key (club, id),
    foreign key (club, coach) references members on delete cascade,
    foreign key (club, student) references members on delete cascade
);
create index coach_notes_student on coach_notes (club, student, id);
create index coach_notes_coach on coach_notes (club, coach);
select club_only('coach_notes');
grant select, insert on coach_notes to detent_app;

create table looks (
    club    text not null default current_setting('detent.club'),
    id      bigint generated always as identity,
    coach   text not null,
    student text not null,
    at      timestamptz not null,
    what    text not null,
    primary key (club, id),
    foreign key (club, coach) references members on delete cascade,
    foreign key (club, student) references members on delete cascade
);
create index looks_student on looks (club, student, id);
create index looks_coach on looks (club, coach);
select club_only('looks');
grant select, insert on looks to detent_app;
comment on table looks is 'Every time a coach looked at a student''s things; the student can read it.';

alter table advice
    add column coach text,
    add column declined timestamptz,
    add foreign key (club, coach) references members on delete set null (coach),
    add check (declined is null or applied is null);
create index advice_coach on advice (club, coach) where coach is not null;
grant update (declined) on advice to detent_app;
comment on column advice.coach is 'The coach who suggested it; null for the bot''s own.';
comment on column advice.declined is 'When the student declined the suggestion.';

-- A coach's kept replies show what their students' cars were like, so they go
-- with the student.
-- +goose StatementBegin
create function forget_replies() returns trigger
    language plpgsql security definer set search_path = public, pg_temp as $$
begin
    delete from requests where club = old.club and person = old.coach;
    return null;
end $$;
-- +goose StatementEnd
create trigger coachings_forget after delete on coachings for each row execute function forget_replies();
