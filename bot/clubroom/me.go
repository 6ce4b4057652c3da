package clubroom

import (
	"archive/zip"
	"bytes"
	"cmp"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"time"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
)

func showMeCommand() bot.Command {
	return declare(bot.Command{Name: "me show", Help: "Your settings, and what is kept about you", Private: true}, showMe)
}

func setMeCommand() bot.Command {
	return declare(bot.Command{Name: "me set", Help: "Change your settings", Private: true, Writes: true}, setMe)
}

func exportMeCommand() bot.Command {
	return declare(bot.Command{Name: "me export", Help: "Everything kept about you, as one archive", Private: true}, exportMe)
}

func eraseMeCommand() bot.Command {
	return declare(bot.Command{Name: "me erase", Help: "Remove everything about you for good", Private: true, Writes: true}, eraseMe)
}

type setMeOptions struct {
	Units     tuning.Units   `name:"units" help:"the units you read and type"`
	Reminders string         `name:"reminders" help:"whether to be asked after an event how the car felt" choices:"on,off"`
	Messages  string         `name:"messages" help:"whether coaches and organisers may message you" choices:"on,off"`
	Answers   tuning.Answers `name:"answers" help:"whether others in the channel read the answers about your cars"`
}

type eraseMeOptions struct {
	Sure bool `name:"sure" help:"yes, once you have read what goes" choices:"yes"`
}

func showMe(_ context.Context, call call, _ struct{}) (bot.Reply, error) {
	return bot.Reply{Title: "Your settings", Text: saySettings(call.Call), View: bot.View{Size: phone.Page},
		Notes: []string{"What is kept about you and why: /privacy. /me export hands it all over, /me erase removes it."}}, nil
}

// saySettings says the asking member's settings.
func saySettings(c bot.Call) string {
	m, units := c.Member, "metric"
	if c.Imperial() {
		units = "imperial"
	}
	if m.Units == "" {
		units += " (the club's)"
	}
	return fmt.Sprintf("Units: %s. Reminders: %s. Messages: %s. Answers: %s.", units, onOff(m.Reminders), onOff(!m.Muted), cmp.Or(m.Answers, tuning.PrivateAnswers))
}

func onOff(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

func setMe(ctx context.Context, call call, o setMeOptions) (bot.Reply, error) {
	if bot.GivesNothing(o) {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Say what to change: units:metric or imperial, reminders:on or off, messages:on or off, answers:private or shared.")
	}
	m := &call.Member
	m.Units, m.Answers = cmp.Or(o.Units, m.Units), cmp.Or(o.Answers, m.Answers)
	if o.Reminders != "" {
		m.Reminders = o.Reminders == "on"
	}
	if o.Messages != "" {
		m.Muted = o.Messages == "off"
	}
	if err := call.Book.SaveMember(ctx, *m); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: "Settings saved", Text: saySettings(call.Call)}, nil
}

func exportMe(ctx context.Context, call call, _ struct{}) (bot.Reply, error) {
	tables, err := call.Book.Export(ctx, call.Owner())
	if err != nil {
		return bot.Reply{}, err
	}
	data, err := packTables(tables, call.Now())
	if err != nil {
		return bot.Reply{}, err
	}
	rows := 0
	for _, t := range tables {
		rows += len(t)
	}
	return bot.Reply{Title: "Everything kept about you", Text: fmt.Sprintf("%s in %s, as JSON and as CSV.", say.Count(rows, "row", "rows"), say.Count(len(tables), "table", "tables")),
		Files: []bot.File{{Name: "detent-export.zip", Type: "application/zip", Data: data}}}, nil
}

// packTables packs tables as one JSON file and one CSV file each.
func packTables(tables map[string][]map[string]any, now time.Time) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, name := range slices.Sorted(maps.Keys(tables)) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name + ".csv", Method: zip.Deflate, Modified: now})
		if err != nil {
			return nil, err
		}
		rows := csv.NewWriter(w)
		for i, row := range tables[name] {
			columns := slices.Sorted(maps.Keys(row))
			if i == 0 {
				rows.Write(columns)
			}
			line := make([]string, len(columns))
			for j, c := range columns {
				if row[c] != nil {
					line[j] = fmt.Sprint(row[c])
				}
			}
			rows.Write(line)
		}
		if rows.Flush(); rows.Error() != nil {
			return nil, rows.Error()
		}
	}
	w, err := z.CreateHeader(&zip.FileHeader{Name: "everything.json", Method: zip.Deflate, Modified: now})
	if err != nil {
		return nil, err
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	if err := enc.Encode(tables); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil { // the archive is whole only once it is closed
		return nil, err
	}
	return out.Bytes(), nil
}

func eraseMe(ctx context.Context, call call, o eraseMeOptions) (bot.Reply, error) {
	if !o.Sure {
		return bot.Reply{Title: "This removes everything about you here, for good",
			Text:    "Your cars, dampers, clicks and their log, advice, feel, searches, entries, messages, coaches and settings go and cannot come back. Take /me export first if you want a copy.",
			Actions: []bot.Action{bot.Button("Take a copy", "/me export"), bot.Button("Erase everything", "/me erase sure:yes")}}, nil
	}
	if err := call.Book.Erase(ctx, call.Owner()); err != nil {
		return bot.Reply{}, err
	}
	return bot.Reply{Title: "Everything about you is gone", Text: "Nothing of yours is kept in this club any more."}, nil
}
