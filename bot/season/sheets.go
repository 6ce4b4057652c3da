package season

import (
	"bytes"
	"context"
	"fmt"

	"detent/bot"
	"detent/bot/say"
	"detent/bot/sheet"
	"detent/tuning"
)

func printSheetsCommand() bot.Command {
	return declare(bot.Command{Name: "event sheets", Help: "The sheets of all who want one, to print", Role: tuning.OrganiserRole, Private: true}, printSheets)
}

type sheetsOptions struct {
	eventOption
	From int `name:"from" help:"how many sheets were printed already" min:"0" max:"1000"`
}

// mostSheets is how many sheets one answer makes: a sheet takes up to a twentieth
// of a second, and an answer that takes seconds is not waited for.
const mostSheets = 30

// printSheets makes one file of the sheets that entrants want. Where their clicks
// stand is between them and the bot, so that column is left for them to fill in.
func printSheets(ctx context.Context, call call, o sheetsOptions) (bot.Reply, error) {
	e, err := call.FindEvent(ctx, call.Book, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return bot.Reply{}, err
	}
	wanted, without, unknown := sortSheets(entrants)
	if len(wanted) <= o.From {
		return bot.Reply{}, bot.Problemf(tuning.NotFound, "There is no sheet to print for %s: /event entrants shows who is in and who wants one.", e.Name)
	}
	now := wanted[o.From:min(len(wanted), o.From+mostSheets)]
	pages := make([]sheet.Page, len(now))
	for i, in := range now {
		pages[i] = carSheet{event: e, car: tuning.Case{Car: in.Car}, sizes: call.Club.Sizes, zone: call.Zone(), made: call.Now(), owner: in.Name}.page()
	}
	var pdf bytes.Buffer
	if err := sheet.WriteAll(&pdf, pages); err != nil {
		return bot.Reply{}, err
	}
	reply := bot.Reply{
		Title:   fmt.Sprintf("%s for %s", say.Count(len(now), "sheet", "sheets"), e.Name),
		Text:    "A page each, in the order they entered. Where the clicks stand is for each driver to write in.",
		Files:   []bot.File{{Name: "sheets.pdf", Type: "application/pdf", Data: pdf.Bytes()}},
		Actions: []bot.Action{bot.Button("Who is in", "/event entrants", bot.OfEvent(e))},
	}
	if without > 0 {
		reply.Notes = append(reply.Notes, say.Count(without, "entrant wants", "entrants want")+" none.")
	}
	if unknown > 0 {
		reply.Notes = append(reply.Notes, fmt.Sprintf("Of %s I do not know the dampers, so there is no sheet.", say.Count(unknown, "car", "cars")))
	}
	if left := len(wanted) - o.From - len(now); left > 0 {
		reply.Actions = append(reply.Actions, bot.Button(fmt.Sprintf("The other %d", left), fmt.Sprintf("/event sheets from:%d", o.From+len(now)), bot.OfEvent(e)))
	}
	return reply, nil
}

// sortSheets finds the entrants who want a sheet that can be made, and counts those
// who want none and the cars whose dampers are not known.
func sortSheets(entrants []tuning.Entrant) (wanted []tuning.Entrant, without, unknown int) {
	for _, in := range entrants {
		switch {
		case !in.Sheet:
			without++
		case in.Car.Fitted() != nil:
			unknown++
		default:
			wanted = append(wanted, in)
		}
	}
	return wanted, without, unknown
}
