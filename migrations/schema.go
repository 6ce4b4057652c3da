package migrations

import (
	"fmt"
	"slices"
	"strings"
)

// SQL writes a catalogue for people to read: types, then each table with all
// that hangs on it, then functions. It is in no order that could be run.
func (c Catalogue) SQL() string {
	var b strings.Builder
	w := writer{c, &b}
	b.WriteString("\n")
	w.about("schema public")
	for _, item := range c {
		if item.Kind == Type {
			fmt.Fprintf(&b, "\ncreate type %s as %s;\n", item.Name, item.Definition)
			w.about("type " + item.Name)
		}
	}
	for _, item := range c {
		if item.Kind == Relation {
			w.table(item)
		}
	}
	for _, item := range c {
		if item.Kind == Function {
			fmt.Fprintf(&b, "\n%s;\n", strings.TrimRight(item.Definition, "\n"))
			w.about("function " + item.Name)
		}
	}
	return b.String()
}

// writer writes items beside what they belong to.
type writer struct {
	all Catalogue
	*strings.Builder
}

func (w writer) table(table Item) {
	kind, rest, _ := strings.Cut(table.Definition, ", ")
	var lines []string
	columns := w.of(Column, table.Name)
	widest := 0
	for _, column := range columns {
		widest = max(widest, len(column.Name))
	}
	for _, column := range columns {
		lines = append(lines, fmt.Sprintf("    %-*s %s", widest, column.Name, column.Definition))
	}
	for _, constraint := range w.of(Constraint, table.Name) {
		lines = append(lines, fmt.Sprintf("    constraint %s %s", constraint.Name, constraint.Definition))
	}
	fmt.Fprintf(w, "\ncreate %s %s (\n%s\n);", kind, table.Name, strings.Join(lines, ",\n"))
	if rest != "" {
		fmt.Fprintf(w, " -- %s", rest)
	}
	w.WriteString("\n")
	w.about("table " + table.Name)
	for _, column := range columns {
		w.about("column " + table.Name + "." + column.Name)
	}
	for _, part := range w.of(Constraint, table.Name) {
		w.about("constraint " + part.Name + " on " + table.Name)
	}
	for _, part := range w.of(Index, table.Name) {
		fmt.Fprintf(w, "%s;\n", lowered(part.Definition))
		w.about("index " + part.Name)
	}
	for _, part := range w.of(Policy, table.Name) {
		fmt.Fprintf(w, "create policy %s on %s %s;\n", part.Name, table.Name, part.Definition)
		w.about("policy " + part.Name + " on " + table.Name)
	}
	for _, part := range w.of(Trigger, table.Name) {
		fmt.Fprintf(w, "%s;\n", lowered(part.Definition))
		w.about("trigger " + part.Name + " on " + table.Name)
	}
}

// of lists the parts of a table.
func (w writer) of(kind Kind, table string) Catalogue {
	return slices.DeleteFunc(slices.Clone(w.all), func(i Item) bool { return i.Kind != kind || i.Of != table })
}

// about writes the comment on something, and who may do what with it.
func (w writer) about(what string) {
	for _, item := range w.all {
		switch {
		case item.Of != what:
		case item.Kind == Comment:
			fmt.Fprintf(w, "comment on %s is '%s';\n", what, strings.ReplaceAll(item.Definition, "'", "''"))
		case item.Kind == Grant:
			fmt.Fprintf(w, "grant %s on %s to %s;\n", item.Definition, what, item.Name)
		}
	}
}

// lowered is a definition of the server's with its first words in the small
// letters of the rest.
func lowered(definition string) string {
	for _, words := range []string{"CREATE UNIQUE INDEX", "CREATE INDEX", "CREATE CONSTRAINT TRIGGER", "CREATE TRIGGER"} {
		if rest, ok := strings.CutPrefix(definition, words); ok {
			return strings.ToLower(words) + rest
		}
	}
	return definition
}
