package bot

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"detent/tuning"
)

// Suggestion is a value that can be put in an option, and how to show it.
type Suggestion struct {
	Value string
	Label string
}

// MaxSuggestions is the most that are offered at once.
const MaxSuggestions = 25

// source computes what can be offered for an option. The call's Args hold what
// could be read of the line so far. What does not begin or contain what was
// typed is sifted out afterwards.
type source func(ctx context.Context, call Call, typed string) ([]Suggestion, error)

// sources is the table of them: another way to suggest is another row.
var sources = map[Source]source{
	FromCars:    suggestCars,
	FromPlaces:  suggestPlaces,
	FromEvents:  suggestEvents,
	FromZones:   suggestZones,
	FromMembers: suggestMembers,
}

// Suggest offers values for the option that is being typed, best first. It
// reads and changes nothing, and offers nothing when anything is in the way.
func (r *Router) Suggest(ctx context.Context, ask Ask, option, typed string) []Suggestion {
	command, err := find(r.commands, ask.Line.Words)
	if err != nil || !ask.Who.Role.Allows(command.Role) {
		return nil
	}
	o, ok := command.option(option)
	if !ok {
		return nil
	}
	suggest := sources[o.Source]
	if suggest == nil {
		return sift(choices(o), typed)
	}
	var found []Suggestion
	err = r.records.Read(ctx, ask.Who, ask.At, func(b Book) error {
		club, err := b.Club(ctx)
		if err != nil {
			return err
		}
		member, err := b.Member(ctx, ask.Who.Person)
		if err != nil {
			return err
		}
		call := Call{Ask: ask, Book: b, Member: member, Club: club, Args: readable(command, ask, imperial(member, club))}
		found, err = suggest(ctx, call, typed)
		return err
	})
	if err != nil && tuning.KindOf(err) == tuning.Internal {
		r.log.Error("suggesting failed", "command", command.Name, "option", option, "id", ask.ID, "err", err)
	}
	return sift(found, typed)
}

// readable decodes what can be read of a line that is still being typed.
func readable(c Command, ask Ask, imperial bool) Args {
	args := Args{}
	for _, g := range ask.Line.Options {
		if o, ok := c.option(g.Name); ok && o.Kind != Upload {
			if v, err := o.decode(g.Value, imperial); err == nil {
				args[o.Name] = v
			}
		}
	}
	return args
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

func choices(o Option) []Suggestion {
	var all []Suggestion
	for _, c := range o.Choices {
		all = append(all, Suggestion{c, c})
	}
	return all
}

func suggestCars(ctx context.Context, call Call, _ string) ([]Suggestion, error) {
	cars, err := call.Book.Cars(ctx, call.owner())
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

// suggestPlaces offers the positions of the adjuster that is being set, as the
// member counts them, those nearest to where it stands first.
func suggestPlaces(ctx context.Context, call Call, typed string) ([]Suggestion, error) {
	corners, ok := tuning.CornersAt(call.Args.Text("at"))
	adjuster, known := tuning.ParseAdjuster(call.Args.Text("adjuster"))
	if !ok || !known {
		return nil, nil
	}
	c, err := call.theCase(ctx)
	if err != nil {
		return nil, err
	}
	damper := c.Car.Dampers[corners[0].Axle()]
	if !damper.Has(adjuster) {
		return nil, nil
	}
	stands := c.Setting[corners[0]][adjuster]
	places := make([]int, damper.Range[adjuster]+1)
	for i := range places {
		places[i] = i
	}
	slices.SortStableFunc(places, func(a, b int) int { return distance(a, stands) - distance(b, stands) })
	var all []Suggestion
	for _, p := range places {
		value := strconv.Itoa(damper.Counted(adjuster, p))
		if !strings.HasPrefix(value, typed) {
			continue
		}
		label := damper.ShownBoth(adjuster, p)
		switch {
		case p == stands:
			label += ", as it stands"
		default:
			m := tuning.Move{From: stands, To: p}
			label += fmt.Sprintf(", %d %s", m.Clicks(), m.Turn())
		}
		all = append(all, Suggestion{value, label})
	}
	return all, nil
}

func distance(a, b int) int { return max(a-b, b-a) }

// suggestMembers offers the names of the club's members.
func suggestMembers(ctx context.Context, call Call, typed string) ([]Suggestion, error) {
	members, err := call.Book.Members(ctx, typed, MaxSuggestions)
	var out []Suggestion
	for _, m := range members {
		out = append(out, Suggestion{m.Person, m.Name})
	}
	return out, err
}
