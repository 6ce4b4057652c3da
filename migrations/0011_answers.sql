-- Who reads a member's answers, and when they last saw all cautions.

-- +goose Up
alter table members
    add column answers text,
    add column cautioned date,
    add constraint members_answers_check check (answers in ('private', 'shared'));
comment on column members.answers is 'Who reads answers about their own cars; null is private.';
comment on column members.cautioned is 'The day in the club''s zone on which they last saw all cautions; null is never.';
