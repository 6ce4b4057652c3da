package migrations_test

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"testing"
)

// landed are the hashes of the migrations that databases have had. A line is
// added when a migration lands, and never changed: what a file does differently
// afterwards, no database gets.
var landed = map[string]string{
	"0001_record.sql":     "c706ba2467f4aabd59fd984b7e6a6ff1783de179387bc4badd707e96accd950f",
	"0002_season.sql":     "91f941ac95aa126b8cb356d768245b4a81473c657d8ba0f3bd24f96c7759c0b9",
	"0003_due.sql":        "08caab31a1e1868e8afa2eb1d25404145004a28eefe9b22d2dcc3c3143aab5b2",
	"0004_coaching.sql":   "a10cd2b0a8317a68bc447beefd6f8f30f550e8cc73382a7cb9e52164b2f2263a",
	"0005_leaving.sql":    "1f2406c3b329e36396462162689e162112f34969652440a6da456d5b6da14415",
	"0006_kept_plans.sql": "cedb877e39f57e9667a9d4139cd37074a5b304e43a5efa3cf3358d46fcaf0d92",
	"0007_who_may.sql":    "7b2eb15849ad97f92a7ad9a51debf2ec6ad9dfd817f77b280af3731c63002747",
	"0008_hashes.sql":     "764801cb82552ed99dfb1f9388035308fe6bc506973b8c4792fdaa999a7e783c",
	"0009_rough.sql":      "f980b404440c67fffc5e86a1ed4b886410bc65f9a84acf9b483d3b1078fc2d7c",
	"0010_open_book.sql":  "cc528d279a18f67d2e5b27cadc466a9387923e1de9547d67537a7948cb5ffc45",
	"0011_answers.sql":    "f54020e76c23a9d9578b4c059bd9e46472aad5020fd63412d64c43bf2fe33742",
	"0012_drafts.sql":     "717a7d68fe8002d5940036bc135633bd4a92bc3d837538ebd7b539080679983f",
	"0013_tries.sql":      "44594322bbc4de84adcd1919dc824ae956bbd4e2d4202a6f3cb83d050f1dab0b",
	"0014_notebook.sql":   "70f074f72d1ca96b729c925e94d7ab3a9cfb0aa023ca16a990649f81aa4813a1",
	"0015_kept.sql":       "3f3d8b46bb3704673706e69ebde3cf172f4c59fd36cfeb0186fafb40f43627ca",
	"0016_messages.sql":   "7f9afd1e5faac798129923a0b4ce3706d04106f1f2c4598aff82100c15ad2d9b",
	"0017_places.sql":     "06b1d6a6c8ce0262398b8e632542c4c7e97c216e97be811765320326d69cc335",
	"0018_try_owner.sql":  "4ed106e289b3c477dbee38684b96d3718c52e564009a783e730963a62e0eb0cf",
	"0019_cancelling.sql": "579c013ab2b9f7f8939f406f37898ff16e3c154d34ae1a50e71daf3aa50c2bf4",
}

func TestLandedMigrationsAreNotEdited(t *testing.T) {
	for name, want := range landed {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Error(err)
			continue
		}
		sum := sha256.Sum256(text)
		if got := hex.EncodeToString(sum[:]); got != want {
			t.Errorf("%s was edited after it had landed: undo that, and add a migration (its hash is %s)", name, got)
		}
	}
	all, err := filepath.Glob("[0-9]*.sql")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range all {
		if landed[name] == "" {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			t.Errorf("%s is not in the list of those that landed: add it with the hash %x", name, sha256.Sum256(text))
		}
	}
}
