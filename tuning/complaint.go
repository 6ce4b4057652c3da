package tuning

// What is the thing a driver complains of.
type What string

// The complaints the trade has remedies for.
const (
	Oversteer    What = "oversteer"
	Understeer   What = "understeer"
	LowGrip      What = "low-grip"
	Hops         What = "hops"
	Kerbs        What = "kerbs"
	SlowSettle   What = "slow-settle"
	PacksDown    What = "packs-down"
	Dives        What = "dives"
	LooseBraking What = "loose-braking"
	SlowTurnIn   What = "slow-turn-in"
	Nervous      What = "nervous"
	Wheelspin    What = "wheelspin"
	Bottoms      What = "bottoms"
	OneSided     What = "one-sided"
)

// Whats lists the complaints in the order they are offered, each as it is said
// in a sentence and with what it means in a driver's words.
var Whats = []struct {
	What  What
	Short string
	Means string
}{
	{Oversteer, "oversteer", "the rear slides first and needs opposite lock"},
	{Understeer, "understeer", "the front slides first, wide of the line"},
	{LowGrip, "low grip everywhere", "floats or rolls, low grip everywhere"},
	{Hops, "hops over bumps", "hops or skips over bumps"},
	{Kerbs, "harsh on kerbs", "harsh on kerbs only"},
	{SlowSettle, "slow to settle", "takes long to settle after a crest or bump"},
	{PacksDown, "sinks over bumps", "sinks lower over a run of bumps"},
	{Dives, "dives under braking", "the nose dives under braking"},
	{LooseBraking, "loose under braking", "the rear is light or loose under braking"},
	{SlowTurnIn, "slow to turn in", "slow to answer the wheel"},
	{Nervous, "nervous", "nervous, snaps without warning"},
	{Wheelspin, "wheelspin", "spins its wheels out of slow corners"},
	{Bottoms, "bottoms out", "runs out of travel and hits the stops"},
	{OneSided, "worse in one direction", "only in left-handers, or only in right-handers"},
}

// Short is the complaint as it is said in a sentence.
func (w What) Short() string {
	for _, known := range Whats {
		if known.What == w {
			return known.Short
		}
	}
	return string(w)
}

// Where is the part of the corner a complaint belongs to; "" is not said.
type Where string

// The parts of a corner.
const (
	Anywhere Where = ""
	Entry    Where = "entry"
	Mid      Where = "mid"
	Exit     Where = "exit"
)

// Complaint is what the driver says, where, and at which end where that
// matters.
type Complaint struct {
	What    What    `json:"what"`
	Where   Where   `json:"where,omitempty"`
	Axle    *Axle   `json:"axle,omitempty"` // for PacksDown and Bottoms
	Weather Weather `json:"weather,omitempty"`
}

// Made tells whether anything is complained of: the start that a car is given
// answers nothing.
func (c Complaint) Made() bool { return c.What != "" }

// weather is what the complaint was made in; dry where it does not say.
func (c Complaint) weather() Weather {
	if c.Weather == Wet {
		return Wet
	}
	return Dry
}

// NeedsAxle tells whether the complaint means nothing without an axle.
func (w What) NeedsAxle() bool { return w == PacksDown || w == Bottoms }

// Phase folds the places that the remedies do not tell apart: entry, mid and
// not said are one, exit is the other.
func (w Where) Phase() Where {
	if w == Exit {
		return Exit
	}
	return Entry
}

// sameAs tells whether two complaints ask for the same row of the table.
func (c Complaint) sameAs(d Complaint) bool {
	if c.What != d.What || (c.Axle != nil && d.Axle != nil && *c.Axle != *d.Axle) {
		return false
	}
	return !splitsByPlace[c.What] || c.Where.Phase() == d.Where.Phase()
}

// splitsByPlace holds the complaints whose remedy depends on the place.
var splitsByPlace = map[What]bool{Understeer: true, Oversteer: true}

// SplitsByPlace tells whether the remedy depends on where in the corner it
// happens.
func (w What) SplitsByPlace() bool { return splitsByPlace[w] }

// opposite holds the complaint that each turns into when its remedy goes too far.
var opposite = map[What]What{
	Understeer: Oversteer, Oversteer: Understeer,
	SlowSettle: PacksDown, PacksDown: SlowSettle,
}

// turnedFrom tells whether c is what happens when the remedy for d goes too far.
func (c Complaint) turnedFrom(d Complaint) bool {
	if opposite[c.What] != d.What || !d.Made() {
		return false
	}
	return !splitsByPlace[c.What] || c.Where.Phase() == d.Where.Phase()
}

// placeOf holds the complaints that can only happen in one part of a corner.
var placeOf = map[What]Where{
	Dives: Entry, LooseBraking: Entry, SlowTurnIn: Entry, Wheelspin: Exit,
}
