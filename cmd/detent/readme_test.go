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

var update = flag.Bool("update", false, "write the README's tables anew from the declarations")

// TestReadmeTables keeps the README's tables in step with what they describe.
func TestReadmeTables(t *testing.T) {
	const file = "../../README.md"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	readme := string(text)
	for name, table := range map[string]string{"lines": lineTable(), "settings": settingTable(reflect.TypeOf(program{}))} {
		begin, end := "<!-- "+name+" -->\n", "<!-- end of "+name+" -->"
		head, rest, ok := strings.Cut(readme, begin)
		_, tail, closed := strings.Cut(rest, end)
		if !ok || !closed {
			t.Fatalf("the README has no place for the %s: %s … %s", name, begin, end)
		}
		readme = head + begin + table + end + tail
	}
	if readme == string(text) {
		return
	}
	if !*update {
		t.Fatal("the README's tables are out of step: go test ./cmd/detent -run TestReadmeTables -update")
	}
	if err := os.WriteFile(file, []byte(readme), 0o644); err != nil {
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
