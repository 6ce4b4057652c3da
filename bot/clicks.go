package bot

import (
	"context"

	"detent/bot/say"
	"detent/tuning"
)

func clicksCommands() []Command {
	var adjusters []string
	for a := range tuning.Adjuster(tuning.Adjusters) {
		adjusters = append(adjusters, a.String())
	}
	return []Command{
		{Name: "clicks show", Help: "Where the clicks stand", Private: true, Options: []Option{carOption}, Answer: showClicks},
		{Name: "clicks set", Help: "Say where an adjuster stands, in your own counting", Private: true, Writes: true, Answer: setClicks, Options: []Option{
			{Name: "at", Help: "which corners", Kind: Choice, Required: true, Choices: []string{"FL", "FR", "RL", "RR", "front", "rear", "all"}},
			{Name: "adjuster", Help: "which adjuster", Kind: Choice, Required: true, Choices: adjusters},
			{Name: "to", Help: "the position, as you count it", Kind: Whole, Required: true, Min: 0, Max: 9999, Source: FromPlaces},
			carOption,
		}},
	}
}

func showClicks(ctx context.Context, call Call) (Reply, error) {
	c, err := call.theCase(ctx)
	if err != nil {
		return Reply{}, err
	}
	if err := c.Car.Fitted(); err != nil {
		return Reply{}, err
	}
	reply := Reply{Title: c.Car.Name + " stands here", Text: say.At(c.Car, c.Setting), Corners: standing(c.Car, c.Setting)}
	reply.Notes = say.Standing(c)
	return reply, nil
}

func setClicks(ctx context.Context, call Call) (Reply, error) {
	c, err := call.running(ctx)
	if err != nil {
		return Reply{}, err
	}
	moves, err := handMoves(c, call.Args)
	if err != nil {
		return Reply{}, err
	}
	if len(tuning.Turned(moves)) == 0 && !c.History.Unrecorded {
		return Reply{Title: "It stands there already", Corners: standing(c.Car, c.Setting)}, nil
	}
	change, err := call.Book.Record(ctx, c.Car, tuning.Change{At: call.now(), By: call.owner(), Reason: tuning.ByHand, Moves: moves})
	if err != nil {
		return Reply{}, err
	}
	reply := changed(c.Car, c.Setting, change, "Noted")
	c.Setting = after(c.Setting, moves)
	c.History.Unrecorded = false
	reply.Notes = say.Standing(c)
	return reply, nil
}

// handMoves reads the corners, the adjuster and the position of clicks set.
func handMoves(c tuning.Case, a Args) ([]tuning.Move, error) {
	if err := c.Car.Fitted(); err != nil {
		return nil, err
	}
	corners, _ := tuning.CornersAt(a.Text("at"))
	adjuster, _ := tuning.ParseAdjuster(a.Text("adjuster"))
	var moves []tuning.Move
	for _, corner := range corners {
		position, err := c.Car.Dampers[corner.Axle()].Read(adjuster, a.Whole("to"))
		if err != nil {
			return nil, err
		}
		moves = append(moves, tuning.Move{Corner: corner, Adjuster: adjuster, From: c.Setting[corner][adjuster], To: position})
	}
	return moves, nil
}
