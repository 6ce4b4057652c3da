package bot

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"detent/bot/say"
	"detent/bot/spelling"
	"detent/tuning"
	"detent/tuning/unit"
)

// A command's options are a struct: one exported field an option, its tags the
// declaration. The fields of embedded structs are options too, so commands can
// share them.
//
//	name      how it is typed
//	help      what it is for
//	required  "yes" where it cannot be left out, "later" where the command itself
//	          asks for it
//	ask       the question for it where it is missing
//	common    values to offer with that question, with commas
//	choices   the words it takes, with commas; a type's Choices method says them too
//	min, max  the bounds of a whole number
//	zero      "yes" where a quantity of zero means something
//	kind      upload, place or badge of a string; lap, clock or length of a time.Duration
//	source    where suggestions come from, see Source
//
// A field's type says what is read: a string or a type of string words, bool
// (yes and no unless choices says otherwise), int, int64, the quantities of
// tuning/unit, time.Duration, and time.Time for a local date and time. An
// option that is not given leaves its field alone: a pointer stays nil.

// OptionTable is a field whose options a table declares instead of tags.
type OptionTable interface {
	// Options lists what is declared; the receiver may be zero.
	Options() []Option
	// Give takes the decoded value of an option that was given.
	Give(option string, value any)
}

// binding is an option and the field that holds it.
type binding struct {
	Option
	index []int
}

// bindings reads the declaration off a struct type. It panics on a declaration
// that cannot be: that is a mistake in the program, found when the catalogue is
// made.
func bindings(t reflect.Type) []binding {
	var all []binding
	for _, f := range reflect.VisibleFields(t) {
		if table, ok := reflect.New(f.Type).Interface().(OptionTable); ok {
			for _, o := range table.Options() {
				all = append(all, binding{o, f.Index})
			}
			continue
		}
		if f.Anonymous || !f.IsExported() {
			continue
		}
		o, err := optionOf(f)
		if err != nil {
			panic(fmt.Sprintf("%s.%s: %v", t, f.Name, err))
		}
		if slices.ContainsFunc(all, func(b binding) bool { return b.Name == o.Name }) {
			panic(fmt.Sprintf("%s declares %s twice", t, o.Name))
		}
		all = append(all, binding{o, f.Index})
	}
	return all
}

// optionOf reads one option off its field.
func optionOf(f reflect.StructField) (Option, error) {
	tag := f.Tag
	o := Option{Name: tag.Get("name"), Help: tag.Get("help"), Question: tag.Get("ask"),
		Required: tag.Get("required") != "", Later: tag.Get("required") == "later",
		Zero: tag.Get("zero") == "yes", Source: Source(tag.Get("source"))}
	if o.Name == "" || o.Help == "" {
		return o, fmt.Errorf("an option needs a name and a help")
	}
	if o.Source != NoSource && sources[o.Source] == nil {
		return o, fmt.Errorf("there is no source %q", o.Source)
	}
	t := f.Type
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	o.Choices = choicesOf(t, tag.Get("choices"))
	if common := tag.Get("common"); common != "" {
		o.Common = strings.Split(common, ",")
	}
	var err error
	switch {
	case len(o.Choices) > 0:
		o.Kind = Choice
	case t == reflect.TypeFor[time.Time]():
		o.Kind = Moment
	case t == reflect.TypeFor[time.Duration]() || t.Kind() == reflect.String && tag.Get("kind") != "":
		kind, ok := taggedKinds[tag.Get("kind")]
		if o.Kind = kind; !ok {
			err = fmt.Errorf("there is no kind %q", tag.Get("kind"))
		}
	case t.Kind() == reflect.String:
		o.Kind = Text
	case t.Kind() == reflect.Int || t.Kind() == reflect.Int64:
		o.Kind = Whole
		o.Min, o.Max, err = bounds(tag)
	default:
		o.Kind = Quantity
		var known bool
		if o.Of, known = unit.DimensionOf(t); !known {
			err = fmt.Errorf("a %s cannot be an option", t)
		}
	}
	return o, err
}

// choicesOf lists the words that a type takes, nil when it takes any.
func choicesOf(t reflect.Type, tagged string) []string {
	if tagged != "" {
		return strings.Split(tagged, ",")
	}
	if words, ok := reflect.Zero(t).Interface().(interface{ Choices() []string }); ok {
		return words.Choices()
	}
	if t.Kind() == reflect.Bool {
		return []string{"yes", "no"}
	}
	return nil
}

// bounds reads the bounds of a whole number, which must be given.
func bounds(tag reflect.StructTag) (least, most int, err error) {
	if least, err = strconv.Atoi(tag.Get("min")); err != nil {
		return 0, 0, fmt.Errorf("min: %w", err)
	}
	if most, err = strconv.Atoi(tag.Get("max")); err != nil {
		return 0, 0, fmt.Errorf("max: %w", err)
	}
	return least, most, nil
}

var taggedKinds = map[string]Kind{"upload": Upload, "place": Place, "badge": Badge,
	"lap": Lap, "clock": TimeOfDay, "length": Length}

// decode reads a line's options into the struct that declares them. It refuses
// unknown and doubled options, and says which required one is missing.
func (c Command) decode(ask Ask, imperial bool, into reflect.Value) error {
	given := map[string]bool{}
	for _, g := range ask.Line.Options {
		b, ok := c.binding(g.Name)
		if !ok {
			return Problemf(tuning.Invalid, "/%s has no option %s%s. It takes %s.", c.Name, say.Legible(g.Name), spelling.DidYouMean(g.Name, c.optionNames()), say.OneOf(c.optionNames()))
		}
		if given[b.Name] {
			return Problemf(tuning.Invalid, "You gave %s twice: give it once.", b.Name)
		}
		given[b.Name] = true
		if b.Kind == Upload {
			b.setField(into, ask.Files[b.Name])
			continue
		}
		value, err := b.decode(g.Value, imperial)
		if err != nil {
			return ask.Line.whichReading(g.Name, err)
		}
		b.setField(into, value)
	}
	for _, o := range c.Options {
		if o.Required && !o.Later && !given[o.Name] {
			return c.missing(o, ask.Line)
		}
	}
	return nil
}

// decodeReadable is decode for a line that is still being typed: what cannot be
// read is left out.
func (c Command) decodeReadable(ask Ask, imperial bool, into reflect.Value) {
	for _, g := range ask.Line.Options {
		b, ok := c.binding(g.Name)
		if !ok || b.Kind == Upload {
			continue
		}
		if value, err := b.decode(g.Value, imperial); err == nil {
			b.setField(into, value)
		}
	}
}

// setField sets the field of a struct to a decoded value.
func (b binding) setField(into reflect.Value, value any) {
	field := into.FieldByIndex(b.index)
	if table, ok := field.Addr().Interface().(OptionTable); ok {
		table.Give(b.Name, value)
		return
	}
	if field.Kind() == reflect.Pointer {
		field.Set(reflect.New(field.Type().Elem()))
		field = field.Elem()
	}
	if field.Kind() == reflect.Bool {
		value = value == "yes"
	}
	field.Set(reflect.ValueOf(value).Convert(field.Type()))
}

// Overwrite copies the value of an option that was given, and leaves to alone
// otherwise.
func Overwrite[T any](to *T, given *T) {
	if given != nil {
		*to = *given
	}
}

// GivesNothing tells whether none of a struct's options was given.
func GivesNothing(options any) bool { return reflect.ValueOf(options).IsZero() }
