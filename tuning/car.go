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

// The kinds of weather. Damp counts as wet. Either is only for what is to come,
// where nobody can tell.
const (
	Dry    Weather = "dry"
	Wet    Weather = "wet"
	Either Weather = "either"
)

// Known is the weather where it is one, and "" where nobody can tell.
func (w Weather) Known() Weather {
	if w == Either {
		return ""
	}
	return w
}

// Surface is how rough a track is.
type Surface string

// The kinds of surface.
const (
	Smooth Surface = "smooth"
	Bumpy  Surface = "bumpy"
	Rough  Surface = "rough"
)

// Car is a member's car as far as it is known. A zero quantity is unknown.
type Car struct {
	ID          int64
	Owner       string // the person
	Name        string
	Main        bool // the car that is meant when none is named
	Retired     bool
	Drive       Drive
	Engine      Engine
	Tyre        Tyre
	Aero        Aero
	Use         Use
	TorqueFront unit.Share // four-wheel drive: the front axle's part of the torque
	Mass        unit.Mass  // the whole car with driver
	FrontShare  unit.Share // the front axle's part of the weight
	Wheelbase   unit.Length
	CGHeight    unit.Length
	Ends        [Axles]End
	Dampers     [Axles]Damper
	Curves      [Axles]*ForceTable // nil where no force table was given
}

// MaxName is the longest name of a car or an event, in characters.
const MaxName = 60

// CheckName returns the name without surrounding space, or a Refusal when it
// is empty, too long, or holds characters that do not print or that reorder
// the text around them.
func CheckName(name string) (string, error) {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		return "", NoName
	}
	if n := utf8.RuneCountInString(name); n > MaxName {
		return "", NameTooLong{n}
	}
	for _, r := range name {
		if !unicode.IsPrint(r) && r != '\u200d' && r != '\ufe0f' { // the joiners that emoji are made with
			return "", UnprintableName
		}
	}
	return name, nil
}

// Fitted returns Unfitted when a damper is missing on either axle.
func (c Car) Fitted() error {
	for a := range Axle(Axles) {
		if !c.Dampers[a].Fitted() {
			return Unfitted{c.Name, a}
		}
	}
	return nil
}

// Driven tells whether the engine turns the axle.
func (c Car) Driven(a Axle) bool {
	return c.Drive == FourDrive || (c.Drive == FrontDrive) == (a == Front)
}

// Validate returns a Refusal for the first figure that no car could have.
func (c Car) Validate() error {
	for _, f := range Figures {
		if err := f.check(c); err != nil {
			return err
		}
	}
	if c.Mass > 0 && c.Ends[Front].Unsprung+c.Ends[Rear].Unsprung > c.Mass/5 {
		return UnsprungTooMuch
	}
	return nil
}
