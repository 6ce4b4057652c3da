package localpg

import (
	"cmp"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// oldest is the first major version the program's schema can live on.
const oldest = 13

// usual are the folders where packages put the server programs when they keep
// them off the PATH.
var usual = []string{
	"/usr/lib/postgresql/*/bin",       // Debian, Ubuntu
	"/usr/pgsql-*/bin",                // Red Hat, packages of the Postgres project
	"/usr/libexec/postgresql*",        // Alpine
	"/usr/lib/postgresql*/bin",        // SUSE
	"/usr/local/pgsql/bin",            // from source
	"/opt/homebrew/opt/postgres*/bin", // macOS
	"/usr/local/opt/postgres*/bin",
	"/opt/local/lib/postgresql*/bin",
}

// programs is one installed set of server programs.
type programs struct {
	folder string
	major  int
}

func (p programs) initdb() string   { return filepath.Join(p.folder, "initdb") }
func (p programs) postgres() string { return filepath.Join(p.folder, "postgres") }

// installed lists the usable sets on this machine, newest first.
func installed() []programs {
	folders := filepath.SplitList(os.Getenv("PATH"))
	for _, pattern := range usual {
		found, _ := filepath.Glob(pattern) // the patterns are well formed
		folders = append(folders, found...)
	}
	var sets []programs
	seen := map[string]bool{}
	for _, folder := range folders {
		// A link on the PATH leads to the folder where the rest lies too.
		postgres, err := filepath.EvalSymlinks(filepath.Join(folder, "postgres"))
		if err != nil || !filepath.IsAbs(postgres) {
			continue
		}
		p := programs{folder: filepath.Dir(postgres)}
		if seen[p.folder] {
			continue
		}
		seen[p.folder] = true
		if p.major = major(p); p.major >= oldest {
			sets = append(sets, p)
		}
	}
	slices.SortStableFunc(sets, func(a, b programs) int { return cmp.Compare(b.major, a.major) })
	return sets
}

var versionLine = regexp.MustCompile(`^postgres \(PostgreSQL\) (\d+)`)

// major asks the set for its version; 0 means that the set cannot be used.
func major(p programs) int {
	if _, err := exec.LookPath(p.initdb()); err != nil {
		return 0
	}
	said, err := exec.Command(p.postgres(), "--version").Output()
	if err != nil {
		return 0
	}
	match := versionLine.FindSubmatch(said)
	if match == nil {
		return 0
	}
	n, _ := strconv.Atoi(string(match[1])) // digits by the pattern
	return n
}

// newest picks the programs for a new cluster.
func newest(sets []programs) (programs, error) {
	if len(sets) == 0 {
		return programs{}, fmt.Errorf("the PostgreSQL server programs (version %d or newer) are not installed on this machine: "+
			"install them (on Debian or Ubuntu: apt-get install postgresql), or name a running database in DETENT_DATABASE_URL", oldest)
	}
	return sets[0], nil
}

// matching picks the programs for a cluster that a given major version made;
// no other can open it.
func matching(sets []programs, made int, where string) (programs, error) {
	var have []string
	for _, p := range sets {
		if p.major == made {
			return p, nil
		}
		have = append(have, strconv.Itoa(p.major))
	}
	if len(have) == 0 {
		have = []string{"none"}
	}
	return programs{}, fmt.Errorf("the database in %s was made by PostgreSQL %d, and of PostgreSQL this machine has version %s: "+
		"install version %d beside it (on Debian or Ubuntu: apt-get install postgresql-%d), or choose another data folder (DETENT_DATA)",
		where, made, strings.Join(have, " and "), made, made)
}
