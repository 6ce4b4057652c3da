package bot

import (
	"time"

	"detent/bot/say"
	"detent/tuning"
)

// Args are the decoded options of one ask, by name.
type Args map[string]any

// Has tells whether the option was given.
func (a Args) Has(name string) bool { _, ok := a[name]; return ok }

// Text returns a Text, Choice or Upload option, "" when not given.
func (a Args) Text(name string) string { s, _ := a[name].(string); return s }

// Whole returns a Whole option, 0 when not given.
func (a Args) Whole(name string) int { n, _ := a[name].(int); return n }

// Quantity returns a Quantity option in SI units, 0 when not given.
func (a Args) Quantity(name string) float64 { v, _ := a[name].(float64); return v }

// Duration returns a Lap, TimeOfDay or Length option, 0 when not given.
func (a Args) Duration(name string) time.Duration { d, _ := a[name].(time.Duration); return d }

// Moment returns a Moment option, zero when not given.
func (a Args) Moment(name string) time.Time { t, _ := a[name].(time.Time); return t }

// Yes returns a yes-or-no option as a pointer, nil when not given.
func (a Args) Yes(name string) *bool {
	if !a.Has(name) {
		return nil
	}
	yes := a.Text(name) == "yes"
	return &yes
}

// Mark returns a Whole option as a pointer, nil when not given.
func (a Args) Mark(name string) *int {
	if !a.Has(name) {
		return nil
	}
	n := a.Whole(name)
	return &n
}

// decode reads a line's options against their declaration. It refuses unknown
// and doubled options, and says which required one is missing.
func decode(c Command, ask Ask, imperial bool) (Args, error) {
	args := Args{}
	for _, g := range ask.Line.Options {
		o, ok := c.option(g.Name)
		if !ok {
			return nil, tuning.Problemf(tuning.Invalid, "/%s has no option %s%s. It takes %s.", c.Name, g.Name, didYouMean(g.Name, c.optionNames()), say.OneOf(c.optionNames()))
		}
		if args.Has(o.Name) {
			return nil, tuning.Problemf(tuning.Invalid, "You gave %s twice: give it once.", o.Name)
		}
		if o.Kind == Upload {
			args[o.Name] = ask.Files[o.Name]
			continue
		}
		v, err := o.decode(g.Value, imperial)
		if err != nil {
			return nil, err
		}
		args[o.Name] = v
	}
	for _, o := range c.Options {
		if o.Required && !args.Has(o.Name) {
			return nil, tuning.Problemf(tuning.Invalid, "/%s needs %s: %s.", c.Name, o.Name, o.example())
		}
	}
	return args, nil
}
