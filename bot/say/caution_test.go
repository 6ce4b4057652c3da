package say

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

	"detent/tuning"
)

func TestCautions(t *testing.T) {
	saysEach(t, "../../tuning", cautions)
	const before = "Turn gently, never force past a stop, and count from the stop the maker names."
	if got := Cautions([]tuning.Caution{tuning.Gently, before}); !slices.Equal(got, []string{before, before}) {
		t.Errorf("they are said as %q", got)
	}
}

// saysEach fails while a constant of the type of a table's words, as a room
// declares them, has no sentence there, and while the table has another word.
func saysEach[W ~string](t *testing.T, room string, table map[W]string) {
	t.Helper()
	declared := constantsOf[W](t, room)
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

// constantsOf reads the constants of a type in the source of the room that
// declares it.
func constantsOf[W ~string](t *testing.T, room string) (all []W) {
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
