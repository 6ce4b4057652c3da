package migrations_test

import (
	"os"
	"os/exec"
	"slices"
	"testing"

	"detent/migrations"
	"detent/store/storetest"
)

func TestDifferences(t *testing.T) {
	db := connect(t, storetest.URL(t))
	fresh := catalogue(t, db)
	if lines := fresh.Differences(catalogue(t, db)); len(lines) > 0 {
		t.Errorf("it differs from itself: %q", lines)
	}
	for name, test := range map[string]struct {
		edit string
		want []string
	}{
		"a column too few":       {`alter table cars drop column aero`, []string{"column aero of cars is missing", "constraint cars_aero_check of cars is missing"}},
		"a column too many":      {`alter table cars add column colour text`, []string{"column colour of cars should not be there"}},
		"another type":           {`alter table feels alter column notes type varchar(80)`, []string{"column notes of feels is another"}},
		"another default":        {`alter table members alter column reminders set default false`, []string{"column reminders of members is another"}},
		"columns in other order": {`alter table requests rename reply to x; alter table requests rename at to reply; alter table requests rename x to at`, []string{"column reply of requests is another", "column at of requests is another", "the comment on column requests.at should not be there", "the comment on column requests.reply is missing", "the columns of requests are in another order"}},
		"another constraint":     {`alter table clubs drop constraint clubs_step_few_check, add constraint clubs_step_few_check check (step_few > 0)`, []string{"constraint clubs_step_few_check of clubs is another"}},
		"an index too few":       {`drop index cars_name`, []string{"index cars_name of cars is missing"}},
		"a trigger that is off":  {`alter table cars disable trigger cars_kept`, []string{"trigger cars_kept of cars is another"}},
		"another function":       {`create or replace function event_of(entered bigint, moment timestamptz, afterwards interval) returns bigint language sql as 'select 1'`, []string{"function event_of(entered bigint, moment timestamp with time zone, afterwards interval) is another"}},
		"a policy too few":       {`drop policy club_only on cars`, []string{"policy club_only of cars is missing"}},
		"no row level security":  {`alter table cars no force row level security`, []string{"table cars is another"}},
		"a grant too many":       {`grant delete on changes to detent_app`, []string{"the grant on table changes to detent_app is another"}},
		"a grant to everyone":    {`grant execute on function forget_requests to public`, []string{"the grant on function forget_requests(before timestamp with time zone, most integer) to public should not be there"}},
		"another word":           {`alter type axle add value 'middle'`, []string{"type axle is another"}},
		"a comment too few":      {`comment on table cars is null`, []string{"the comment on table cars is missing"}},
	} {
		t.Run(name, func(t *testing.T) {
			tx, err := db.BeginTx(t.Context(), nil)
			if err != nil {
				t.Fatal(err)
			}
			defer tx.Rollback()
			if _, err := tx.Exec(test.edit); err != nil {
				t.Fatal(err)
			}
			edited, err := migrations.ReadCatalogue(t.Context(), tx)
			if err != nil {
				t.Fatal(err)
			}
			if lines := edited.Differences(fresh); !slices.Equal(lines, test.want) {
				t.Errorf("it differs in %q, want %q", lines, test.want)
			}
		})
	}
}

// A record that went through a backup is the same schema: what the server
// writes of it is read back as it was.
func TestARestoredSchemaIsTheSame(t *testing.T) {
	for _, tool := range []string{"pg_dump", "psql"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("the standard tools are not on the PATH: %v", err)
		}
	}
	first, second := storetest.URL(t), storetest.Empty(t)
	dump := exec.Command("sh", "-ec", `pg_dump "$FROM" > dump.sql; psql --quiet --no-psqlrc --set=ON_ERROR_STOP=1 --file=dump.sql "$TO"`)
	dump.Dir = t.TempDir()
	dump.Env = append(os.Environ(), "FROM="+first, "TO="+second)
	if said, err := dump.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	if lines := catalogue(t, connect(t, second)).Differences(catalogue(t, connect(t, first))); len(lines) > 0 {
		t.Errorf("it differs in %q", lines)
	}
}
