package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The measures of the house: the longest file, and the longest function, that a
// reader can hold in mind at once.
const (
	longestFile     = 300 // lines
	medianFile      = 110 // lines
	longestFunction = 50  // lines, from its first to its last
	mostNames       = 150 // package-level names of a package of the conversation
	leastTested     = 60  // per cent of the files that are more than a few lines have a test beside them
	fewLines        = 40  // of code
)

// standIn is the platform that tests talk to: it has the platform's own names.
const standIn = "bot/discord/discordtest"

// TestTheHouseKeepsItsMeasures parses every file that is not a test.
func TestTheHouseKeepsItsMeasures(t *testing.T) {
	files := token.NewFileSet()
	var lengths []int
	names := map[string]int{}
	for path, file := range programFiles(t, files) {
		lines := files.File(file.FileStart).LineCount()
		lengths = append(lengths, lines)
		if lines > longestFile {
			t.Errorf("%s has %d lines, at most %d are wanted: part it by noun", path, lines, longestFile)
		}
		for _, d := range file.Decls {
			names[filepath.Dir(path)] += namesOf(d)
			f, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			if n := 1 + files.Position(f.End()).Line - files.Position(f.Pos()).Line; n > longestFunction {
				t.Errorf("%s: %s has %d lines, at most %d are wanted", path, f.Name, n, longestFunction)
			}
		}
	}
	slices.Sort(lengths)
	if median := lengths[len(lengths)/2]; median > medianFile {
		t.Errorf("half of %d files are longer than %d lines, at most %d are wanted", len(lengths), median, medianFile)
	}
	for dir, n := range names {
		if strings.HasPrefix(dir, "bot") && dir != standIn && n > mostNames {
			t.Errorf("%s has %d package-level names, at most %d are wanted", dir, n, mostNames)
		}
	}
}

// TestFilesHaveTheirTestsBeside counts the files that have their test beside
// them, since whoever opens x.go looks for x_test.go.
func TestFilesHaveTheirTestsBeside(t *testing.T) {
	files := token.NewFileSet()
	var tested, all int
	var bare []string
	for path, file := range programFiles(t, files) {
		if linesOfCode(files, file) <= fewLines {
			continue
		}
		all++
		if _, err := os.Stat(filepath.Join("../..", strings.TrimSuffix(path, ".go")+"_test.go")); err != nil {
			bare = append(bare, path)
			continue
		}
		tested++
	}
	slices.Sort(bare)
	t.Logf("%d of %d files have a test beside them", tested, all)
	if 100*tested < leastTested*all {
		t.Errorf("%d of %d files have a test beside them, %d %% are wanted; these have none:\n%s", tested, all, leastTested, strings.Join(bare, "\n"))
	}
}

// linesOfCode counts the lines on which a token of the program stands.
func linesOfCode(files *token.FileSet, file *ast.File) int {
	lines := map[int]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n.(type) {
		case nil:
			return false
		case *ast.Comment, *ast.CommentGroup:
			return false
		}
		lines[files.Position(n.Pos()).Line] = true
		lines[files.Position(n.End()-1).Line] = true
		return true
	})
	return len(lines)
}

// TestEveryRoomSaysWhatItIsFor in doc.go or in the file of its own name, where
// a reader looks for it.
func TestEveryRoomSaysWhatItIsFor(t *testing.T) {
	said := map[string]bool{}
	for path, file := range programFiles(t, token.NewFileSet()) {
		dir, room := filepath.Dir(path), file.Name.Name
		said[dir] = said[dir] || file.Doc != nil
		if name := filepath.Base(path); file.Doc != nil && name != "doc.go" && name != room+".go" {
			t.Errorf("the package comment of %s hides in %s", dir, name)
		}
	}
	for dir, ok := range said {
		if !ok {
			t.Errorf("%s does not say what it is for", dir)
		}
	}
}

// programFiles parses all that is not a test, by path from the top.
func programFiles(t *testing.T, files *token.FileSet) map[string]*ast.File {
	const top = "../.."
	parsed := map[string]*ast.File{}
	err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
		name := d.Name()
		switch {
		case err != nil:
			return err
		case d.IsDir() && strings.HasPrefix(name, ".") && path != top:
			return fs.SkipDir
		case d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go"):
			return nil
		}
		from, err := filepath.Rel(top, path)
		if err != nil {
			return err
		}
		parsed[from], err = parser.ParseFile(files, path, nil, parser.ParseComments|parser.SkipObjectResolution)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(parsed) == 0 {
		t.Fatal("no file was found")
	}
	return parsed
}

// namesOf counts the package-level names that a declaration makes; a method's
// name belongs to its type.
func namesOf(d ast.Decl) (names int) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv == nil {
			return 1
		}
	case *ast.GenDecl:
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				names++
			case *ast.ValueSpec:
				names += len(s.Names)
			}
		}
	}
	return names
}
