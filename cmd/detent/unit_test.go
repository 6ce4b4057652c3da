package main

import (
	"fmt"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// heredoc is what the README's recipe writes to a file between two marks.
func heredoc(t *testing.T, readme, mark string) string {
	t.Helper()
	_, rest, begun := strings.Cut(readme, "<<'"+mark+"'\n")
	text, _, ended := strings.Cut(rest, "\n"+mark+"\n")
	if !begun || !ended {
		t.Fatalf("the README writes nothing between two %s", mark)
	}
	return text
}

// TestReadmeUnit holds the README's unit file, and the settings that it reads,
// to the program: it starts what the recipe puts there, with a command and
// settings that there are, and is not started again after the statuses that
// starting again cannot mend.
func TestReadmeUnit(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	readme := string(text)
	known := regexp.MustCompile(`DETENT_\w+`).FindAllString(settingTable(reflect.TypeOf(program{})), -1)
	for _, name := range regexp.MustCompile(`DETENT_[A-Z_]+`).FindAllString(readme, -1) {
		if !slices.Contains(known, name) {
			t.Errorf("the README names %s, which is no setting", name)
		}
	}
	unit := map[string]string{}
	for line := range strings.Lines(heredoc(t, readme, "UNIT")) {
		if name, value, ok := strings.Cut(strings.TrimSpace(line), "="); ok {
			unit[name] = value
		}
	}
	command := strings.Fields(unit["ExecStart"])
	if folder := "/usr/local/bin/"; len(command) == 0 || command[0] != folder+"detent" || !strings.Contains(readme, "install bin/detent "+folder+"\n") {
		t.Errorf("it starts %q, which the recipe puts elsewhere", command)
	}
	if never := fmt.Sprint(exitWrongUse, " ", exitRefused); unit["RestartPreventExitStatus"] != never {
		t.Errorf("it is not started again after %q, want %q", unit["RestartPreventExitStatus"], never)
	}
	if file := unit["EnvironmentFile"]; !strings.Contains(readme, "install -m 600 /dev/stdin "+file+" <<'ENV'") {
		t.Errorf("it reads its settings from %q, which only root may read", file)
	}
	for line := range strings.Lines(heredoc(t, readme, "ENV")) {
		name, value, _ := strings.Cut(strings.TrimSpace(line), "=")
		t.Setenv(name, value)
	}
	var p program
	parser, err := kong.New(&p, kong.Exit(func(code int) { t.Errorf("it leaves with %d", code) }))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := parser.Parse(command[1:]); err != nil || p.Serve.Token == "" || p.DatabaseURL == "" {
		t.Errorf("%q does not start with those settings: %v", command, err)
	}
	if _, err := p.Serve.check(); err != nil {
		t.Error(err)
	}
}
