package season

import (
	"context"
	"fmt"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

func listEntrantsCommand() bot.Command {
	return declare(bot.Command{Name: "event entrants", Help: "Who is in an event, with what car and dampers, and who wants a sheet",
		Role: tuning.CoachRole, Private: true}, listEntrants)
}

type entrantsOptions struct {
	eventOption
	bot.MoreOption
}

// listEntrants tells an organiser or a coach who comes. Whoever enters tells the
// club so; where their clicks stand is not told here.
func listEntrants(ctx context.Context, call call, o entrantsOptions) (bot.Reply, error) {
	e, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return bot.Reply{}, err
	}
	if len(entrants) == 0 {
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "Nobody has entered %s yet: members do with /event enter.", e.Name)
	}
	lines := []string{sayKinds(entrants), saySheets(entrants)}
	for _, entrant := range entrants {
		lines = append(lines, sayEntrant(entrant))
	}
	reply := bot.Reply{Title: e.Name + ": " + say.Count(len(entrants), "car is", "cars are") + " in", Text: strings.Join(lines, "\n")}
	if call.Ask.Who.RoleIn(call.Club).Allows(tuning.OrganiserRole) {
		reply.Actions = []bot.Action{bot.Button("Sheets", "/event sheets", bot.OfEvent(e))}
	}
	return o.Paged(reply, "/event entrants", bot.OfEvent(e)), nil
}

// sayEntrant says who comes with what: "Robin: Grey coupe, two-way, 16 clicks
// from hard; no sheet".
func sayEntrant(e tuning.Entrant) string {
	line := e.Name + ": " + e.Car.Name + ", " + say.DampersShortly(e.Car)
	if !e.Sheet {
		line += "; no sheet"
	}
	return line
}

// sayKinds counts the cars by kind of damper, the commonest first.
func sayKinds(entrants []tuning.Entrant) string {
	kinds := map[string]int{}
	for _, e := range entrants {
		kinds[say.DamperKind(e.Car)]++
	}
	var words []string
	for _, kind := range commonest(kinds, func(n int) int { return n }, len(kinds)) {
		words = append(words, fmt.Sprintf("%d %s", kinds[kind], kind))
	}
	return "Dampers: " + strings.Join(words, ", ") + "."
}

// saySheets counts the cars that a sheet is wanted for.
func saySheets(entrants []tuning.Entrant) string {
	wanted := 0
	for _, e := range entrants {
		if e.Sheet {
			wanted++
		}
	}
	if wanted == len(entrants) {
		return "All want a sheet."
	}
	return fmt.Sprintf("%d of %d want a sheet.", wanted, len(entrants))
}
