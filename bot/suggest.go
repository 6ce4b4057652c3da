package bot

import (
	"context"
	"slices"
	"strings"

	"detent/bot/say"
	"detent/tuning"
)

// Suggestion is a value that can be put in an option, and how to show it.
type Suggestion struct {
	Value string
	Label string
}

// MaxSuggestions is the most that are offered at once.
const MaxSuggestions = 25

// suggester computes what can be offered for an option. What does not begin
// with or contain what was typed is sifted out afterwards.
type suggester func(ctx context.Context, call Call, book Book, typed string) ([]Suggestion, error)

// sources is the table of the suggestions that several rooms share. What only
// one command suggests is declared with it, see Suggesting.
var sources = map[Source]suggester{
	FromCars:    suggestCars,
	FromEvents:  suggestEvents,
	FromMembers: suggestMembers,
	FromPeople:  suggestPeople,
}

// Suggest offers values for the option that is being typed, best first. It
// reads and changes nothing, and offers nothing when anything is in the way.
func (r *Router) Suggest(ctx context.Context, ask Ask, option, typed string) []Suggestion {
	command, err := r.catalogue.Find(ask.Line)
	if err != nil || !ask.Who.MayBecome(command.Role) {
		return nil
	}
	b, ok := command.binding(option)
	if !ok {
		return nil
	}
	suggest := command.offers[b.Name]
	if suggest == nil {
		suggest = sources[b.Source]
	}
	if suggest == nil {
		return sift(b.suggestions(), typed)
	}
	var found []Suggestion
	err = r.records.Read(ctx, ask.Who, ask.At, func(book Book) error {
		call, err := r.call(ctx, book, ask)
		if err != nil {
			return err
		}
		if call.Ask.Who.Role.Allows(command.Role) {
			found, err = suggest(ctx, call, book, typed)
		}
		return err
	})
	if err != nil && tuning.KindOf(err) == tuning.Internal {
		r.log.Error("suggesting failed", "command", command.Name, "option", option, "id", ask.ID, "err", err)
	}
	return sift(found, typed)
}

// sift keeps what fits what was typed, what begins with it first.
func sift(all []Suggestion, typed string) []Suggestion {
	typed = strings.ToLower(strings.TrimSpace(typed))
	var first, then []Suggestion
	for _, s := range all {
		switch value := strings.ToLower(s.Value); {
		case strings.HasPrefix(value, typed):
			first = append(first, s)
		case strings.Contains(value, typed) || strings.Contains(strings.ToLower(s.Label), typed):
			then = append(then, s)
		}
	}
	first = append(first, then...)
	return first[:min(len(first), MaxSuggestions)]
}

// suggestions are the words that an option takes.
func (o Option) suggestions() []Suggestion {
	var all []Suggestion
	for _, c := range o.Choices {
		all = append(all, Suggestion{c, o.Label(c)})
	}
	return all
}

func suggestCars(ctx context.Context, call Call, book Book, _ string) ([]Suggestion, error) {
	cars, err := book.Cars(ctx, call.Owner())
	var all []Suggestion
	for _, c := range cars {
		label := c.Name
		switch {
		case c.Retired:
			label += ", retired"
		case c.Main:
			label += ", the main car"
		}
		all = append(all, Suggestion{c.Name, label})
	}
	return all, err
}

// suggestMembers offers the names of the club's members.
func suggestMembers(ctx context.Context, call Call, book Book, typed string) ([]Suggestion, error) {
	members, err := book.Members(ctx, typed, MaxSuggestions)
	var out []Suggestion
	for _, m := range members {
		out = append(out, Suggestion{m.Person, m.Name})
	}
	return out, err
}

// suggestPeople offers the last of several members, behind those that are
// typed: by name, or by key where another has the name or it holds a comma.
func suggestPeople(ctx context.Context, call Call, book Book, typed string) ([]Suggestion, error) {
	last := strings.TrimLeft(typed[strings.LastIndex(typed, ",")+1:], " ")
	before := strings.TrimSuffix(typed, last)
	found, err := suggestMembers(ctx, call, book, last)
	named := map[string]int{}
	for _, s := range found {
		named[strings.ToLower(s.Label)]++
	}
	for i, s := range found {
		if named[strings.ToLower(s.Label)] == 1 && !strings.Contains(s.Label, ",") {
			s.Value = s.Label
		}
		found[i] = Suggestion{before + s.Value, before + s.Label}
	}
	return found, err
}

// suggestEvents offers the events to come, and after them those of the month
// that is over.
func suggestEvents(ctx context.Context, call Call, book Book, _ string) ([]Suggestion, error) {
	events, err := book.Events(ctx, call.Now().AddDate(0, -1, 0))
	over := func(e tuning.Event) int { return call.Now().Compare(e.Ends) }
	slices.SortStableFunc(events, func(a, b tuning.Event) int { return over(a) - over(b) })
	var all []Suggestion
	for _, e := range events {
		label := e.Name + ", " + say.Time(e.Starts, call.Zone())
		if e.Cancelled {
			label += ", cancelled"
		}
		all = append(all, Suggestion{e.Name, label})
	}
	return all, err
}
