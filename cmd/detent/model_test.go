package main

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func TestModelPrintsEveryDigit(t *testing.T) {
	// Figures of an independent scipy program, see testdata/physics/README.md.
	for _, c := range []struct {
		kind, file string
		dx         float64
		digits     []string
	}{
		{"quarter", "quarter.json", 0, []string{`"c_crit_simple": 3919.183588453085`, `"eig_wn_hz": [`}},
		{"car", "car.json", 0, []string{`"static_loads": [`, `3250.38000000000`, "null"}},
		{"window", "window.json", 0, []string{`"best": 12`, `"from": 7`, `"road": 0.99708107326`, `"body": 0.96248789`, `"kerb": 0.99401`, `"index": 0.95393`}},
		{"roughness", "profile.csv", 0.25, []string{`"iri": 12.3455334`}},
	} {
		var out strings.Builder
		m := modelCmd{Kind: c.kind, File: filepath.Join("testdata/physics", c.file), JSON: true, DX: c.dx}
		if err := m.Run(t.Context(), &out); err != nil {
			t.Fatalf("%s: %v", c.kind, err)
		}
		if !json.Valid([]byte(out.String())) {
			t.Errorf("%s does not print JSON:\n%s", c.kind, out.String())
		}
		for _, digits := range c.digits {
			if !strings.Contains(out.String(), digits) {
				t.Errorf("%s lacks %q in\n%s", c.kind, digits, out.String())
			}
		}
	}
}

func TestModelPrintsText(t *testing.T) {
	for _, c := range []struct {
		kind, file, line string
		dx               float64
	}{
		{kind: "quarter", file: "quarter.json", line: "modes.eig_wn_hz              1.250654  11.02469"},
		{kind: "car", file: "car.json", line: "front_share    -  0.4886695  0.5058036  0.4963528  0.4924035  0.4885548"},
		{kind: "car", file: "car.json", line: "tyre_loads[1]  3149.176  3345.594  2059.842  2265.368"},
		{kind: "window", file: "window.json", line: "best        12"},
		{kind: "roughness", file: "profile.csv", line: "iri           12.34553", dx: 0.25},
	} {
		var out strings.Builder
		m := modelCmd{Kind: c.kind, File: filepath.Join("testdata/physics", c.file), DX: c.dx}
		if err := m.Run(t.Context(), &out); err != nil {
			t.Fatalf("%s: %v", c.kind, err)
		}
		if !strings.Contains(out.String(), c.line+"\n") {
			t.Errorf("%s lacks the line %q in\n%s", c.kind, c.line, out.String())
		}
	}
}

func TestModelNamesWhatIsWrong(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.json")
	if err := os.WriteFile(bad, []byte(`{"ms": 0, "colour": 1}`), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, m := range []modelCmd{
		{Kind: "quarter", File: bad},
		{Kind: "quarter", File: bad + ".missing"},
		{Kind: "roughness", File: "testdata/physics/profile.csv"},
	} {
		var out strings.Builder
		err := m.Run(t.Context(), &out)
		var usage usageError
		if !errors.As(err, &usage) || out.Len() > 0 {
			t.Errorf("%+v: error %v and output %q", m, err, out.String())
		}
	}
	err := (&modelCmd{Kind: "quarter", File: bad}).Run(t.Context(), &strings.Builder{})
	for _, name := range []string{"ms must be", "colour is unknown", "kt is missing"} {
		if !strings.Contains(err.Error(), name) {
			t.Errorf("%q does not say %q", err, name)
		}
	}
}

// TestModelReadsOrdinaryFiles refuses a pipe, which would be waited for, a
// device, which may never end, and what is larger than any question.
func TestModelReadsOrdinaryFiles(t *testing.T) {
	pipe, large := filepath.Join(t.TempDir(), "pipe"), filepath.Join(t.TempDir(), "large")
	if err := errors.Join(syscall.Mkfifo(pipe, 0o600), os.WriteFile(large, nil, 0o600), os.Truncate(large, longestQuestion+1)); err != nil {
		t.Fatal(err)
	}
	for file, want := range map[string]string{pipe: "not an ordinary file", "/dev/zero": "not an ordinary file", large: "at most 16 MiB"} {
		_, errs, code := execute(t, "model", "quarter", file)
		if code != exitWrongUse || !strings.Contains(errs, want) {
			t.Errorf("%s: status %d, %s", file, code, errs)
		}
	}
}
