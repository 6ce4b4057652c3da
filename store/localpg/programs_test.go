package localpg

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// install puts a stand-in for a set of server programs into a folder.
func install(t *testing.T, says string, names ...string) string {
	t.Helper()
	folder := t.TempDir()
	for _, name := range names {
		script := "#!/bin/sh\necho '" + says + "'\n"
		if err := os.WriteFile(filepath.Join(folder, name), []byte(script), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

func TestInstalled(t *testing.T) {
	older := install(t, "postgres (PostgreSQL) 97.3", "postgres", "initdb")
	newer := install(t, "postgres (PostgreSQL) 98.1 (Debian 98.1-1)", "postgres", "initdb")
	links := t.TempDir()
	if err := os.Symlink(filepath.Join(newer, "postgres"), filepath.Join(links, "postgres")); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", strings.Join([]string{
		older,
		links,
		newer,
		install(t, "postgres (PostgreSQL) 99.0", "postgres"), // no initdb
		install(t, "postgres (PostgreSQL) 9.6.24", "postgres", "initdb"),
		install(t, "something else", "postgres", "initdb"),
		"/nowhere",
	}, string(os.PathListSeparator)))

	sets := installed()
	if len(sets) < 2 || sets[0] != (programs{newer, 98}) || sets[1] != (programs{older, 97}) {
		t.Fatalf("found %v", sets)
	}
	for _, set := range sets[2:] { // what this machine has
		if set.major >= 97 || set.major < oldest {
			t.Errorf("found %v", set)
		}
	}
	if got, err := newest(sets); err != nil || got.major != 98 {
		t.Errorf("the newest is %v, %v", got, err)
	}
	if got, err := matching(sets, 97, ""); err != nil || got.folder != older {
		t.Errorf("97 is %v, %v", got, err)
	}
}

func TestWhatIsMissingIsSaid(t *testing.T) {
	_, none := newest(nil)
	_, other := matching([]programs{{major: 17}, {major: 15}}, 16, "/data/postgres")
	_, bare := matching(nil, 16, "/data/postgres")
	for _, test := range []struct {
		err  error
		want []string
	}{
		{none, []string{"not installed", "apt-get install postgresql", "DETENT_DATABASE_URL"}},
		{other, []string{"/data/postgres", "made by PostgreSQL 16", "version 17 and 15", "apt-get install postgresql-16"}},
		{bare, []string{"made by PostgreSQL 16", "apt-get install postgresql-16"}},
	} {
		if test.err == nil {
			t.Errorf("no error says %q", test.want)
			continue
		}
		for _, want := range test.want {
			if !strings.Contains(test.err.Error(), want) {
				t.Errorf("%q does not say %q", test.err, want)
			}
		}
	}
}
