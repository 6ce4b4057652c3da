package figures

import (
	"detent/tuning"
	"detent/tuning/unit"
)

// This file is the one table of what is assumed of a car that is not fully
// known. All of it is from memory of ordinary cars; none of it is a published
// figure. A member's own figure always takes the place of what stands here.

// Pairs of figures, front and rear.
type (
	lengths = [tuning.Axles]unit.Length
	ratios  = [tuning.Axles]unit.Ratio
	rates   = [tuning.Axles]unit.Stiffness
	shares  = [tuning.Axles]unit.Share
	hertz   = [tuning.Axles]unit.Frequency
)

// layout is an ordinary car with its engine in one place and one drive.
type layout struct {
	engine     tuning.Engine
	drive      tuning.Drive // "" for any
	mass       unit.Mass    // with driver, on road tyres
	frontShare unit.Share
	wheelbase  unit.Length
	track      lengths
	cgHeight   unit.Length
	ratio      ratios // spring travel over wheel travel
	bar        rates  // wheel force over the difference of wheel travels
	rollCentre lengths
	anti       shares // of the longitudinal load that goes through the links
}

// From memory, every value.
var layouts = []layout{
	//  engine and drive                    mass  share wheelbase    track           cg         ratio            bar, N/m        roll centre          anti
	{tuning.FrontEngine, tuning.FrontDrive, 1200, 0.61, 2.55, lengths{1.50, 1.48}, 0.53, ratios{0.95, 0.90}, rates{6e3, 8e3}, lengths{0.05, 0.12}, shares{0.04, 0.12}},
	{tuning.FrontEngine, tuning.RearDrive, 1350, 0.52, 2.60, lengths{1.50, 1.51}, 0.50, ratios{0.95, 0.85}, rates{9e3, 3e3}, lengths{0.05, 0.10}, shares{0.05, 0.20}},
	{tuning.FrontEngine, tuning.FourDrive, 1450, 0.57, 2.63, lengths{1.53, 1.53}, 0.53, ratios{0.95, 0.90}, rates{8e3, 6e3}, lengths{0.06, 0.11}, shares{0.05, 0.18}},
	{tuning.MidEngine, "", 1200, 0.43, 2.45, lengths{1.50, 1.52}, 0.46, ratios{0.90, 0.85}, rates{9e3, 6e3}, lengths{0.03, 0.06}, shares{0.05, 0.20}},
	{tuning.RearEngine, "", 1350, 0.39, 2.40, lengths{1.49, 1.53}, 0.48, ratios{0.95, 0.85}, rates{8e3, 5e3}, lengths{0.05, 0.09}, shares{0.08, 0.20}},
}

// class is what the rest of a car is like with a kind of tyre, and with real
// downforce.
type class struct {
	mass      unit.Ratio // times the layout's
	frequency hertz      // of the body on its wheel rates
	tyreRate  unit.Stiffness
}

// From memory, every value. For the tyre rates: the road tyre named below has
// 200 N/mm.
var (
	roadClass      = class{1.00, hertz{1.4, 1.6}, 210e3}
	semiSlickClass = class{0.95, hertz{1.9, 2.1}, 225e3}
	slickClass     = class{0.85, hertz{2.3, 2.5}, 235e3}
	downforceClass = class{0.80, hertz{3.2, 3.4}, 235e3}
)

// What is the same for all cars. From memory.
const (
	unsprungPart = 0.031             // one corner's unsprung mass over the car's mass
	wheelHeight  = unit.Length(0.30) // of the wheels' centres of gravity
	rollGyration = 0.42              // the body's radius of gyration in roll over the track
	pitchPart    = 0.95              // its squared radius of gyration in pitch over a·b
)

// The relaxation lengths of tyres, m. From memory: an open vehicle model of the
// Technical University of Munich (ADTM 1.4, S. Frank, parameters of a road tyre
// 215/55R18) has a cornering stiffness of 80 kN/rad at 3.5 kN over a lateral
// stiffness of 175 kN/m, which makes 0.46 m.
const (
	roadRelaxation  = unit.Length(0.35)
	slickRelaxation = unit.Length(0.30)
)

func relaxationOf(car tuning.Car) unit.Length {
	if car.Tyre == tuning.Slick {
		return slickRelaxation
	}
	return roadRelaxation
}

// layoutOf is the row of a car. A drive that the table does not have with the
// engine takes the first row of that engine.
func layoutOf(car tuning.Car) layout {
	first := -1
	for i, l := range layouts {
		switch {
		case l.engine != car.Engine:
		case l.drive == car.Drive || l.drive == "":
			return l
		case first < 0:
			first = i
		}
	}
	return layouts[max(first, 0)]
}

func classOf(car tuning.Car) class {
	switch {
	case car.Aero == tuning.HighAero:
		return downforceClass
	case car.Tyre == tuning.Slick:
		return slickClass
	case car.Tyre == tuning.SemiSlick:
		return semiSlickClass
	}
	return roadClass
}
