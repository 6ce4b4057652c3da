package bot

import (
	"detent/tuning"
)

// PositionOptions say where an adjuster is to stand, in the owner's counting.
type PositionOptions struct {
	At       CornersWord  `name:"at" help:"which corners" required:"yes"`
	Adjuster AdjusterWord `name:"adjuster" help:"which adjuster" required:"yes"`
	To       int          `name:"to" help:"the position, as you count it" required:"yes" min:"0" max:"9999"`
}

// CornersWord names one corner or several.
type CornersWord string

// Choices lists the words.
func (CornersWord) Choices() []string {
	return []string{"FL", "FR", "RL", "RR", "front", "rear", "all"}
}

// AdjusterWord names an adjuster.
type AdjusterWord string

// Choices lists the words.
func (AdjusterWord) Choices() []string {
	var words []string
	for a := range tuning.Adjuster(tuning.Adjusters) {
		words = append(words, a.String())
	}
	return words
}

// AxleWord names an axle.
type AxleWord string

// Choices lists the words.
func (AxleWord) Choices() []string { return []string{"front", "rear"} }

// Axle is the axle that is named, nil for none.
func (w AxleWord) Axle() *tuning.Axle {
	for axle := range tuning.Axle(tuning.Axles) {
		if axle.String() == string(w) {
			return &axle
		}
	}
	return nil
}

// Moves are what takes a car's clicks there, those that go nowhere included.
func (o PositionOptions) Moves(c tuning.Case) ([]tuning.Move, error) {
	if err := RequireDampers(c.Car); err != nil {
		return nil, err
	}
	corners, _ := tuning.CornersAt(string(o.At))
	adjuster, _ := tuning.ParseAdjuster(string(o.Adjuster))
	var moves []tuning.Move
	for _, corner := range corners {
		position, err := c.Car.Dampers[corner.Axle()].Read(adjuster, o.To)
		if err != nil {
			return nil, err
		}
		moves = append(moves, tuning.Move{Corner: corner, Adjuster: adjuster, From: c.Setting[corner][adjuster], To: position})
	}
	return moves, nil
}
