package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
)

// printFigures writes a JSON object as aligned text, in the object's own order:
// a line for each figure under its full name, and a line for each entry of a
// list that holds more than figures.
func printFigures(out io.Writer, object []byte) error {
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	if err := printMember(table, "", object); err != nil {
		return err
	}
	return table.Flush()
}

func printMember(table io.Writer, name string, value json.RawMessage) error {
	switch value = bytes.TrimSpace(value); value[0] {
	case '{':
		return eachMember(value, func(key string, inside json.RawMessage) error {
			return printMember(table, strings.TrimPrefix(name+"."+key, "."), inside)
		})
	case '[':
		var list []json.RawMessage
		if err := json.Unmarshal(value, &list); err != nil {
			return err
		}
		if len(list) > 0 && (list[0][0] == '{' || list[0][0] == '[') {
			for i, entry := range list {
				if _, err := fmt.Fprintf(table, "%s[%d]\t%s\n", name, i, oneLine(entry)); err != nil {
					return err
				}
			}
			return nil
		}
	}
	_, err := fmt.Fprintf(table, "%s\t%s\n", name, oneLine(value))
	return err
}

// eachMember goes through an object in its own order, which a map would not keep.
func eachMember(object json.RawMessage, do func(key string, value json.RawMessage) error) error {
	decoder := json.NewDecoder(bytes.NewReader(object))
	if _, err := decoder.Token(); err != nil {
		return err
	}
	for decoder.More() {
		key, err := decoder.Token()
		if err != nil {
			return err
		}
		var value json.RawMessage
		if err := decoder.Decode(&value); err != nil {
			return err
		}
		if err := do(key.(string), value); err != nil {
			return err
		}
	}
	return nil
}

// oneLine writes a value on one line, its figures with seven digits and "-" for
// those that do not exist.
func oneLine(value json.RawMessage) string {
	var words []string
	decoder := json.NewDecoder(bytes.NewReader(value))
	for {
		token, err := decoder.Token()
		if err != nil {
			return strings.Join(words, "  ")
		}
		switch token := token.(type) {
		case json.Delim:
		case float64:
			words = append(words, fmt.Sprintf("%.7g", token))
		case nil:
			words = append(words, "-")
		default:
			words = append(words, fmt.Sprint(token))
		}
	}
}
