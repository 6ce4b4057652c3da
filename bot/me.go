package bot

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"time"

	"detent/bot/say"
	"detent/tuning"
)

func meCommands() []Command {
	return []Command{
		{Name: "me show", Help: "Your settings, and what is kept about you", Private: true, Answer: showMe},
		{Name: "me set", Help: "Change your settings", Private: true, Writes: true, Answer: setMe, Options: []Option{
			{Name: "units", Help: "the units you read and type", Kind: Choice, Choices: []string{string(tuning.Metric), string(tuning.Imperial)}},
			{Name: "reminders", Help: "whether to be asked after an event how the car felt", Kind: Choice, Choices: []string{"on", "off"}},
		}},
		{Name: "me export", Help: "Everything kept about you, as one archive", Private: true, Answer: exportMe},
		{Name: "me erase", Help: "Remove everything about you for good", Private: true, Writes: true, Answer: eraseMe, Options: []Option{
			{Name: "sure", Help: "yes, once you have read what goes", Kind: Choice, Choices: []string{"yes"}},
		}},
	}
}

func showMe(_ context.Context, call Call) (Reply, error) {
	return Reply{Title: "Your settings", Text: sayMember(call.Member, call.Club),
		Notes: []string{"What is kept about you and why: /privacy. /me export hands it all over, /me erase removes it."}}, nil
}

func sayMember(m tuning.Member, club tuning.Club) string {
	units := "metric"
	if imperial(m, club) {
		units = "imperial"
	}
	if m.Units == "" {
		units += " (the club's)"
	}
	reminders := "off"
	if m.Reminders {
		reminders = "on"
	}
	return fmt.Sprintf("Units: %s. Reminders: %s.", units, reminders)
}

func setMe(ctx context.Context, call Call) (Reply, error) {
	if len(call.Args) == 0 {
		return Reply{}, tuning.Problemf(tuning.Invalid, "Say what to change: units:metric, units:imperial, reminders:on or reminders:off.")
	}
	m := call.Member
	put(&m.Units, call.Args, "units")
	if call.Args.Has("reminders") {
		m.Reminders = call.Args.Text("reminders") == "on"
	}
	if err := call.Book.SaveMember(ctx, m); err != nil {
		return Reply{}, err
	}
	return Reply{Title: "Settings saved", Text: sayMember(m, call.Club)}, nil
}

func exportMe(ctx context.Context, call Call) (Reply, error) {
	tables, err := call.Book.Export(ctx, call.owner())
	if err != nil {
		return Reply{}, err
	}
	data, err := archive(tables, call.now())
	if err != nil {
		return Reply{}, err
	}
	rows := 0
	for _, t := range tables {
		rows += len(t)
	}
	return Reply{Title: "Everything kept about you", Text: fmt.Sprintf("%s in %s, as JSON and as CSV.", say.Count(rows, "row", "rows"), say.Count(len(tables), "table", "tables")),
		Files: []File{{Name: "detent-export.zip", Type: "application/zip", Data: data}}}, nil
}

// archive packs tables as one JSON file and one CSV file each.
func archive(tables map[string][]map[string]any, now time.Time) ([]byte, error) {
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

func eraseMe(ctx context.Context, call Call) (Reply, error) {
	if call.Args.Text("sure") != "yes" {
		return Reply{Title: "This removes everything about you here, for good",
			Text:    "Your cars, dampers, clicks and their log, advice, feel, searches, entries, coaches and settings go and cannot come back. Take /me export first if you want a copy.",
			Actions: []Action{{"Take a copy", "/me export"}, {"Erase everything", "/me erase sure:yes"}}}, nil
	}
	if err := call.Book.Erase(ctx, call.owner()); err != nil {
		return Reply{}, err
	}
	return Reply{Title: "Everything about you is gone", Text: "Nothing of yours is kept in this club any more."}, nil
}
