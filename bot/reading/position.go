package reading

import (
	"strconv"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/bot/spelling"
	"detent/tuning"
)

// PositionOptions say where an adjuster is to stand, in the owner's counting.
type PositionOptions struct {
	At       CornersWord  `name:"at" help:"which corners" required:"yes" ask:"Which corners?"`
	Adjuster AdjusterWord `name:"adjuster" help:"which adjuster" required:"yes" ask:"Which adjuster?"`
	To       string       `name:"to" help:"the position as you count it, 12, or by its stop, 12 from hard" required:"yes"`
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
	if err := bot.RequireDampers(c.Car); err != nil {
		return nil, err
	}
	corners, _ := tuning.CornersAt(string(o.At))
	adjuster, _ := tuning.ParseAdjuster(string(o.Adjuster))
	var moves []tuning.Move
	for _, corner := range corners {
		position, err := readPlace(c.Car.Dampers[corner.Axle()], adjuster, o.To)
		if err != nil {
			return nil, err
		}
		moves = append(moves, tuning.Move{Corner: corner, Adjuster: adjuster, From: c.Setting[corner][adjuster], To: position})
	}
	return moves, nil
}

// readPlace reads where an adjuster is to stand, in clicks from full soft: "12"
// in the owner's counting, or "12 from hard", "14 soft" by the stop it names.
func readPlace(d tuning.Damper, a tuning.Adjuster, text string) (position int, err error) {
	number, stop := strings.TrimSpace(text), ""
	if i := strings.IndexFunc(number, func(r rune) bool { return r < '0' || r > '9' }); i >= 0 {
		number, stop = number[:i], spelling.Bare(strings.Join(strings.Fields(strings.ToLower(number[i:])), "-"))
	}
	stop = strings.TrimPrefix(strings.TrimPrefix(stop, "clicks-"), "from-")
	typed, failed := strconv.Atoi(number)
	if failed != nil || stop != "" && stop != string(tuning.FromHard) && stop != string(tuning.FromSoft) {
		return 0, bot.Problemf(tuning.Invalid, "to takes a number of clicks, 12, or with the stop it is counted from, 12 from hard; %s is neither.", say.Echo(text))
	}
	if stop != "" {
		d.Count = tuning.Count(stop)
	}
	return d.Read(a, typed)
}
