package tuning

import "slices"

// This file is the table of remedies, in the order to try them. A coach can
// check it by eye: a row is a complaint and where in the corner it happens,
// and under it stand the remedies as
//
//	which corners, which adjuster, which way, how far, how sure; why; what to watch for
//
// Common practice, no published source; the entries marked weaker are from
// memory of the trade.

// scope is which corners a remedy turns.
type scope int

const (
	front     scope = iota // both front corners
	rear                   // both rear corners
	saidAxle               // both corners of the axle in the complaint
	bothAxles              // all corners, each axle by its own step
	allAlike               // all corners by the same number of clicks
)

// size is how far a remedy turns.
type size int

const (
	step    size = iota // S of the axle's own adjuster; of the smaller range where all move alike
	slight              // a slight step
	backOff             // the back-off of the grip search
)

// Confidence is how well the trade stands behind a remedy.
type Confidence string

// The two levels.
const (
	CommonPractice Confidence = "common practice"
	WeakerPractice Confidence = "weaker" // from memory of the trade
)

const (
	sure   = CommonPractice
	weaker = WeakerPractice
)

// recipe is one remedy of a row.
type recipe struct {
	scope      scope
	job        Job
	turn       Turn
	size       size
	confidence Confidence
	why, watch string
}

// row is one complaint with its remedies. Drive "" is any car.
type row struct {
	what    What
	phase   Where // Anywhere, or the phase it belongs to
	drive   Drive
	recipes []recipe
	swap    func(Car, History) bool // when the second comes first; nil never
}

// inOrder lists the row's recipes in the order to try on a car.
func (r row) inOrder(car Car, h History) []recipe {
	recipes := slices.Clone(r.recipes)
	if r.swap != nil && r.swap(car, h) {
		slices.Reverse(recipes)
	}
	return recipes
}

var table = []row{
	{what: Oversteer, phase: Entry, recipes: []recipe{
		{front, AnyRebound, Stiffer, step, sure, "The front gives up a little while the car rolls in, so the rear keeps its share.", "the nose starting to push wide on the way in"},
		{rear, AnyRebound, Softer, step, weaker, "The rear's inside wheel stays on the road as the car rolls in.", "a rear that moves about over crests"},
	}},
	{what: Understeer, phase: Entry, recipes: []recipe{
		{rear, AnyRebound, Stiffer, step, sure, "The rear gives up a little while the car rolls in, so the front keeps its share.", "a rear that comes light on the way in"},
		{front, AnyRebound, Softer, step, weaker, "The front's inside wheel stays on the road as the car rolls in.", "a nose that bobs after the brakes come off"},
	}},
	{what: Understeer, phase: Exit, swap: squatComesFirst, recipes: []recipe{
		{rear, AnyBump, Stiffer, step, sure, "Less squat on the power, so the nose stays down.", "less traction out of slow corners"},
		{front, AnyRebound, Softer, slight, sure, "The nose may rise, but the front tyre stays on the road.", "a nose that floats on the way out"},
	}},
	{what: Oversteer, phase: Exit, recipes: []recipe{
		{rear, AnyBump, Softer, step, sure, "The rear may squat and load its tyres: this adds grip where it is missing.", "the nose lifting and pushing wide on the power"},
		{front, AnyRebound, Stiffer, slight, sure, "Takes a little from the front to balance the rear.", "understeer on the way out"},
	}},
	{what: LowGrip, recipes: []recipe{
		{allAlike, AnyBump, Stiffer, step, sure, "More support everywhere; the front-to-rear split stays. Repeat until it just begins to hop, then back off; the grip search keeps the count.", "the first hop over bumps: that is far enough"},
	}},
	{what: Hops, recipes: []recipe{
		{allAlike, AnyBump, Softer, backOff, sure, "Past the peak the tyre leaves the road over bumps; come back to where it follows.", "the car starting to float or roll more"},
		{allAlike, AnyRebound, Softer, slight, weaker, "The wheel can drop back to the road sooner.", "the body moving longer after a bump"},
	}},
	{what: Kerbs, recipes: []recipe{
		{bothAxles, FastBump, Softer, step, sure, "The wheel can get out of the kerb's way.", "the car bottoming on big bumps"},
		{bothAxles, FastRebound, Softer, step, weaker, "The wheel can drop behind the kerb instead of hanging in the air.", "wheels that hop behind a kerb"},
	}},
	{what: SlowSettle, recipes: []recipe{
		{bothAxles, AnyRebound, Stiffer, step, weaker, "Holds the body down once it has moved.", "the car sinking lower over a run of bumps"},
	}},
	{what: PacksDown, recipes: []recipe{
		{saidAxle, AnyRebound, Softer, step, weaker, "The spring can lift the car again before the next bump.", "the body moving longer after a bump"},
	}},
	{what: Dives, recipes: []recipe{
		{front, AnyBump, Stiffer, step, weaker, "The nose goes down more slowly on the brakes.", "front tyres that skip while braking over bumps"},
		{rear, AnyRebound, Stiffer, slight, weaker, "The rear comes up more slowly on the brakes.", "a light rear under braking"},
	}},
	{what: LooseBraking, recipes: []recipe{
		{rear, AnyRebound, Softer, step, weaker, "The rear tyres stay on the road while the car pitches forward.", "more dive"},
		{front, AnyBump, Stiffer, slight, weaker, "Slows the pitch that takes load from the rear.", "front tyres that skip while braking over bumps"},
	}},
	{what: SlowTurnIn, recipes: []recipe{
		{front, AnyBump, Stiffer, slight, weaker, "The front outside takes its load sooner.", "a front that skips over bumps on the way in"},
		{front, AnyRebound, Stiffer, slight, weaker, "The body follows the wheel sooner.", "the nose starting to push wide on the way in"},
	}},
	{what: Nervous, recipes: []recipe{
		{front, AnyBump, Softer, slight, weaker, "The front answers a little later and gives more warning.", "a nose that feels slow to answer"},
	}},
	{what: Wheelspin, drive: RearDrive, recipes: []recipe{
		{rear, AnyBump, Softer, step, sure, "The rear may squat and load its tyres.", "the nose lifting and pushing wide on the power"},
	}},
	{what: Wheelspin, drive: FrontDrive, recipes: []recipe{
		{front, AnyRebound, Softer, step, weaker, "The front tyres stay on the road as the nose rises.", "a nose that floats on the way out"},
	}},
	{what: Wheelspin, drive: FourDrive, recipes: []recipe{
		{rear, AnyBump, Softer, slight, weaker, "The rear may squat a little and load its tyres.", "understeer on the way out"},
	}},
	{what: Bottoms, recipes: []recipe{
		{saidAxle, FastBump, Stiffer, step, weaker, "Slows the wheel before it reaches the stop. Only once bump-stop, ride height and spring are right.", "harshness over kerbs"},
	}},
	{what: OneSided},
}

// squatComesFirst tells whether an exit understeer is better treated at the
// front: the rear needs its squat for traction, or entry and mid are good
// already and should be left alone.
func squatComesFirst(car Car, h History) bool {
	return car.Drive == RearDrive || h.LastFeel.entryAndMidGood()
}

// rowFor finds the row of the table for a complaint about a car.
func rowFor(car Car, c Complaint) (row, bool) {
	for _, r := range table {
		if r.what == c.What && (r.phase == Anywhere || r.phase == c.Where.Phase()) && (r.drive == "" || r.drive == car.Drive) {
			return r, true
		}
	}
	return row{}, false
}
