package cases

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"detent/tuning/unit"
)

// fields reads the members of one JSON object, once each, and remembers what is
// wrong with them.
type fields struct {
	path   string // before the name of each member, such as "parameters.df."
	unread map[string]json.RawMessage
	wrong  *[]string // shared with the objects inside
}

// openQuestion reads a question, which must be one JSON object and nothing else.
func openQuestion(question []byte) (fields, error) {
	f := fields{wrong: new([]string)}
	decoder := json.NewDecoder(bytes.NewReader(question))
	if err := f.members(decoder); err != nil {
		return fields{}, err
	}
	if _, err := decoder.Token(); !errors.Is(err, io.EOF) {
		return fields{}, errors.New("something stands after the end of the JSON object")
	}
	return f, nil
}

// members reads the members of the object that comes next in the decoder.
func (f *fields) members(decoder *json.Decoder) error {
	f.unread = map[string]json.RawMessage{}
	if start, err := decoder.Token(); err != nil || start != json.Delim('{') {
		return errors.New("this is not a JSON object")
	}
	for decoder.More() {
		name, err := decoder.Token()
		if err != nil {
			return fmt.Errorf("this is not JSON: %w", err)
		}
		var value json.RawMessage
		if err := decoder.Decode(&value); err != nil {
			return fmt.Errorf("this is not JSON: %w", err)
		}
		key := name.(string) // names in JSON are strings
		if _, twice := f.unread[key]; twice {
			f.complain(key, "is given twice")
		}
		f.unread[key] = value
	}
	if _, err := decoder.Token(); err != nil {
		return fmt.Errorf("this is not JSON: %w", err)
	}
	return nil
}

func (f *fields) complain(name, format string, args ...any) {
	*f.wrong = append(*f.wrong, f.path+name+" "+fmt.Sprintf(format, args...))
}

// has tells whether an optional member is there.
func (f *fields) has(name string) bool {
	_, there := f.unread[name]
	return there
}

// read decodes a member and takes it off the list. What is what it should be, for
// the error.
func (f *fields) read(name, what string, into any) bool {
	value, there := f.unread[name]
	delete(f.unread, name)
	switch {
	case !there:
		f.complain(name, "is missing")
	case string(value) == "null" || json.Unmarshal(value, into) != nil:
		f.complain(name, "must be %s", what)
	default:
		return true
	}
	return false
}

// number reads a figure that must pass a test, whose error names it.
func (f *fields) number(name string, test func(name string, v float64) error) float64 {
	var v float64
	if f.read(name, "a number", &v) {
		if err := test(f.path+name, v); err != nil {
			*f.wrong = append(*f.wrong, err.Error())
		}
	}
	return v
}

// positive reads a positive figure.
func (f *fields) positive(name string) float64 { return f.number(name, unit.Positive[float64]) }

// notNegative reads a figure of zero or more.
func (f *fields) notNegative(name string) float64 {
	return f.number(name, unit.NotNegative[float64])
}

// between reads a figure inside a range.
func (f *fields) between(name string, low, high float64) float64 {
	return f.number(name, func(name string, v float64) error { return unit.Between(name, v, low, high) })
}

// word reads a piece of text that must pass the test.
func (f *fields) word(name, what string, fits func(string) bool) (v string) {
	if f.read(name, what, &v) && !fits(v) {
		f.complain(name, "must be %s, not %q", what, v)
	}
	return v
}

// flag reads true or false.
func (f *fields) flag(name string) (v bool) {
	f.read(name, "true or false", &v)
	return v
}

// list reads a list of figures, or of lists of them, without null in it, which
// the decoder alone would read as 0.
func (f *fields) list(name, what string, into any) bool {
	if bytes.Contains(f.unread[name], []byte("null")) {
		delete(f.unread, name)
		f.complain(name, "must be %s, without null", what)
		return false
	}
	return f.read(name, what, into)
}

// within reads a member that is an object.
func (f *fields) within(name string, read func(*fields)) {
	var value json.RawMessage
	if f.read(name, "an object", &value) {
		f.descend(name, value, read)
	}
}

// each reads a member that is a list of at least one object.
func (f *fields) each(name string, read func(*fields)) {
	var values []json.RawMessage
	if !f.read(name, "a list of objects", &values) {
		return
	}
	if len(values) == 0 {
		f.complain(name, "is empty")
	}
	for i, value := range values {
		f.descend(fmt.Sprintf("%s[%d]", name, i), value, read)
	}
}

func (f *fields) descend(name string, value json.RawMessage, read func(*fields)) {
	inner := fields{path: f.path + name + ".", wrong: f.wrong}
	if inner.members(json.NewDecoder(bytes.NewReader(value))) != nil {
		f.complain(name, "must be an object")
		return
	}
	read(&inner)
	inner.rest()
}

// rest reports the members that nobody has read.
func (f *fields) rest() {
	for _, name := range slices.Sorted(maps.Keys(f.unread)) {
		f.complain(name, "is unknown")
	}
}

// problem returns everything that was wrong as one error.
func (f *fields) problem() error {
	f.rest()
	if len(*f.wrong) == 0 {
		return nil
	}
	return errors.New(strings.Join(*f.wrong, "; "))
}
