package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// laws list which of our own packages and which outside modules each room may
// import. A room that is not here must be added with its reason in DEVELOPERS.md.
// The program itself may import everything.
var laws = map[string]struct{ ours, outside []string }{
	"detent/tuning":                  {ours: []string{"detent/tuning/unit"}},
	"detent/tuning/unit":             {},
	"detent/tuning/ride":             {ours: []string{"detent/tuning", "detent/tuning/unit"}, outside: []string{"gonum.org/v1/gonum"}},
	"detent/tuning/transfer":         {ours: []string{"detent/tuning", "detent/tuning/unit", "detent/tuning/ride"}, outside: []string{"gonum.org/v1/gonum"}},
	"detent/tuning/cases":            {ours: []string{"detent/tuning/unit", "detent/tuning/ride", "detent/tuning/transfer"}},
	"detent/tuning/figures":          {ours: []string{"detent/tuning", "detent/tuning/unit", "detent/tuning/ride", "detent/tuning/transfer"}},
	"detent/tuning/tuningtest":       {},
	"detent/tuning/calendar":         {ours: []string{"detent/tuning"}},
	"detent/bot/say":                 {ours: []string{"detent/tuning"}},
	"detent/bot/phone":               {outside: []string{"golang.org/x/text"}},
	"detent/bot/spelling":            {outside: []string{"github.com/agnivade/levenshtein"}},
	"detent/bot":                     {ours: []string{"detent/bot/say", "detent/bot/spelling", "detent/bot/phone", "detent/tuning"}},
	"detent/bot/model":               {ours: []string{"detent/bot", "detent/bot/say", "detent/bot/chart", "detent/bot/typeset", "detent/tuning"}},
	"detent/bot/garage":              {ours: append([]string{"detent/bot/model"}, answersWith...)},
	"detent/bot/notebook":            {ours: append([]string{"detent/bot/typeset"}, answersWith...)},
	"detent/bot/reading":             {ours: []string{"detent/bot", "detent/bot/say", "detent/bot/spelling", "detent/tuning"}},
	"detent/bot/season":              {ours: append([]string{"detent/bot/typeset"}, answersWith...)},
	"detent/bot/coaching":            {ours: answersWith},
	"detent/bot/clubroom":            {ours: append([]string{"detent/bot/spelling"}, answersWith...)},
	"detent/tuning/learn":            {ours: []string{"detent/tuning"}, outside: []string{"gonum.org/v1/gonum"}},
	"detent/bot/typeset":             {outside: []string{"github.com/go-text/typesetting", "golang.org/x/image", "golang.org/x/text", "codeberg.org/go-fonts/liberation"}},
	"detent/bot/typeset/typesettest": {outside: []string{"golang.org/x/image"}},
	"detent/bot/chart":               {ours: []string{"detent/tuning", "detent/bot/typeset"}, outside: []string{"gonum.org/v1/plot"}},
	"detent/bot/sheet":               {ours: []string{"detent/tuning", "detent/bot/typeset"}, outside: []string{"codeberg.org/go-pdf/fpdf", "codeberg.org/go-fonts/liberation"}},
	"detent/bot/bottest":             {ours: []string{"detent/bot", "detent/tuning"}},
	"detent/bot/console":             {ours: []string{"detent/bot", "detent/bot/say", "detent/tuning"}, outside: []string{"golang.org/x/term"}},
	"detent/bot/discord":             {ours: []string{"detent/bot", "detent/bot/say", "detent/bot/discord/gateway", "detent/bot/discord/rest", "detent/tuning"}, outside: []string{"github.com/bwmarrin/discordgo", "github.com/prometheus/client_golang", "golang.org/x/time", "golang.org/x/sync"}},
	"detent/bot/discord/gateway":     {ours: []string{"detent/bot/discord/rest"}, outside: []string{"github.com/bwmarrin/discordgo", "github.com/gorilla/websocket"}},
	"detent/bot/discord/rest":        {},
	"detent/bot/discord/discordtest": {outside: []string{"github.com/gorilla/websocket", "github.com/santhosh-tekuri/jsonschema"}},
	"detent/bot/remind":              {ours: []string{"detent/bot", "detent/bot/say", "detent/bot/phone", "detent/tuning"}, outside: []string{"github.com/robfig/cron", "golang.org/x/time", "golang.org/x/sync"}},
	"detent/store":                   {ours: []string{"detent/tuning", "detent/migrations"}, outside: []string{"github.com/jmoiron/sqlx", "github.com/lib/pq"}},
	"detent/store/localpg":           {},
	"detent/store/storetest":         {ours: []string{"detent/store", "detent/store/localpg", "detent/migrations"}, outside: []string{"github.com/jmoiron/sqlx", "github.com/lib/pq"}},
	"detent/migrations":              {outside: []string{"github.com/pressly/goose"}},
}

// answersWith is what a room of commands may know: not another such room.
var answersWith = []string{"detent/bot", "detent/bot/say", "detent/bot/phone", "detent/bot/reading", "detent/bot/chart", "detent/bot/sheet", "detent/tuning"}

// under tells whether an import is one of the allowed packages or below one; of
// our own, only tuning includes the rooms below it.
func under(path string, allowed []string) bool {
	return slices.ContainsFunc(allowed, func(a string) bool {
		return path == a || strings.HasPrefix(path, a+"/") && (a == "detent/tuning" || !strings.HasPrefix(a, "detent"))
	})
}

func TestTheHouseKeepsItsLaws(t *testing.T) {
	list := exec.CommandContext(t.Context(), "go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "./...")
	list.Dir = "../.."
	out, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(out)) {
		fields := strings.Fields(line)
		room, imports := fields[0], fields[1:]
		if room == "detent/cmd/detent" {
			continue
		}
		law, known := laws[room]
		if !known {
			t.Errorf("%s is a new room: give it a law", room)
			continue
		}
		for _, path := range imports {
			first, _, _ := strings.Cut(path, "/")
			switch {
			case first == "detent" && !under(path, law.ours):
				t.Errorf("%s may not know %s", room, path)
			case strings.Contains(first, ".") && !under(path, law.outside):
				t.Errorf("%s may not use %s", room, path)
			case strings.HasPrefix(room, "detent/tuning") && slices.Contains([]string{"os", "net", "net/http", "log", "log/slog", "database/sql", "io/fs"}, path):
				t.Errorf("%s is pure and may not use %s", room, path)
			}
		}
	}
}
