package tuningtest

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// SaysEach fails while a constant of the type of a table's words, as a room
// declares them, has no sentence there, and while the table has another word.
func SaysEach[W ~string](t testing.TB, room string, table map[W]string) {
	t.Helper()
	declared := ConstantsOf[W](t, room)
	for _, word := range declared {
		if table[word] == "" {
			t.Errorf("%T %q has no words", word, word)
		}
	}
	for word := range maps.Keys(table) {
		if !slices.Contains(declared, word) {
			t.Errorf("%T %q is not declared in %s", word, word, room)
		}
	}
}

// ConstantsOf reads the constants of a type in the source of the room that
// declares it.
func ConstantsOf[W ~string](t testing.TB, room string) (all []W) {
	t.Helper()
	_, name, _ := strings.Cut(fmt.Sprintf("%T", W("")), ".")
	files, err := filepath.Glob(filepath.Join(room, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range files {
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok {
				return true
			}
			if of, ok := spec.Type.(*ast.Ident); !ok || of.Name != name {
				return false
			}
			for _, v := range spec.Values {
				if literal, ok := v.(*ast.BasicLit); ok {
					word, _ := strconv.Unquote(literal.Value) // the compiler has read it
					all = append(all, W(word))
				}
			}
			return false
		})
	}
	if len(all) == 0 {
		t.Fatalf("%s declares no %s", room, name)
	}
	return all
}
