package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// spoken is a text of three words or more that ends as sentences do.
var spoken = regexp.MustCompile(`(?s)^\S+\s+\S+\s+\S.*[.!?]\s*$`)

// headOfLog is where the one exception stands: the first line of the private
// server's log, for whoever runs it.
const headOfLog = "../../store/localpg/log.go"

// The record and the judgement speak no sentences and name no line that people
// type: that is for the conversation to do. And no value becomes SQL text.
func TestFactsAreNotSentences(t *testing.T) {
	var names []string
	for _, c := range lines.Commands() {
		names = append(names, regexp.QuoteMeta(c.Name))
	}
	line := regexp.MustCompile(`(^|[^\w/])/(` + strings.Join(names, "|") + `)\b`)
	sql := regexp.MustCompile(`(?is)\b(select|insert into|update|delete from|from|where|values|set)\b.*%[+#]?[sdqvxtfgb]\b`)
	statement := regexp.MustCompile(`(?i)^\s*(select|insert|update|delete|with|where|and|or|set|values|from)\s`)
	for text, wrong := range map[string]bool{
		"use /damper fit": true, "/log": true, "see /event list.": true, "run detent migrate": false, "/proc/self/log": false, "N/me": false,
	} {
		if line.MatchString(text) != wrong {
			t.Errorf("%q: taken for a line %v", text, !wrong)
		}
	}
	for text, wrong := range map[string]bool{
		"select * from cars where id = %d": true, "insert into cars values ('%s')": true, "where name = %q": true,
		"select * from cars where name like 'a%'": false, "update %v": true, "select $1": false, "the row set %s is gone": false,
	} {
		if got := statement.MatchString(text) && sql.MatchString(text); got != wrong {
			t.Errorf("%q: taken for SQL with a value %v", text, got)
		}
	}
	for text, wrong := range map[string]bool{
		"Less squat on the power, so the nose stays down.": true, "The %s is at its %s stop already.": true, "Is it hot?": true,
		"the notes are too long": false, "above middle": false, "no %s": false, "Stop.": false, "select a from b": false,
	} {
		if spoken.MatchString(text) != wrong {
			t.Errorf("%q: taken for a sentence %v", text, !wrong)
		}
	}
	read := 0
	for _, room := range []string{"../../store", "../../tuning"} {
		err := filepath.WalkDir(room, func(path string, _ fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
				return err
			}
			read++
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(node ast.Node) bool {
				literal, ok := node.(*ast.BasicLit)
				if !ok || literal.Kind != token.STRING {
					return true
				}
				text, err := strconv.Unquote(literal.Value)
				if err != nil {
					t.Error(err)
				}
				switch {
				case spoken.MatchString(text) && path != headOfLog:
					t.Errorf("%s speaks to people: %s", path, literal.Value)
				case line.MatchString(text):
					t.Errorf("%s names a line: %s", path, literal.Value)
				case strings.HasPrefix(room, "../../store") && statement.MatchString(text) && sql.MatchString(text):
					t.Errorf("%s writes a value into SQL: %s", path, literal.Value)
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if read < 100 {
		t.Errorf("only %d files were read", read)
	}
}
