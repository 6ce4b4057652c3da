package migrations

import (
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"maps"
	"slices"
)

// Querier is what a catalogue is read with: a database, a connection or a
// transaction.
type Querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
}

// Kind is what an item of the catalogue is, in the word of SQL for it.
type Kind string

const (
	Schema     Kind = "schema"
	Type       Kind = "type"
	Relation   Kind = "table" // or another relation, as its definition says
	Column     Kind = "column"
	Constraint Kind = "constraint"
	Index      Kind = "index"
	Trigger    Kind = "trigger"
	Policy     Kind = "policy"
	Function   Kind = "function"
	Grant      Kind = "grant"
	Comment    Kind = "comment"
)

// Item is one thing that the schema has.
type Item struct {
	Kind       Kind
	Of         string // the table of a part of one; what is granted or commented on
	Name       string // of a function, with the types it takes
	Definition string // in SQL, as the server writes it
	place      int    // among the columns of a table
}

// Catalogue is all that the schema public has, sorted: the same for the same
// schema, whichever of the servers 15 to 17 keeps it, whoever owns it, and
// whether it was migrated or restored from a dump. It leaves out what
// migrations do not make: the rights of others than the program's roles and the
// public, and what belongs to extensions.
type Catalogue []Item

// ReadCatalogue reads the catalogue of the schema public. The names in
// definitions are whole or short as the search path says, so to compare two
// they must be read under the same.
func ReadCatalogue(ctx context.Context, db Querier) (Catalogue, error) {
	rows, err := db.QueryContext(ctx, catalogueQuery)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var all Catalogue
	for rows.Next() {
		var item Item
		if err := rows.Scan(&item.Kind, &item.Of, &item.Name, &item.Definition, &item.place); err != nil {
			return nil, err
		}
		all = append(all, item)
	}
	slices.SortFunc(all, func(a, b Item) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Of, b.Of), cmp.Compare(a.place, b.place), cmp.Compare(a.Name, b.Name))
	})
	return all, rows.Err()
}

// Differences tells how a catalogue differs from the one that is wanted, an
// item a line, in the order of the catalogue.
func (c Catalogue) Differences(want Catalogue) (lines []string) {
	type key struct {
		kind     Kind
		of, name string
	}
	keyOf := func(i Item) key { return key{i.Kind, i.Of, i.Name} }
	wanted, had := map[key]Item{}, map[key]bool{}
	for _, item := range want {
		wanted[keyOf(item)] = item
	}
	for _, item := range c {
		had[keyOf(item)] = true
		switch other, ok := wanted[keyOf(item)]; {
		case !ok:
			lines = append(lines, item.label()+" should not be there")
		case other.Definition != item.Definition:
			lines = append(lines, item.label()+" is another")
		}
	}
	for _, item := range want {
		if !had[keyOf(item)] {
			lines = append(lines, item.label()+" is missing")
		}
	}
	mine, theirs := c.columns(), want.columns()
	for _, table := range slices.Sorted(maps.Keys(mine)) {
		if !sameOrder(mine[table], theirs[table]) {
			lines = append(lines, "the columns of "+table+" are in another order")
		}
	}
	return lines
}

// columns lists the columns of each table, in their order.
func (c Catalogue) columns() map[string][]string {
	all := map[string][]string{}
	for _, item := range c {
		if item.Kind == Column {
			all[item.Of] = append(all[item.Of], item.Name)
		}
	}
	return all
}

// sameOrder tells whether the names that are in both lists are in one order.
func sameOrder(a, b []string) bool {
	without := func(names, others []string) []string {
		return slices.DeleteFunc(slices.Clone(names), func(name string) bool { return !slices.Contains(others, name) })
	}
	return slices.Equal(without(a, b), without(b, a))
}

// label names an item in a sentence.
func (i Item) label() string {
	switch {
	case i.Kind == Comment:
		return fmt.Sprintf("the comment on %s", i.Of)
	case i.Kind == Grant:
		return fmt.Sprintf("the grant on %s to %s", i.Of, i.Name)
	case i.Of != "":
		return fmt.Sprintf("%s %s of %s", i.Kind, i.Name, i.Of)
	}
	return fmt.Sprintf("%s %s", i.Kind, i.Name)
}
