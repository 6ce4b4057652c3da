package main

import (
	"flag"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"detent/tuning"
)

var update = flag.Bool("update", false, "write the README's tables, answer and picture anew")

const readme = "../../README.md"

// TestReadmeTables keeps the README's tables in step with what they describe.
func TestReadmeTables(t *testing.T) {
	keepsInStep(t, "lines", lineTable())
	keepsInStep(t, "settings", settingTable(reflect.TypeOf(program{})))
}

// keepsInStep holds the part of the README between two marks to what it should
// say, or writes it.
func keepsInStep(t *testing.T, name, want string) {
	t.Helper()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	begin, end := "<!-- "+name+" -->\n", "<!-- end of "+name+" -->"
	head, rest, ok := strings.Cut(string(text), begin)
	was, tail, closed := strings.Cut(rest, end)
	switch {
	case !ok || !closed:
		t.Fatalf("the README has no place for the %s: %s … %s", name, begin, end)
	case was == want:
		return
	case !*update:
		t.Fatalf("the README's %s is out of step, make readme writes it anew:\n%s", name, want)
	}
	if err := os.WriteFile(readme, []byte(head+begin+want+end+tail), 0o644); err != nil {
		t.Fatal(err)
	}
}

// lineTable is every line that can be asked.
func lineTable() string {
	var b strings.Builder
	b.WriteString("| line | what it does | options (in brackets: may be left out) |\n| --- | --- | --- |\n")
	for _, c := range lines.Commands() {
		var options []string
		for _, o := range c.Options {
			word := o.Name
			if !o.Required {
				word = "[" + word + "]"
			}
			options = append(options, word)
		}
		help := c.Help
		if c.Role != "" && c.Role != tuning.MemberRole {
			help += fmt.Sprintf(" (%s)", c.Role)
		}
		fmt.Fprintf(&b, "| `/%s` | %s | %s |\n", c.Name, help, strings.Join(options, ", "))
	}
	return b.String()
}

// settingTable is every setting read from the environment, with its default.
func settingTable(of reflect.Type) string {
	return "| setting | default | what it is |\n| --- | --- | --- |\n" + strings.Join(settings(of, map[string]bool{}), "")
}

func settings(of reflect.Type, seen map[string]bool) []string {
	var rows []string
	for i := range of.NumField() {
		f := of.Field(i)
		if f.Type.Kind() == reflect.Struct {
			rows = append(rows, settings(f.Type, seen)...)
		}
		name := f.Tag.Get("env")
		if name == "" || seen[name] {
			continue
		}
		seen[name] = true
		rows = append(rows, fmt.Sprintf("| `%s` | %s | %s |\n", name, f.Tag.Get("default"), f.Tag.Get("help")))
	}
	return rows
}
