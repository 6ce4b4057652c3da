-- Which text of each migration a database has had. The program writes it, and
-- compares the whole catalogue before it writes one that is missing.

-- +goose Up

alter table migrations add column hash text;
comment on table migrations is 'Which migrations the database has had, one row each.';
comment on column migrations.hash is 'SHA-256 of the migration''s file, in hexadecimal. Null until the schema was seen to be what the file makes.';
