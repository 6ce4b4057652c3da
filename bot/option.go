package bot

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"detent/bot/say"
	"detent/bot/spelling"
	"detent/tuning"
	"detent/tuning/unit"
)

// Kind is what sort of value an option takes.
type Kind int

// The kinds of option.
const (
	Text      Kind = iota // any words
	Choice                // one of Choices
	Whole                 // a whole number from Min to Max
	Quantity              // a number with a unit, of the dimension Of
	Lap                   // a lap time, 1:23.4
	Upload                // a file
	Moment                // a local date and time, 2026-05-16 09:00
	TimeOfDay             // a time of day, 21:00
	Length                // a length of time, 3h or 90m
	Place                 // a channel of the club's workspace, by key
	Badge                 // a role of the club's workspace, by key
)

// Prefixes of the key of a place and of a badge in a reply's text. A way in
// that knows their names shows those instead.
const (
	PlaceMark = "#"
	BadgeMark = "@"
)

// Source is where the suggestions for a free value come from.
type Source string

// The sources of suggestions.
const (
	NoSource    Source = ""
	FromCars    Source = "cars"    // the member's own cars
	FromEvents  Source = "events"  // the club's events to come
	FromMembers Source = "members" // the club's members
	FromPeople  Source = "people"  // several of them, with commas between
	FromCommand Source = "command" // the command's own, see Suggesting
)

// Option declares one option of a command.
type Option struct {
	Name     string
	Help     string
	Question string // asks for it where it is missing, "" where nothing but the usage tells
	Required bool
	Later    bool // the command itself asks for it where it is missing
	Kind     Kind
	Choices  []string       // for Choice
	Common   []string       // values that many give, to offer where it is asked for
	Min, Max int            // for Whole
	Of       unit.Dimension // for Quantity
	Zero     bool           // a Quantity of zero means something
	Source   Source
}

// decode reads what was typed for the option. The value is a string, int,
// float64 (SI), time.Duration or, for a moment, time.Time without a zone yet.
func (o Option) decode(text string, imperial bool) (any, error) {
	switch o.Kind {
	case Choice:
		return o.choice(text)
	case Whole:
		n, err := strconv.Atoi(strings.TrimPrefix(strings.TrimSpace(text), "+"))
		if err != nil || n < o.Min || n > o.Max {
			return nil, Problemf(tuning.Invalid, "%s takes a whole number from %d to %d; %s is not one.", o.Name, o.Min, o.Max, say.Echo(text))
		}
		return n, nil
	case Quantity:
		v, err := unit.Read(o.Of, text, imperial)
		if err != nil {
			return nil, &Problem{Kind: tuning.Invalid, Say: fmt.Sprintf("%s: %s.", o.Name, err), Err: err}
		}
		if v == 0 && !o.Zero {
			return nil, Problemf(tuning.Invalid, "%s cannot be zero: leave it out when it is not known.", o.Name)
		}
		return v, nil
	case Lap:
		lap, err := unit.Lap(text)
		if err != nil {
			return nil, Problemf(tuning.Invalid, "%s: %s.", o.Name, err)
		}
		return lap, nil
	case Moment:
		return o.moment(text)
	case TimeOfDay:
		t, err := time.Parse("15:04", text)
		if err != nil {
			return nil, Problemf(tuning.Invalid, "%s takes a time of day, for example 21:30.", o.Name)
		}
		return time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute, nil
	case Length:
		d, err := unit.Duration(text)
		if err != nil || d > 7*24*time.Hour {
			return nil, Problemf(tuning.Invalid, "%s takes a length of time up to 168h, for example 3h, 90m or 1 h 30 min.", o.Name)
		}
		return d, nil
	}
	return text, nil
}

func (o Option) choice(text string) (any, error) {
	word := strings.NewReplacer(" ", "-", "_", "-").Replace(strings.ToLower(strings.TrimSpace(text)))
	for _, c := range o.Choices {
		if strings.ToLower(c) == word || strings.EqualFold(o.Label(c), strings.TrimSpace(text)) {
			return c, nil
		}
	}
	for _, word := range []string{word, spelling.Bare(word)} {
		if slices.Contains(o.Choices, word) {
			return word, nil
		}
		if alias, ok := spelling.Meant(word); ok && slices.Contains(o.Choices, alias) {
			return alias, nil
		}
	}
	if fault := tuning.Fault(text); fault != "" { // whoever complains of a knock is not sent back for another word
		_, because := say.Fault(fault)
		return nil, Problemf(tuning.Invalid, "Stop and have the car inspected: %s", because)
	}
	return nil, Problemf(tuning.Invalid, "%s cannot be %s%s. It takes %s.", o.Name, say.Echo(text), spelling.DidYouMean(word, o.Choices), say.OneOf(o.Choices))
}

// moment reads a local date and time; the zone is the club's and is settled
// later, so UTC stands in for it.
func (o Option) moment(text string) (any, error) {
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02T15:04", "2 Jan 2006 15:04", "2 January 2006 15:04"} {
		if t, err := time.Parse(layout, strings.TrimSpace(text)); err == nil {
			return t, nil
		}
	}
	return nil, Problemf(tuning.Invalid, "%s takes a date and a time of the club, for example %s:\"2026-05-16 09:00\".", o.Name, o.Name)
}
