package tuning

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"detent/tuning/unit"
)

// Drive is which axle the engine turns.
type Drive string

// The layouts of drive.
const (
	FrontDrive Drive = "front"
	RearDrive  Drive = "rear"
	FourDrive  Drive = "four"
)

// Engine is where the engine sits.
type Engine string

// The places of the engine.
const (
	FrontEngine Engine = "front"
	MidEngine   Engine = "mid"
	RearEngine  Engine = "rear"
)

// Tyre is the class of tyre the car runs on the track.
type Tyre string

// The classes of tyre.
const (
	RoadTyre  Tyre = "road"
	SemiSlick Tyre = "semi-slick"
	Slick     Tyre = "slick"
)

// Aero is how much downforce the car makes. Only HighAero counts as real
// downforce in the trade's rules.
type Aero string

// The levels of downforce.
const (
	NoAero   Aero = "none"
	WingAero Aero = "wing"
	HighAero Aero = "high"
)

// Use is where the car is driven.
type Use string

// The uses.
const (
	TrackUse        Use = "track"
	RoadAndTrackUse Use = "road-and-track"
)

// Weather is the state of the road surface for set-up purposes.
type Weather string

// The kinds of weather. Damp counts as wet.
const (
	Dry Weather = "dry"
	Wet Weather = "wet"
)

// Surface is how rough a track is.
type Surface string

// The kinds of surface.
const (
	Smooth Surface = "smooth"
	Bumpy  Surface = "bumpy"
)

// Car is a member's car as far as it is known. A zero quantity is unknown.
type Car struct {
	ID          int64
	Owner       string // the person
	Name        string
	Main        bool // meant when no car is named
	Retired     bool
	Drive       Drive
	Engine      Engine
	Tyre        Tyre
	Aero        Aero
	Use         Use
	TorqueFront unit.Share // four-wheel drive: the front axle's part of the torque
	Mass        unit.Mass  // the whole car with driver
	FrontShare  unit.Share // of the weight
	Wheelbase   unit.Length
	CGHeight    unit.Length
	Ends        [Axles]End
	Dampers     [Axles]Damper
	Curves      [Axles]*ForceTable // nil where no force table was given
}

// End is what is known of the chassis at one axle.
type End struct {
	Track       unit.Length
	Spring      unit.Stiffness  // one spring
	MotionRatio unit.Ratio      // spring travel over wheel travel
	Bar         *unit.Stiffness // anti-roll bar, wheel force over wheel travel difference; nil unknown, 0 none
	Unsprung    unit.Mass       // one corner
	TyreRate    unit.Stiffness  // one tyre, vertical
}

// MaxName is the longest name of a car or an event, in characters.
const MaxName = 60

// CheckName returns the name without surrounding space, or a Problem when it
// is empty, too long, or holds characters that do not print or that reorder
// the text around them.
func CheckName(name string) (string, error) {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		return "", Problemf(Invalid, "Give it a name, for example name:\"Blue hatch\".")
	}
	if n := utf8.RuneCountInString(name); n > MaxName {
		return "", Problemf(Invalid, "That name has %d characters; use at most %d.", n, MaxName)
	}
	for _, r := range name {
		if !unicode.IsPrint(r) && r != '\u200d' && r != '\ufe0f' { // the joiners that emoji are made with
			return "", Problemf(Invalid, "That name holds an invisible or direction-changing character; type it again with letters, digits and spaces.")
		}
	}
	return name, nil
}

// Fitted returns a Problem when a damper is missing on either axle.
func (c Car) Fitted() error {
	for a := range Axle(Axles) {
		if !c.Dampers[a].Fitted() {
			return Problemf(Invalid, "I do not know the %s dampers of %s yet: use /damper fit axle:%s, with ways, clicks and the stop you count from.", a, c.Name, a)
		}
	}
	return nil
}

// Driven tells whether the engine turns the axle.
func (c Car) Driven(a Axle) bool {
	return c.Drive == FourDrive || (c.Drive == FrontDrive) == (a == Front)
}

// Validate returns a Problem for the first quantity that no car could have.
// The bounds are wide, from memory, and only catch slips of the thumb and
// wrong units.
func (c Car) Validate() error {
	type bound struct {
		value, low, high float64
		say              string
	}
	bounds := []bound{
		{float64(c.Mass), 200, 4000, "A mass between 200 and 4000 kg is expected, for example mass:1250kg."},
		{float64(c.FrontShare), 0.2, 0.8, "The front share of the weight lies between 20 % and 80 %, for example front-share:54%."},
		{float64(c.Wheelbase), 1.2, 4.5, "A wheelbase between 1.2 and 4.5 m is expected, for example wheelbase:2.55m."},
		{float64(c.CGHeight), 0.15, 1.2, "A centre of gravity between 0.15 and 1.2 m above the road is expected, for example cg-height:0.48m."},
		{float64(c.TorqueFront), 0, 1, "The front share of the torque lies between 0 and 100 %, for example torque-front:40%."},
	}
	for a, e := range c.Ends {
		end := Axle(a).String()
		bounds = append(bounds,
			bound{float64(e.Track), 0.8, 2.2, "A track between 0.8 and 2.2 m is expected, for example track-" + end + ":1.48m."},
			bound{float64(e.Spring), 5e3, 1e6, "A spring between 5 and 1000 N/mm is expected, for example spring-" + end + ":70N/mm."},
			bound{float64(e.MotionRatio), 0.2, 2, "A motion ratio (spring travel over wheel travel) between 0.2 and 2 is expected, for example ratio-" + end + ":0.95."},
			bound{float64(e.Unsprung), 5, 150, "An unsprung mass of one corner between 5 and 150 kg is expected, for example unsprung-" + end + ":36kg."},
			bound{float64(e.TyreRate), 5e4, 1e6, "A tyre rate between 50 and 1000 N/mm is expected, for example tyre-rate-" + end + ":210N/mm."})
		if e.Bar != nil && !(*e.Bar >= 0 && *e.Bar <= 1e6) {
			return Problemf(Invalid, "An anti-roll bar between 0 and 1000 N/mm at the wheel is expected, for example bar-%s:20N/mm.", end)
		}
	}
	for _, b := range bounds {
		if b.value != 0 && !(b.value >= b.low && b.value <= b.high) { // written so that NaN fails too
			return &Problem{Kind: Invalid, Say: b.say}
		}
	}
	if c.Mass > 0 && c.Ends[Front].Unsprung+c.Ends[Rear].Unsprung > c.Mass/5 {
		return Problemf(Invalid, "The unsprung masses are too large beside the mass of the car: give them for one corner, for example unsprung-front:36kg.")
	}
	return nil
}
