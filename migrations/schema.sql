-- The whole schema in one place, for people to read. Nothing runs this file: the
-- numbered files beside it make the schema. It is written from the catalogue of
-- a fresh database, the same on every Postgres that the program runs on, with
--
--     go test ./migrations -run TestSchema -update

-- Up to migration 19.

grant usage on schema public to detent_app;

create type adjuster as enum ('bump', 'low-bump', 'high-bump', 'rebound', 'low-rebound', 'high-rebound');
grant usage on type adjuster to public;

create type axle as enum ('front', 'rear');
grant usage on type axle to public;

create type corner as enum ('FL', 'FR', 'RL', 'RR');
grant usage on type corner to public;

create table advice (
    club      text not null default current_setting('detent.club'::text),
    id        bigint not null generated always as identity,
    car       bigint not null,
    at        timestamp with time zone not null,
    complaint jsonb not null,
    given     jsonb not null,
    setting   jsonb not null,
    applied   smallint,
    change    bigint,
    event     bigint,
    coach     text,
    declined  timestamp with time zone,
    seen_at   timestamp with time zone,
    constraint advice_applied_check CHECK (applied >= 1),
    constraint advice_check CHECK ((applied IS NULL) = (change IS NULL)),
    constraint advice_check1 CHECK (declined IS NULL OR applied IS NULL),
    constraint advice_club_car_change_fkey FOREIGN KEY (club, car, change) REFERENCES changes(club, car, id) ON DELETE CASCADE,
    constraint advice_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint advice_club_car_id_key UNIQUE (club, car, id),
    constraint advice_club_coach_fkey FOREIGN KEY (club, coach) REFERENCES members(club, person) ON DELETE SET NULL (coach),
    constraint advice_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint advice_pkey PRIMARY KEY (club, id)
); -- row level security, forced
grant insert, select on table advice to detent_app;
comment on column advice.given is 'Remedies, checks, notes and cautions, as they were given.';
comment on column advice.setting is 'Where the clicks stood: adjusters by corner, in words, from full soft, without those at 0. Older rows hold four corners of six adjusters by number.';
comment on column advice.applied is 'Which of the remedies was applied, and in change as which change.';
grant update on column advice.applied to detent_app;
grant update on column advice.change to detent_app;
comment on column advice.coach is 'The coach who suggested it; null for the bot''s own.';
comment on column advice.declined is 'When the student declined the suggestion.';
grant update on column advice.declined to detent_app;
comment on column advice.seen_at is 'When the student read a coach''s suggestion; null while they have not, and for the bot''s own.';
grant update on column advice.seen_at to detent_app;
create index advice_coach ON public.advice USING btree (club, coach) WHERE (coach IS NOT NULL);
create index advice_event ON public.advice USING btree (club, event) WHERE (event IS NOT NULL);
create index advice_unseen ON public.advice USING btree (club, car, id) WHERE ((coach IS NOT NULL) AND (seen_at IS NULL) AND (applied IS NULL) AND (declined IS NULL));
create policy club_only on advice for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger advice_at_event BEFORE INSERT ON advice FOR EACH ROW EXECUTE FUNCTION at_event('at', '12 hours');

create table car_notes (
    club   text not null default current_setting('detent.club'::text),
    car    bigint not null,
    id     bigint not null generated always as identity,
    person text not null,
    at     timestamp with time zone not null,
    event  bigint,
    what   text not null,
    text   text not null,
    heat   text,
    fl     double precision,
    fr     double precision,
    rl     double precision,
    rr     double precision,
    constraint car_notes_check CHECK (text <> ''::text OR heat IS NOT NULL),
    constraint car_notes_check1 CHECK ((heat IS NOT NULL) = (num_nonnulls(fl, fr, rl, rr) > 0)),
    constraint car_notes_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint car_notes_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint car_notes_club_person_fkey FOREIGN KEY (club, person) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint car_notes_fl_check CHECK (fl >= '10000'::numeric::double precision AND fl <= '1000000'::numeric::double precision),
    constraint car_notes_fr_check CHECK (fr >= '10000'::numeric::double precision AND fr <= '1000000'::numeric::double precision),
    constraint car_notes_heat_check CHECK (heat = ANY (ARRAY['cold'::text, 'hot'::text])),
    constraint car_notes_pkey PRIMARY KEY (club, car, id),
    constraint car_notes_rl_check CHECK (rl >= '10000'::numeric::double precision AND rl <= '1000000'::numeric::double precision),
    constraint car_notes_rr_check CHECK (rr >= '10000'::numeric::double precision AND rr <= '1000000'::numeric::double precision),
    constraint car_notes_text_check CHECK (length(text) <= 1000),
    constraint car_notes_what_check CHECK (what = ANY (ARRAY['pressures'::text, 'tyres'::text, 'springs'::text, 'bars'::text, 'ride-height'::text, 'alignment'::text, 'brakes'::text, 'other'::text]))
); -- row level security, forced
comment on table car_notes is 'What was changed on a car other than clicks. Rows are added and never changed.';
grant insert, select on table car_notes to detent_app;
comment on column car_notes.heat is 'Whether the pressures were taken cold or hot; null where there are none.';
comment on column car_notes.fl is 'The tyre''s pressure in Pa, null where it was not said; as for fr, rl and rr.';
create index car_notes_event ON public.car_notes USING btree (club, event) WHERE (event IS NOT NULL);
create index car_notes_person ON public.car_notes USING btree (club, person);
create policy club_only on car_notes for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger car_notes_at_event BEFORE INSERT ON car_notes FOR EACH ROW EXECUTE FUNCTION at_event('at', '12 hours');

create table cars (
    club            text not null default current_setting('detent.club'::text),
    id              bigint not null generated always as identity,
    owner           text not null,
    name            text not null,
    main            boolean not null,
    retired         boolean not null,
    drive           text not null,
    engine          text not null,
    tyre            text not null,
    aero            text not null,
    use             text not null,
    torque_front    double precision not null,
    mass            double precision not null,
    front_share     double precision not null,
    wheelbase       double precision not null,
    cg_height       double precision not null,
    track_front     double precision not null,
    track_rear      double precision not null,
    spring_front    double precision not null,
    spring_rear     double precision not null,
    ratio_front     double precision not null,
    ratio_rear      double precision not null,
    bar_front       double precision,
    bar_rear        double precision,
    unsprung_front  double precision not null,
    unsprung_rear   double precision not null,
    tyre_rate_front double precision not null,
    tyre_rate_rear  double precision not null,
    version         bigint not null default 1,
    tries_read      boolean not null default true,
    constraint cars_aero_check CHECK (aero = ANY (ARRAY[''::text, 'none'::text, 'wing'::text, 'high'::text])),
    constraint cars_check CHECK (NOT (main AND retired)),
    constraint cars_club_owner_fkey FOREIGN KEY (club, owner) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint cars_drive_check CHECK (drive = ANY (ARRAY['front'::text, 'rear'::text, 'four'::text])),
    constraint cars_engine_check CHECK (engine = ANY (ARRAY['front'::text, 'mid'::text, 'rear'::text])),
    constraint cars_name_check CHECK (length(name) >= 1 AND length(name) <= 60),
    constraint cars_pkey PRIMARY KEY (club, id),
    constraint cars_tyre_check CHECK (tyre = ANY (ARRAY[''::text, 'road'::text, 'semi-slick'::text, 'slick'::text])),
    constraint cars_use_check CHECK (use = ANY (ARRAY[''::text, 'track'::text, 'road-and-track'::text]))
); -- row level security, forced
comment on table cars is 'Quantities are in SI units; 0 is unknown.';
grant insert, select, update on table cars to detent_app;
comment on column cars.bar_front is 'Null is unknown and 0 is none, as for bar_rear.';
comment on column cars.version is 'Goes up with every change of the clicks or dampers, which by that takes the car for itself.';
comment on column cars.tries_read is 'Whether the record of before there were tries has been read into them.';
create unique index cars_main ON public.cars USING btree (club, owner) WHERE main;
create unique index cars_name ON public.cars USING btree (club, owner, lower(name));
create index cars_unread ON public.cars USING btree (club, id) WHERE (NOT tries_read);
create policy club_only on cars for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger cars_kept BEFORE DELETE ON cars FOR EACH ROW EXECUTE FUNCTION keep_car();

create table changes (
    club      text not null default current_setting('detent.club'::text),
    car       bigint not null,
    id        bigint not null generated always as identity,
    at        timestamp with time zone not null,
    person    text,
    reason    text not null,
    complaint jsonb,
    advice    bigint,
    remedy    smallint,
    undoes    bigint,
    event     bigint,
    turned    boolean not null default false,
    constraint changes_check CHECK (undoes < id),
    constraint changes_club_car_advice_fkey FOREIGN KEY (club, car, advice) REFERENCES advice(club, car, id) ON DELETE CASCADE,
    constraint changes_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint changes_club_car_undoes_fkey FOREIGN KEY (club, car, undoes) REFERENCES changes(club, car, id) ON DELETE CASCADE,
    constraint changes_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint changes_club_person_fkey FOREIGN KEY (club, person) REFERENCES members(club, person) ON DELETE SET NULL (person),
    constraint changes_pkey PRIMARY KEY (club, car, id),
    constraint changes_reason_check CHECK (reason = ANY (ARRAY['fitted'::text, 'baseline'::text, 'remedy'::text, 'by hand'::text, 'undo'::text, 'search'::text, 'loaded'::text, 'copied'::text])),
    constraint changes_remedy_check CHECK (remedy >= 1)
); -- row level security, forced
comment on table changes is 'The log: everything that was turned on a car at once, and why. Rows are added and never changed.';
grant insert, select on table changes to detent_app;
comment on column changes.person is 'Null when they have left the club for good.';
comment on column changes.undoes is 'The change that this one takes back.';
comment on column changes.event is 'The event that the car was entered in that day, null for none; as for searches, advice and feels, where it may also be named.';
comment on column changes.turned is 'By hand: turned at that time. Otherwise the record was corrected, and nothing was turned.';
create index changes_event ON public.changes USING btree (club, event) WHERE (event IS NOT NULL);
create index changes_fitted ON public.changes USING btree (club, car, id) WHERE (reason = 'fitted'::text);
create index changes_person ON public.changes USING btree (club, person);
create unique index changes_undoes ON public.changes USING btree (club, car, undoes) WHERE (undoes IS NOT NULL);
create policy club_only on changes for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger changes_at_event BEFORE INSERT ON changes FOR EACH ROW EXECUTE FUNCTION at_event('at', '12 hours');
create trigger changes_kept BEFORE DELETE OR UPDATE ON changes FOR EACH ROW EXECUTE FUNCTION keep_log();
create trigger changes_not_emptied BEFORE TRUNCATE ON changes FOR EACH STATEMENT EXECUTE FUNCTION keep_log();
create trigger changes_now BEFORE INSERT ON changes FOR EACH ROW EXECUTE FUNCTION change_is_now();

create table clicks (
    club       text not null default current_setting('detent.club'::text),
    car        bigint not null,
    change     bigint not null,
    corner     corner not null,
    adjuster   adjuster not null,
    from_click smallint,
    to_click   smallint not null,
    constraint clicks_club_car_change_fkey FOREIGN KEY (club, car, change) REFERENCES changes(club, car, id) ON DELETE CASCADE,
    constraint clicks_pkey PRIMARY KEY (club, car, change, corner, adjuster)
); -- row level security, forced
comment on table clicks is 'The lines of a change: one adjuster of one corner each, in clicks from full soft. Adding one moves the position.';
grant insert, select on table clicks to detent_app;
comment on column clicks.from_click is 'Null when the dampers have just been fitted.';
create policy club_only on clicks for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger clicks_kept BEFORE DELETE OR UPDATE ON clicks FOR EACH ROW EXECUTE FUNCTION keep_log();
create trigger clicks_move AFTER INSERT ON clicks FOR EACH ROW EXECUTE FUNCTION move_clicks();
create trigger clicks_not_emptied BEFORE TRUNCATE ON clicks FOR EACH STATEMENT EXECUTE FUNCTION keep_log();

create table clubs (
    club          text not null default current_setting('detent.club'::text),
    zone          text not null,
    channel       text not null,
    coach_role    text not null,
    quiet_from    integer not null,
    quiet_to      integer not null,
    remind_after  integer not null,
    units         text not null,
    step_few      smallint not null,
    step_some     smallint not null,
    step_many     smallint not null,
    slight        smallint not null,
    back_off_few  smallint not null,
    back_off_many smallint not null,
    left_at       timestamp with time zone,
    tries_read    boolean not null default true,
    constraint clubs_back_off_few_check CHECK (back_off_few >= 1 AND back_off_few <= 9),
    constraint clubs_back_off_many_check CHECK (back_off_many >= 1 AND back_off_many <= 9),
    constraint clubs_club_check CHECK (length(club) >= 1 AND length(club) <= 200),
    constraint clubs_pkey PRIMARY KEY (club),
    constraint clubs_quiet_from_check CHECK (quiet_from >= 0 AND quiet_from <= 1440),
    constraint clubs_quiet_to_check CHECK (quiet_to >= 0 AND quiet_to <= 1440),
    constraint clubs_remind_after_check CHECK (remind_after >= 0),
    constraint clubs_slight_check CHECK (slight >= 1 AND slight <= 9),
    constraint clubs_step_few_check CHECK (step_few >= 1 AND step_few <= 9),
    constraint clubs_step_many_check CHECK (step_many >= 1 AND step_many <= 9),
    constraint clubs_step_some_check CHECK (step_some >= 1 AND step_some <= 9),
    constraint clubs_units_check CHECK (units = ANY (ARRAY['metric'::text, 'imperial'::text]))
); -- row level security
grant insert, select, update on table clubs to detent_app;
comment on column clubs.club is 'The key of the place the club meets in; it never changes.';
comment on column clubs.quiet_from is 'Minutes from midnight in the club''s zone, as quiet_to.';
comment on column clubs.remind_after is 'Minutes from the end of an event to the question how it felt.';
comment on column clubs.left_at is 'When the workspace removed the program, null while it is there.';
comment on column clubs.tries_read is 'Whether that holds for all cars of the club.';
create index clubs_left ON public.clubs USING btree (left_at) WHERE (left_at IS NOT NULL);
create policy club_only on clubs for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table coach_notes (
    club    text not null default current_setting('detent.club'::text),
    id      bigint not null generated always as identity,
    coach   text not null,
    student text not null,
    at      timestamp with time zone not null,
    text    text not null,
    seen_at timestamp with time zone,
    constraint coach_notes_club_coach_fkey FOREIGN KEY (club, coach) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint coach_notes_club_student_fkey FOREIGN KEY (club, student) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint coach_notes_pkey PRIMARY KEY (club, id),
    constraint coach_notes_text_check CHECK (length(text) >= 1 AND length(text) <= 1000)
); -- row level security, forced
grant insert, select on table coach_notes to detent_app;
comment on column coach_notes.seen_at is 'When the student read it; null while they have not.';
grant update on column coach_notes.seen_at to detent_app;
create index coach_notes_coach ON public.coach_notes USING btree (club, coach);
create index coach_notes_student ON public.coach_notes USING btree (club, student, id);
create index coach_notes_unseen ON public.coach_notes USING btree (club, student, id) WHERE (seen_at IS NULL);
create policy club_only on coach_notes for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table coachings (
    club     text not null default current_setting('detent.club'::text),
    id       bigint not null generated always as identity,
    coach    text not null,
    student  text not null,
    asked    timestamp with time zone not null,
    accepted timestamp with time zone,
    ended    timestamp with time zone,
    told_at  timestamp with time zone,
    constraint coachings_check CHECK (coach <> student),
    constraint coachings_club_coach_fkey FOREIGN KEY (club, coach) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint coachings_club_student_fkey FOREIGN KEY (club, student) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint coachings_pkey PRIMARY KEY (club, id)
); -- row level security, forced
comment on table coachings is 'A coach asks, the student accepts, and either ends it. Between accepted and ended the coach may look.';
grant insert, select on table coachings to detent_app;
grant update on column coachings.accepted to detent_app;
grant update on column coachings.ended to detent_app;
comment on column coachings.told_at is 'When the student was told how to stop the messages that come of it; null while they were not.';
grant update on column coachings.told_at to detent_app;
create unique index coachings_once ON public.coachings USING btree (club, coach, student) WHERE (ended IS NULL);
create index coachings_student ON public.coachings USING btree (club, student);
create policy club_only on coachings for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger coachings_forget AFTER DELETE ON coachings FOR EACH ROW EXECUTE FUNCTION forget_replies();

create table curves (
    club text not null default current_setting('detent.club'::text),
    car  bigint not null,
    axle axle not null,
    csv  text not null,
    constraint curves_club_car_axle_fkey FOREIGN KEY (club, car, axle) REFERENCES dampers(club, car, axle) ON DELETE CASCADE,
    constraint curves_pkey PRIMARY KEY (club, car, axle)
); -- row level security, forced
comment on table curves is 'The measured force table of an axle''s dampers, as it was given.';
grant insert, select, update on table curves to detent_app;
create policy club_only on curves for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table dampers (
    club         text not null default current_setting('detent.club'::text),
    car          bigint not null,
    axle         axle not null,
    ways         smallint not null,
    bump         smallint,
    rebound      smallint,
    low_bump     smallint,
    high_bump    smallint,
    low_rebound  smallint,
    high_rebound smallint,
    count        text not null,
    moves        text,
    constraint dampers_bump_check CHECK (bump >= 1 AND bump <= 99),
    constraint dampers_check CHECK ((moves IS NOT NULL) = (ways = 1)),
    constraint dampers_check1 CHECK (num_nonnulls(bump, rebound, low_bump, high_bump, low_rebound, high_rebound) = ways AND
CASE ways
    WHEN 1 THEN num_nonnulls(rebound)
    WHEN 2 THEN num_nonnulls(bump, rebound)
    WHEN 3 THEN num_nonnulls(low_bump, high_bump, rebound)
    WHEN 4 THEN num_nonnulls(low_bump, high_bump, low_rebound, high_rebound)
    ELSE NULL::integer
END = ways),
    constraint dampers_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint dampers_count_check CHECK (count = ANY (ARRAY['soft'::text, 'hard'::text])),
    constraint dampers_high_bump_check CHECK (high_bump >= 1 AND high_bump <= 99),
    constraint dampers_high_rebound_check CHECK (high_rebound >= 1 AND high_rebound <= 99),
    constraint dampers_low_bump_check CHECK (low_bump >= 1 AND low_bump <= 99),
    constraint dampers_low_rebound_check CHECK (low_rebound >= 1 AND low_rebound <= 99),
    constraint dampers_moves_check CHECK (moves = ANY (ARRAY['rebound'::text, 'both'::text])),
    constraint dampers_pkey PRIMARY KEY (club, car, axle),
    constraint dampers_rebound_check CHECK (rebound >= 1 AND rebound <= 99),
    constraint dampers_ways_check CHECK (ways >= 1 AND ways <= 4)
); -- row level security, forced
comment on table dampers is 'The pair on one axle: the clicks between the stops of each adjuster, null where there is none. Fitting others drops the axle''s positions and force table.';
grant insert, select, update on table dampers to detent_app;
comment on column dampers.count is 'The stop the member counts from. Everything kept is counted from full soft.';
comment on column dampers.moves is 'What the adjuster of a one-way damper moves.';
create policy club_only on dampers for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger dampers_changed AFTER UPDATE ON dampers FOR EACH ROW EXECUTE FUNCTION drop_axle();

create table drafts (
    club   text not null default current_setting('detent.club'::text),
    id     bigint not null generated always as identity,
    person text not null,
    at     timestamp with time zone not null,
    line   text not null,
    constraint drafts_club_person_fkey FOREIGN KEY (club, person) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint drafts_line_check CHECK (length(line) >= 1 AND length(line) <= 8000),
    constraint drafts_pkey PRIMARY KEY (club, id)
); -- row level security
comment on table drafts is 'Lines that could not be answered as they were typed, for the person to correct. They go after a day.';
grant insert, select on table drafts to detent_app;
create index drafts_at ON public.drafts USING btree (at);
create index drafts_person ON public.drafts USING btree (club, person);
create policy club_only on drafts for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table due (
    club       text not null default current_setting('detent.club'::text),
    id         bigint not null generated always as identity,
    kind       text not null,
    person     text,
    event      bigint,
    due_at     timestamp with time zone not null,
    until      timestamp with time zone not null,
    next_at    timestamp with time zone,
    attempts   smallint not null default 0,
    lease      uuid,
    settled_at timestamp with time zone,
    outcome    text,
    note       text not null default ''::text,
    about      bigint,
    constraint due_check CHECK (due_at < until),
    constraint due_check1 CHECK (next_at IS NOT NULL OR outcome IS NOT NULL),
    constraint due_check2 CHECK ((about IS NOT NULL) = (kind = ANY (ARRAY['coach-note'::text, 'suggestion'::text, 'event-message'::text]))),
    constraint due_check3 CHECK (about IS NULL OR person IS NOT NULL),
    constraint due_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint due_club_fkey FOREIGN KEY (club) REFERENCES clubs(club),
    constraint due_club_person_fkey FOREIGN KEY (club, person) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint due_kind_check CHECK (kind = ANY (ARRAY['ask-feel'::text, 'ask-again'::text, 'check-before'::text, 'post-guide'::text, 'digest'::text, 'coach-note'::text, 'suggestion'::text, 'event-message'::text])),
    constraint due_outcome_check CHECK (outcome = ANY (ARRAY['sent'::text, 'dropped'::text, 'gave up'::text, 'withdrawn'::text])),
    constraint due_pkey PRIMARY KEY (club, id)
); -- row level security
comment on table due is 'One row for each thing of an event and a person, for good: what was sent is known to have been sent.';
grant insert, select, update on table due to detent_app;
comment on column due.person is 'Whom it is for, null for the club''s channel.';
comment on column due.until is 'From then on it is of no use.';
comment on column due.next_at is 'When it may be claimed next: its time, or the end of a pause or a lease. Null when nothing is left to do.';
comment on column due.attempts is 'How often it was claimed to be sent since it was scheduled.';
comment on column due.lease is 'The token of whoever claimed it last. Only with it can the row be settled.';
comment on column due.outcome is 'What came of it last, and when in settled_at, and why in note.';
comment on column due.about is 'The coach''s note, the suggestion (an advice) or the event''s message that it brings to the person; null for what the program says of itself.';
create index due_fresh ON public.due USING btree (next_at, id) WHERE ((attempts = 0) AND (next_at IS NOT NULL));
create index due_messages ON public.due USING btree (club, person, due_at) WHERE (about IS NOT NULL);
create unique index due_once ON public.due USING btree (club, COALESCE(event, (0)::bigint), COALESCE(person, ''::text), kind, COALESCE(about, (0)::bigint));
create index due_person ON public.due USING btree (club, person);
create index due_tried ON public.due USING btree (next_at, id) WHERE ((attempts > 0) AND (next_at IS NOT NULL));
create policy club_only on due for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table entries (
    club     text not null default current_setting('detent.club'::text),
    event    bigint not null,
    car      bigint not null,
    at       timestamp with time zone not null,
    reminded boolean not null,
    left_at  timestamp with time zone,
    sheet    boolean not null default true,
    constraint entries_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint entries_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint entries_pkey PRIMARY KEY (club, event, car)
); -- row level security, forced
grant insert, select, update on table entries to detent_app;
comment on column entries.reminded is 'Whether the check before the event and the question after it are wanted.';
comment on column entries.left_at is 'When the car was taken out again, null while it is in.';
comment on column entries.sheet is 'Whether the car''s sheet for the event is wanted.';
create index entries_car ON public.entries USING btree (club, car);
create policy club_only on entries for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table event_messages (
    club    text not null default current_setting('detent.club'::text),
    id      bigint not null generated always as identity,
    event   bigint not null,
    sender  text not null,
    at      timestamp with time zone not null,
    text    text not null,
    cancels boolean not null default false,
    constraint event_messages_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint event_messages_club_sender_fkey FOREIGN KEY (club, sender) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint event_messages_pkey PRIMARY KEY (club, id),
    constraint event_messages_text_check CHECK (length(text) >= 1 AND length(text) <= 1000)
); -- row level security, forced
comment on table event_messages is 'What an organiser told those who were in an event. To whom it goes stands in due.';
grant insert, select on table event_messages to detent_app;
comment on column event_messages.cancels is 'Whether it tells that the event is cancelled, and so goes out although the event is.';
create index event_messages_event ON public.event_messages USING btree (club, event, at);
create index event_messages_sender ON public.event_messages USING btree (club, sender);
create policy club_only on event_messages for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table events (
    club         text not null default current_setting('detent.club'::text),
    id           bigint not null generated always as identity,
    name         text not null,
    starts       timestamp with time zone not null,
    ends         timestamp with time zone not null,
    place        text not null,
    surface      text not null,
    weather      text not null,
    most         smallint not null,
    organiser    text,
    cancelled    boolean not null default false,
    guide_at     timestamp with time zone,
    guide_hash   text not null default ''::text,
    gone_cars    smallint not null default 0,
    gone_answers smallint not null default 0,
    version      bigint not null default 1,
    constraint events_check CHECK (starts < ends),
    constraint events_club_fkey FOREIGN KEY (club) REFERENCES clubs(club),
    constraint events_club_organiser_fkey FOREIGN KEY (club, organiser) REFERENCES members(club, person) ON DELETE SET NULL (organiser),
    constraint events_most_check CHECK (most >= 0),
    constraint events_name_check CHECK (length(name) >= 1 AND length(name) <= 60),
    constraint events_pkey PRIMARY KEY (club, id),
    constraint events_surface_check CHECK (surface = ANY (ARRAY[''::text, 'smooth'::text, 'bumpy'::text, 'rough'::text])),
    constraint events_weather_check CHECK (weather = ANY (ARRAY[''::text, 'dry'::text, 'wet'::text, 'either'::text]))
); -- row level security, forced
grant insert, select, update on table events to detent_app;
comment on column events.surface is 'Empty is not said, as for weather.';
comment on column events.weather is 'What is expected; either is that nobody can tell.';
comment on column events.most is 'The most cars, 0 for no limit.';
comment on column events.organiser is 'Who made it; null when they have left the club for good.';
comment on column events.guide_at is 'When the guide is posted by itself, null for by hand.';
comment on column events.guide_hash is 'Of the guide as last posted, empty for never.';
comment on column events.gone_cars is 'How many cars were in whose owners have left for good, and in gone_answers how many of them had answered.';
comment on column events.version is 'Goes up with every entry in an event that has a limit; taking it locks the event.';
create index events_ends ON public.events USING btree (club, ends);
create index events_organiser ON public.events USING btree (club, organiser);
create policy club_only on events for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table feels (
    club       text not null default current_setting('detent.club'::text),
    car        bigint not null,
    id         bigint not null generated always as identity,
    person     text not null,
    at         timestamp with time zone not null,
    event      bigint,
    change     bigint,
    grip       smallint not null,
    entry      smallint,
    mid        smallint,
    exit       smallint,
    hop        boolean,
    better     text,
    lap_ms     integer,
    notes      text not null,
    hot_fl     double precision,
    hot_fr     double precision,
    hot_rl     double precision,
    hot_rr     double precision,
    conditions text,
    air        double precision,
    track      double precision,
    constraint feels_air_check CHECK (air >= 173::double precision AND air <= 523::double precision),
    constraint feels_better_check CHECK (better = ANY (ARRAY['yes'::text, 'no'::text, 'same'::text])),
    constraint feels_club_car_change_fkey FOREIGN KEY (club, car, change) REFERENCES changes(club, car, id) ON DELETE CASCADE,
    constraint feels_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint feels_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint feels_club_person_fkey FOREIGN KEY (club, person) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint feels_conditions_check CHECK (conditions = ANY (ARRAY['dry'::text, 'damp'::text, 'wet'::text])),
    constraint feels_entry_check CHECK (entry >= '-3'::integer AND entry <= 3),
    constraint feels_exit_check CHECK (exit >= '-3'::integer AND exit <= 3),
    constraint feels_grip_check CHECK (grip >= 1 AND grip <= 10),
    constraint feels_hot_fl_check CHECK (hot_fl >= '10000'::numeric::double precision AND hot_fl <= '1000000'::numeric::double precision),
    constraint feels_hot_fr_check CHECK (hot_fr >= '10000'::numeric::double precision AND hot_fr <= '1000000'::numeric::double precision),
    constraint feels_hot_rl_check CHECK (hot_rl >= '10000'::numeric::double precision AND hot_rl <= '1000000'::numeric::double precision),
    constraint feels_hot_rr_check CHECK (hot_rr >= '10000'::numeric::double precision AND hot_rr <= '1000000'::numeric::double precision),
    constraint feels_lap_ms_check CHECK (lap_ms > 0),
    constraint feels_mid_check CHECK (mid >= '-3'::integer AND mid <= 3),
    constraint feels_pkey PRIMARY KEY (club, car, id),
    constraint feels_track_check CHECK (track >= 173::double precision AND track <= 523::double precision)
); -- row level security, forced
grant insert, select on table feels to detent_app;
comment on column feels.change is 'The last change before it.';
comment on column feels.entry is 'From -3, pushes wide, over 0, neutral, to +3, comes round; as mid and exit.';
comment on column feels.better is 'Against the run before that change.';
comment on column feels.hot_fl is 'The tyre''s pressure in Pa, hot; null where it was not said; as for hot_fr, hot_rl and hot_rr.';
comment on column feels.air is 'The temperature of the air in K, and in track that of the track; null where it was not said.';
create index feels_change ON public.feels USING btree (club, car, change, id) WHERE (better IS NOT NULL);
create index feels_event ON public.feels USING btree (club, event, car) WHERE (event IS NOT NULL);
create index feels_person ON public.feels USING btree (club, person);
create policy club_only on feels for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger feels_at_event BEFORE INSERT ON feels FOR EACH ROW EXECUTE FUNCTION at_event('at', '84 hours');

create table kept_settings (
    club    text not null default current_setting('detent.club'::text),
    car     bigint not null,
    id      bigint not null generated always as identity,
    name    text not null,
    at      timestamp with time zone not null,
    event   bigint,
    weather text,
    clicks  jsonb not null,
    dampers jsonb not null,
    change  bigint not null,
    constraint kept_settings_clicks_check CHECK (jsonb_typeof(clicks) = 'object'::text),
    constraint kept_settings_club_car_change_fkey FOREIGN KEY (club, car, change) REFERENCES changes(club, car, id) ON DELETE CASCADE,
    constraint kept_settings_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint kept_settings_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint kept_settings_dampers_check CHECK (jsonb_typeof(dampers) = 'object'::text),
    constraint kept_settings_name_check CHECK (length(name) >= 1 AND length(name) <= 60),
    constraint kept_settings_pkey PRIMARY KEY (club, car, id),
    constraint kept_settings_weather_check CHECK (weather = ANY (ARRAY['dry'::text, 'damp'::text, 'wet'::text]))
); -- row level security, forced
comment on table kept_settings is 'Where a car''s clicks stood, under a name. Rows are added and forgotten, and never changed.';
grant delete, insert, select on table kept_settings to detent_app;
comment on column kept_settings.clicks is 'Clicks from full soft: adjusters by corner, in words, without those at 0.';
comment on column kept_settings.dampers is 'The dampers that the car had then, by axle: ways, count, moves of a one-way, and range, the clicks of each adjuster.';
comment on column kept_settings.change is 'The last change that turned something or fitted dampers. What was felt after it, and before another, was felt with these clicks.';
create index kept_settings_event ON public.kept_settings USING btree (club, event) WHERE (event IS NOT NULL);
create unique index kept_settings_name ON public.kept_settings USING btree (club, car, lower(name));
create policy club_only on kept_settings for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger kept_settings_at_event BEFORE INSERT ON kept_settings FOR EACH ROW EXECUTE FUNCTION at_event('at', '12 hours');

create table looks (
    club    text not null default current_setting('detent.club'::text),
    id      bigint not null generated always as identity,
    coach   text,
    student text not null,
    at      timestamp with time zone not null,
    what    text not null,
    constraint looks_club_coach_fkey FOREIGN KEY (club, coach) REFERENCES members(club, person) ON DELETE SET NULL (coach),
    constraint looks_club_student_fkey FOREIGN KEY (club, student) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint looks_pkey PRIMARY KEY (club, id)
); -- row level security, forced
comment on table looks is 'Every time a coach looked at a student''s things; the student can read it.';
grant insert, select on table looks to detent_app;
comment on column looks.coach is 'Null when they have left the club for good.';
create index looks_coach ON public.looks USING btree (club, coach);
create index looks_student ON public.looks USING btree (club, student, id);
create policy club_only on looks for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table members (
    club      text not null default current_setting('detent.club'::text),
    person    text not null,
    name      text not null,
    units     text,
    reminders boolean not null default true,
    no_direct boolean not null default false,
    answers   text,
    cautioned date,
    messages  boolean not null default true,
    constraint members_answers_check CHECK (answers = ANY (ARRAY['private'::text, 'shared'::text])),
    constraint members_club_fkey FOREIGN KEY (club) REFERENCES clubs(club),
    constraint members_person_check CHECK (length(person) >= 1 AND length(person) <= 200),
    constraint members_pkey PRIMARY KEY (club, person),
    constraint members_units_check CHECK (units = ANY (ARRAY['metric'::text, 'imperial'::text]))
); -- row level security, forced
comment on table members is 'A person in a club. Every other row about the person hangs on this one and goes with it.';
grant insert, select, update on table members to detent_app;
comment on column members.name is 'How others know the person today.';
comment on column members.units is 'Null is the club''s.';
comment on column members.no_direct is 'The platform refused direct messages to them.';
comment on column members.answers is 'Who reads answers about their own cars; null is private.';
comment on column members.cautioned is 'The day in the club''s zone on which they last saw all cautions; null is never.';
comment on column members.messages is 'Whether what coaches and organisers write reaches them as a direct message.';
create policy club_only on members for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table migrations (
    id         integer not null generated by default as identity,
    version_id bigint not null,
    is_applied boolean not null,
    tstamp     timestamp without time zone not null default now(),
    hash       text,
    constraint migrations_pkey PRIMARY KEY (id)
);
comment on table migrations is 'Which migrations the database has had, one row each.';
grant select on table migrations to detent_app;
comment on column migrations.hash is 'SHA-256 of the migration''s file, in hexadecimal. Null until the schema was seen to be what the file makes.';

create table positions (
    club     text not null default current_setting('detent.club'::text),
    car      bigint not null,
    corner   corner not null,
    adjuster adjuster not null,
    clicks   smallint not null,
    change   bigint not null,
    constraint positions_club_car_change_fkey FOREIGN KEY (club, car, change) REFERENCES changes(club, car, id) ON DELETE CASCADE,
    constraint positions_pkey PRIMARY KEY (club, car, corner, adjuster)
); -- row level security, forced
comment on table positions is 'Where each adjuster stands, in clicks from full soft. Only the log moves it.';
grant select on table positions to detent_app;
comment on column positions.change is 'The change that put it there.';
create policy club_only on positions for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table refits (
    club text not null default current_setting('detent.club'::text),
    car  bigint not null,
    id   bigint not null generated always as identity,
    at   timestamp with time zone not null,
    what text not null,
    constraint refits_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint refits_pkey PRIMARY KEY (club, car, id),
    constraint refits_what_check CHECK (what = ANY (ARRAY['tyres'::text, 'springs'::text]))
); -- row level security, forced
comment on table refits is 'When a car got other tyres or springs. Other dampers are changes of reason fitted.';
grant insert, select on table refits to detent_app;
create policy club_only on refits for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table requests (
    club   text not null default current_setting('detent.club'::text),
    person text not null,
    id     text not null,
    at     timestamp with time zone not null,
    reply  bytea not null,
    shows  text[],
    constraint requests_club_person_fkey FOREIGN KEY (club, person) REFERENCES members(club, person) ON DELETE CASCADE,
    constraint requests_id_check CHECK (length(id) >= 1 AND length(id) <= 200),
    constraint requests_pkey PRIMARY KEY (club, person, id)
); -- row level security
comment on table requests is 'What was answered to a request that changes something. Asked again under the same id, the answer is given again and nothing is changed.';
grant insert, select on table requests to detent_app;
comment on column requests.reply is 'JSON in UTF-8: select convert_from(reply, ''UTF8''). Older ones are in a form of the program''s own.';
comment on column requests.shows is 'The students whose things the reply shows; it is not given again once one of those coachings has ended. Null for none.';
create policy club_only on requests for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table search_runs (
    club   text not null default current_setting('detent.club'::text),
    car    bigint not null,
    search bigint not null,
    number smallint not null,
    at     timestamp with time zone not null,
    hop    boolean not null,
    grip   smallint,
    clicks smallint not null,
    constraint search_runs_club_car_search_fkey FOREIGN KEY (club, car, search) REFERENCES searches(club, car, id) ON DELETE CASCADE,
    constraint search_runs_grip_check CHECK (grip >= 1 AND grip <= 10),
    constraint search_runs_number_check CHECK (number >= 1),
    constraint search_runs_pkey PRIMARY KEY (club, car, search, number)
); -- row level security, forced
grant insert, select on table search_runs to detent_app;
comment on column search_runs.clicks is 'The step that followed: stiffer above 0, softer below.';
create policy club_only on search_runs for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table searches (
    club    text not null default current_setting('detent.club'::text),
    car     bigint not null,
    id      bigint not null generated always as identity,
    weather text not null,
    started timestamp with time zone not null,
    event   bigint,
    stopped timestamp with time zone,
    why     text,
    constraint searches_check CHECK ((stopped IS NULL) = (why IS NULL)),
    constraint searches_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint searches_club_event_fkey FOREIGN KEY (club, event) REFERENCES events(club, id),
    constraint searches_pkey PRIMARY KEY (club, car, id),
    constraint searches_weather_check CHECK (weather = ANY (ARRAY['dry'::text, 'wet'::text])),
    constraint searches_why_check CHECK (why = ANY (ARRAY['hop'::text, 'stop'::text, 'driver'::text]))
); -- row level security, forced
comment on table searches is 'Grip searches: one under way at most for a car and a weather.';
grant insert, select on table searches to detent_app;
grant update on column searches.stopped to detent_app;
grant update on column searches.why to detent_app;
create index searches_event ON public.searches USING btree (club, event) WHERE (event IS NOT NULL);
create unique index searches_under_way ON public.searches USING btree (club, car, weather) WHERE (stopped IS NULL);
create policy club_only on searches for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger searches_at_event BEFORE INSERT ON searches FOR EACH ROW EXECUTE FUNCTION at_event('started', '12 hours');

create table tries (
    club     text not null default current_setting('detent.club'::text),
    car      bigint not null,
    change   bigint not null,
    feel     bigint,
    search   bigint,
    run      smallint,
    at       timestamp with time zone not null,
    what     text not null,
    place    text not null,
    drive    text not null,
    part     text not null,
    job      text not null,
    turn     text not null,
    fraction double precision not null,
    moved    double precision not null,
    variance double precision not null,
    helped   boolean not null,
    worse    boolean not null,
    constraint tries_check CHECK (num_nonnulls(feel, search) = 1 AND (num_nonnulls(search, run) = ANY (ARRAY[0, 2]))),
    constraint tries_club_car_change_fkey FOREIGN KEY (club, car, change) REFERENCES changes(club, car, id) ON DELETE CASCADE,
    constraint tries_club_car_feel_fkey FOREIGN KEY (club, car, feel) REFERENCES feels(club, car, id) ON DELETE CASCADE,
    constraint tries_club_car_search_run_fkey FOREIGN KEY (club, car, search, run) REFERENCES search_runs(club, car, search, number) ON DELETE CASCADE,
    constraint tries_drive_check CHECK (drive = ANY (ARRAY[''::text, 'front'::text, 'rear'::text, 'four'::text])),
    constraint tries_fraction_check CHECK (fraction > 0::double precision),
    constraint tries_job_check CHECK (length(job) >= 1 AND length(job) <= 40),
    constraint tries_part_check CHECK (part = ANY (ARRAY['front'::text, 'rear'::text, 'whole'::text])),
    constraint tries_pkey PRIMARY KEY (club, car, change),
    constraint tries_place_check CHECK (place = ANY (ARRAY[''::text, 'entry'::text, 'exit'::text])),
    constraint tries_turn_check CHECK (turn = ANY (ARRAY['stiffer'::text, 'softer'::text])),
    constraint tries_variance_check CHECK (variance > 0::double precision),
    constraint tries_what_check CHECK (length(what) >= 1 AND length(what) <= 40)
); -- row level security, forced
comment on table tries is 'One change that made a remedy of the table, and what was felt after it. Rows are added and never changed.';
grant insert, select on table tries to detent_app;
comment on column tries.feel is 'What judged it; a run of a grip search where that is null.';
comment on column tries.at is 'When that was felt.';
comment on column tries.what is 'With place and drive the row of the table of remedies; with part, job and turn besides, the remedy.';
comment on column tries.fraction is 'Clicks turned over clicks that the row asks for, the mean of two axles.';
comment on column tries.moved is 'Marks that the car moved the wanted way, and in variance the variance of that reading, before age and refits.';
create index tries_feel ON public.tries USING btree (club, feel) WHERE (feel IS NOT NULL);
create policy club_only on tries for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));

create table try_sums (
    club   text not null default current_setting('detent.club'::text),
    what   text not null,
    place  text not null,
    drive  text not null,
    part   text not null,
    job    text not null,
    turn   text not null,
    car    bigint not null,
    at     timestamp with time zone not null,
    a      double precision not null,
    b      double precision not null,
    tries  integer not null,
    helped integer not null,
    last   timestamp with time zone not null,
    worse  boolean not null,
    owner  text not null,
    constraint try_sums_club_car_fkey FOREIGN KEY (club, car) REFERENCES cars(club, id) ON DELETE CASCADE,
    constraint try_sums_pkey PRIMARY KEY (club, what, place, drive, car, part, job, turn)
); -- row level security, forced
comment on table try_sums is 'A car''s tries of a remedy added up as they weigh at a moment. Written anew from tries with each try and each refit, so that a club is read at one row a car.';
grant insert, select, update on table try_sums to detent_app;
comment on column try_sums.a is 'The sum of weight · fraction² / variance, and in b of weight · fraction · moved / variance.';
comment on column try_sums.last is 'When the newest try was felt, and in worse whether it felt worse.';
comment on column try_sums.owner is 'Whose the car is. A trigger fills it in. A car never changes its owner, and goes with them; its sums go with it.';
create index try_sums_car ON public.try_sums USING btree (club, car);
create policy club_only on try_sums for all to public using ((club = current_setting('detent.club'::text, true))) with check ((club = current_setting('detent.club'::text, true)));
create trigger try_sums_owner BEFORE INSERT ON try_sums FOR EACH ROW EXECUTE FUNCTION owner_of_sums();

CREATE OR REPLACE FUNCTION public.arrive(here text, who text, request text, OUT known boolean, OUT name text, OUT reply bytea, OUT withheld boolean)
 RETURNS record
 LANGUAGE plpgsql
AS $function$
declare
    shown text[];
begin
    perform set_config('detent.club', here, true);
    select exists (select from clubs),
        (select m.name from members m where m.person = who and not m.no_direct)
        into known, name;
    select r.reply, r.shows into reply, shown from requests r where r.person = who and r.id = request;
    withheld := shown is not null and exists (
        select from unnest(shown) seen (student)
        where not exists (
            select from coachings c
            where c.coach = who and c.student = seen.student and c.accepted is not null and c.ended is null));
end $function$;
comment on function arrive(here text, who text, request text, OUT known boolean, OUT name text, OUT reply bytea, OUT withheld boolean) is 'Makes the transaction one of a club, and tells whether the club is known, under what name the person is, null when they are not or the platform refused direct messages to them, what was answered to the request, null when nothing was, and whether that is no longer to be shown.';
grant execute on function arrive(here text, who text, request text, OUT known boolean, OUT name text, OUT reply bytea, OUT withheld boolean) to detent_app;

CREATE OR REPLACE FUNCTION public.at_event()
 RETURNS trigger
 LANGUAGE plpgsql
AS $function$
begin
    if new.event is null then
        new.event := event_of(new.car, (to_jsonb(new)->>tg_argv[0])::timestamptz, tg_argv[1]::interval);
    end if;
    return new;
end $function$;
comment on function at_event() is 'Puts a new row that names no event to the one its car is at. It is told which column holds the time, and how long after the end of an event still belongs to it.';

CREATE OR REPLACE FUNCTION public.change_is_now()
 RETURNS trigger
 LANGUAGE plpgsql
AS $function$
begin
    if new.at not between clock_timestamp() - interval '5 minutes' and clock_timestamp() + interval '5 minutes'
        and not rehearsing() then
        raise exception 'a change is dated other than now'
            using errcode = 'check_violation', constraint = 'changes_now', table = 'changes';
    end if;
    return new;
end $function$;

CREATE OR REPLACE FUNCTION public.claim_due(moment timestamp with time zone, place text, lasting interval, most integer)
 RETURNS TABLE(id bigint, club text, kind text, person text, event bigint, about bigint, at timestamp with time zone, until timestamp with time zone, attempts smallint, lease uuid)
 LANGUAGE sql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
    with tried as materialized (
        select d.club, d.id from due d
        where d.next_at <= moment and d.attempts > 0 and meets_at(d.club, place)
        order by d.next_at, d.id
        limit most
        for update skip locked
    ), fresh as materialized (
        select d.club, d.id from due d
        where d.next_at <= moment and d.attempts = 0 and meets_at(d.club, place)
        order by d.next_at, d.id
        limit most - (select count(*) from tried)
        for update skip locked
    ), claimed as (
        update due d
        set lease = gen_random_uuid(), next_at = moment + lasting, attempts = d.attempts + 1
        from (table tried union all table fresh) free
        where d.club = free.club and d.id = free.id
        returning d.*
    )
    select c.id, c.club, c.kind, coalesce(c.person, ''), coalesce(c.event, 0), coalesce(c.about, 0), c.due_at, c.until, c.attempts, c.lease
    from claimed c
    order by c.due_at, c.id;
$function$;
comment on function claim_due(moment timestamp with time zone, place text, lasting interval, most integer) is 'Claims for so long what is due in any club of a place: the one door between clubs. Each row is claimed by one caller, and again by another when its lease has run out.';
grant execute on function claim_due(moment timestamp with time zone, place text, lasting interval, most integer) to detent_app;

CREATE OR REPLACE FUNCTION public.club_only(guarded regclass)
 RETURNS void
 LANGUAGE plpgsql
AS $function$
begin
    execute format('alter table %s enable row level security', guarded);
    execute format('alter table %s force row level security', guarded);
    execute format(
        'create policy club_only on %s'
        ' using (club = current_setting(''detent.club'', true))'
        ' with check (club = current_setting(''detent.club'', true))', guarded);
end $function$;
comment on function club_only(guarded regclass) is 'Shuts a table that has a column club to all but the club of the transaction. Every migration calls it for every table it makes.';

CREATE OR REPLACE FUNCTION public.drop_axle()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
begin
    delete from curves where club = new.club and car = new.car and axle = new.axle;
    delete from positions where club = new.club and car = new.car
        and corner = any (case new.axle when 'front' then '{FL,FR}' else '{RL,RR}' end::corner[]);
    return null;
end $function$;

CREATE OR REPLACE FUNCTION public.erase_person(leaver text)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
declare
    here text := current_setting('detent.club');
begin
    update events e
        set gone_cars = gone_cars + t.cars, gone_answers = gone_answers + t.answers
        from (
            select n.event, count(*) as cars, count(*) filter (where exists (
                select from feels f where f.club = n.club and f.event = n.event and f.car = n.car)) as answers
            from entries n join cars c on c.club = n.club and c.id = n.car
            where n.club = here and c.owner = leaver and n.left_at is null
            group by n.event) t
        where e.club = here and e.id = t.event;
    delete from members where club = here and person = leaver;
end $function$;
comment on function erase_person(leaver text) is 'Removes a person of the club of the transaction and all that hangs on them: the one door by which log rows leave.';
grant execute on function erase_person(leaver text) to detent_app;

CREATE OR REPLACE FUNCTION public.event_of(entered bigint, moment timestamp with time zone, afterwards interval)
 RETURNS bigint
 LANGUAGE plpgsql
 STABLE
AS $function$
begin
    return (
        select e.id
        from entries n join events e on e.club = n.club and e.id = n.event
        where n.car = entered and n.left_at is null and not e.cancelled
            and moment between e.starts - interval '12 hours' and e.ends + afterwards
        order by e.starts <= moment desc, case when e.starts <= moment then e.starts end desc, e.starts
        limit 1);
end $function$;
comment on function event_of(entered bigint, moment timestamp with time zone, afterwards interval) is 'The event whose day a moment belongs to for a car entered in it: from twelve hours before it starts, when the car is made ready, to so long after it ends. Of two, the one that began last, and of two that have not begun the next.';
grant execute on function event_of(entered bigint, moment timestamp with time zone, afterwards interval) to detent_app;

CREATE OR REPLACE FUNCTION public.forget_clubs(before timestamp with time zone)
 RETURNS integer
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;
comment on function forget_clubs(before timestamp with time zone) is 'Removes every club that left before a moment, with all that it has, and tells how many those were.';
grant execute on function forget_clubs(before timestamp with time zone) to detent_app;

CREATE OR REPLACE FUNCTION public.forget_replies()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
begin
    delete from requests where club = old.club and person = old.coach;
    return null;
end $function$;

CREATE OR REPLACE FUNCTION public.forget_requests(before timestamp with time zone, most integer)
 RETURNS integer
 LANGUAGE sql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
$function$;
comment on function forget_requests(before timestamp with time zone, most integer) is 'Removes at most so many requests made before a moment, of all clubs, and tells how many those were; and as many drafts that are a day old.';
grant execute on function forget_requests(before timestamp with time zone, most integer) to detent_app;

CREATE OR REPLACE FUNCTION public.given_advice(wanted bigint, whose text)
 RETURNS json
 LANGUAGE plpgsql
 STABLE
AS $function$
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
end $function$;
comment on function given_advice(wanted bigint, whose text) is 'An advice given on a car of a person''s, with the car, its dampers and their force tables, where its clicks stand, and the notes of the newest feel. Null when there is none.';
grant execute on function given_advice(wanted bigint, whose text) to detent_app;

CREATE OR REPLACE FUNCTION public.keep_car()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
begin
    if exists (select from members where club = old.club and person = old.owner) then
        raise exception 'a car goes only with its owner' using errcode = 'restrict_violation', constraint = 'log_kept', table = 'cars';
    end if;
    return old;
end $function$;

CREATE OR REPLACE FUNCTION public.keep_log()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
begin
    if tg_op = 'DELETE' then
        if not exists (select from cars where club = old.club and id = old.car) then
            return old;
        end if;
    elsif tg_op = 'UPDATE' then
        if to_jsonb(new) = to_jsonb(old) || '{"person": null}'
            and not exists (select from members where club = old.club and person = to_jsonb(old)->>'person') then
            return new;
        end if;
    end if;
    raise exception 'the log is only added to' using errcode = 'restrict_violation', constraint = 'log_kept', table = tg_table_name;
end $function$;

CREATE OR REPLACE FUNCTION public.keep_reply(who text, request text, moment timestamp with time zone, said bytea, students text[])
 RETURNS void
 LANGUAGE plpgsql
AS $function$
begin
    insert into requests (person, id, at, reply, shows) values (who, request, moment, said, students);
end $function$;
comment on function keep_reply(who text, request text, moment timestamp with time zone, said bytea, students text[]) is 'Remembers what was answered to a request, and which students it shows.';
grant execute on function keep_reply(who text, request text, moment timestamp with time zone, said bytea, students text[]) to detent_app;

CREATE OR REPLACE FUNCTION public.known_clubs(place text)
 RETURNS SETOF text
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
    select club from clubs where meets_at(club, place) order by club;
$function$;
comment on function known_clubs(place text) is 'The keys of the clubs of a place. It tells nothing else of any club.';
grant execute on function known_clubs(place text) to detent_app;

CREATE OR REPLACE FUNCTION public.meets_at(club text, place text)
 RETURNS boolean
 LANGUAGE sql
 IMMUTABLE
AS $function$
    select case place when '' then strpos(club, ':') = 0 else starts_with(club, place || ':') end;
$function$;
comment on function meets_at(club text, place text) is 'Tells whether a club is of a place, the word before the colon of its key; those without one have none.';

CREATE OR REPLACE FUNCTION public.move_clicks()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
declare
    most    smallint;
    stood   smallint;
    fitting boolean;
    fresh   boolean;
begin
    select case new.adjuster
            when 'bump' then bump
            when 'rebound' then rebound
            when 'low-bump' then low_bump
            when 'high-bump' then high_bump
            when 'low-rebound' then low_rebound
            when 'high-rebound' then high_rebound
        end into most
        from dampers
        where club = new.club and car = new.car
            and axle = case when new.corner in ('FL', 'FR') then 'front' else 'rear' end::axle;
    if most is null or new.to_click not between 0 and most or new.from_click not between 0 and most then
        raise exception 'a line is past a stop'
            using errcode = 'check_violation', constraint = 'clicks_in_range', table = 'clicks';
    end if;
    select reason = 'fitted', xmin = pg_current_xact_id()::xid into fitting, fresh from changes
        where club = new.club and car = new.car and id = new.change;
    if not fresh then
        raise exception 'a line is added to an old change'
            using errcode = 'restrict_violation', constraint = 'log_kept', table = 'clicks';
    end if;
    select clicks into stood from positions
        where club = new.club and car = new.car and corner = new.corner and adjuster = new.adjuster
        for update;
    if new.from_click is distinct from stood or fitting <> (new.from_click is null) then
        raise exception 'a line does not start where the adjuster stands'
            using errcode = 'check_violation', constraint = 'clicks_follow', table = 'clicks';
    end if;
    insert into positions (club, car, corner, adjuster, clicks, change)
        values (new.club, new.car, new.corner, new.adjuster, new.to_click, new.change)
        on conflict (club, car, corner, adjuster)
        do update set clicks = excluded.clicks, change = excluded.change;
    return null;
end $function$;

CREATE OR REPLACE FUNCTION public.open_book(here text, who text, request text, OUT club json, OUT member json, OUT reply bytea, OUT withheld boolean)
 RETURNS record
 LANGUAGE plpgsql
AS $function$
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
end $function$;
comment on function open_book(here text, who text, request text, OUT club json, OUT member json, OUT reply bytea, OUT withheld boolean) is 'Makes the transaction one of a club, and tells the rows of the club and of the person, null when they are not known, what was answered to the request, null when nothing was or none is named, and whether that is no longer to be shown.';
grant execute on function open_book(here text, who text, request text, OUT club json, OUT member json, OUT reply bytea, OUT withheld boolean) to detent_app;

CREATE OR REPLACE FUNCTION public.owner_of_sums()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
begin
    new.owner := coalesce((select owner from cars where club = new.club and id = new.car), ''); -- the foreign key refuses no car
    return new;
end $function$;

CREATE OR REPLACE FUNCTION public.record_change(of_car bigint, moment timestamp with time zone, maker text, why text, said jsonb, of_advice bigint, of_remedy smallint, taken_back bigint, really boolean, corners corner[], adjusters adjuster[], starts smallint[], ends smallint[], OUT recorded bigint, OUT overtaken_by bigint, OUT spent boolean)
 RETURNS record
 LANGUAGE plpgsql
AS $function$
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
end $function$;
comment on function record_change(of_car bigint, moment timestamp with time zone, maker text, why text, said jsonb, of_advice bigint, of_remedy smallint, taken_back bigint, really boolean, corners corner[], adjusters adjuster[], starts smallint[], ends smallint[], OUT recorded bigint, OUT overtaken_by bigint, OUT spent boolean) is 'Adds a change to the log, a start of -1 being a fitting and 0 for none, and notes the advice it came from as applied. When a line does not start where its adjuster stands it goes no further than to tell which change moved that, 0 for none; whether the advice was applied or declined already it tells at the end. Either way the caller takes all of it back.';
grant execute on function record_change(of_car bigint, moment timestamp with time zone, maker text, why text, said jsonb, of_advice bigint, of_remedy smallint, taken_back bigint, really boolean, corners corner[], adjusters adjuster[], starts smallint[], ends smallint[], OUT recorded bigint, OUT overtaken_by bigint, OUT spent boolean) to detent_app;

CREATE OR REPLACE FUNCTION public.rehearsing()
 RETURNS boolean
 LANGUAGE plpgsql
 STABLE
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
begin
    return exists (
        select from pg_roles
        where rolname = 'detent_rehearsal'
            and pg_has_role(coalesce(nullif(current_setting('role'), 'none'), session_user)::name, oid, 'member'));
end $function$;
comment on function rehearsing() is 'Tells whether the session may take another time for now.';
grant execute on function rehearsing() to detent_app;

CREATE OR REPLACE FUNCTION public.unread_clubs()
 RETURNS SETOF text
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
    select club from clubs where not tries_read order by club;
$function$;
comment on function unread_clubs() is 'The keys of the clubs with cars whose record has not been read into tries. It tells nothing else of any club.';
grant execute on function unread_clubs() to detent_app;

CREATE OR REPLACE FUNCTION public.waiting(moment timestamp with time zone, place text)
 RETURNS bigint
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
    select count(*) from due where next_at <= moment and meets_at(club, place);
$function$;
comment on function waiting(moment timestamp with time zone, place text) is 'How many things are due in the clubs of a place and not yet sent. It tells a number and nothing else of any club.';
grant execute on function waiting(moment timestamp with time zone, place text) to detent_app;
