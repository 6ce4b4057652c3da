// Package figures puts a member's car into the vehicle model's figures. What is
// not known of the car is assumed of an ordinary one of its layout and class,
// from the one table in ordinary.go, and every assumption is told.
//
// The model answers what the conversation asks of it: natural frequencies,
// damping ratios click by click, where the window of an axle lies, how far front
// and rear are apart, and what a remedy does. It returns facts and no sentences,
// and it is pure. A question that it cannot answer gets a Refusal, never NaN or
// infinity.
package figures

import (
	"detent/tuning"
	"detent/tuning/ride"
	"detent/tuning/transfer"
	"detent/tuning/unit"
)

// Clicks are where the adjusters of one axle stand, in clicks from full soft.
type Clicks = [tuning.Adjusters]int

// Model is one car in the model's figures.
type Model struct {
	car     tuning.Car // with every gap filled
	typical layout
	corners [tuning.Axles]ride.Corner
	tables  [tuning.Axles]*ride.Table // nil for the nominal damper
	assumed []figure
}

// Of returns the model of a car. It returns a Refusal when the car's figures
// cannot belong to a car, or a force table cannot be used. The dampers need not
// be known yet: only answers about them need them.
func Of(car tuning.Car) (Model, error) {
	if err := car.Validate(); err != nil {
		return Model{}, err
	}
	m := Model{car: car, typical: layoutOf(car)}
	m.assumed = fill(&m.car)
	for axle := range tuning.Axle(tuning.Axles) {
		corner, err := cornerOf(m.car, axle)
		if err != nil {
			return Model{}, err
		}
		m.corners[axle] = corner
		if curve := car.Curves[axle]; curve != nil {
			table, err := tableOf(curve)
			if err != nil {
				return Model{}, cannotAt(axle, err, UseTable)
			}
			m.tables[axle] = &table
		}
	}
	return m, nil
}

// cornerOf is one wheel of the axle with the part of the body on it:
// m_s = (mass·share)/2 − m_u, k_w = k_s·MR².
func cornerOf(car tuning.Car, axle tuning.Axle) (ride.Corner, error) {
	end := car.Ends[axle]
	share := car.FrontShare
	if axle == tuning.Rear {
		share = 1 - share
	}
	sprung := car.Mass*unit.Mass(share)/2 - end.Unsprung
	if sprung <= 0 {
		return ride.Corner{}, HeavyWheels{axle}
	}
	wheel, err := ride.WheelRate(end.Spring, end.MotionRatio)
	if err != nil {
		return ride.Corner{}, cannot(err, AnswerForCar)
	}
	corner := ride.Corner{Sprung: sprung, Unsprung: end.Unsprung, Wheel: wheel, Tyre: end.TyreRate, Relaxation: relaxationOf(car)}
	return corner, cannot(corner.Check(), AnswerForCar)
}

// ClicksOf is where the axle stands. The model's car is alike left and right;
// where the real one is not, it stands half way between them.
func ClicksOf(at tuning.Setting, axle tuning.Axle) Clicks {
	left, right := at[axle.Corners()[0]], at[axle.Corners()[1]]
	for a := range left {
		left[a] = (left[a] + right[a]) / 2
	}
	return left
}

// Frequencies are the natural frequencies of the axle's corners.
func (m Model) Frequencies(axle tuning.Axle) (ride.Frequencies, error) {
	f, err := m.corners[axle].Frequencies()
	return f, cannot(err, AnswerForCar)
}

// wholeCar is the whole car with its dampers at a setting.
func (m Model) wholeCar(at tuning.Setting) (transfer.Car, error) {
	var dampers [tuning.Axles]ride.Damper
	for axle := range tuning.Axle(tuning.Axles) {
		var err error
		if dampers[axle], err = m.Damper(axle, ClicksOf(at, axle)); err != nil {
			return transfer.Car{}, err
		}
	}
	return m.wholeCarOn(dampers), nil
}

// wholeCarOn is the whole car on the given dampers, which stand at the wheel. The
// height the member gives is the whole car's, and the body's follows from it:
// h_s = (m·h − m_u·h_u)/m_s.
func (m Model) wholeCarOn(dampers [tuning.Axles]ride.Damper) transfer.Car {
	front, rear := m.corners[tuning.Front], m.corners[tuning.Rear]
	body := 2 * (front.Sprung + rear.Sprung)
	wheels := 2 * (front.Unsprung + rear.Unsprung)
	carried := unit.Length(2 * front.Sprung / body) // b/L
	car := transfer.Car{
		Sprung:         body,
		Height:         (unit.Length(m.car.Mass)*m.car.CGHeight - unit.Length(wheels)*wheelHeight) / unit.Length(body),
		UnsprungHeight: wheelHeight,
		Front:          m.axle(tuning.Front, dampers[tuning.Front], m.car.Wheelbase*(1-carried)),
		Rear:           m.axle(tuning.Rear, dampers[tuning.Rear], m.car.Wheelbase*carried),
	}
	track := (car.Front.Track + car.Rear.Track) / 2
	car.RollInertia = unit.Inertia(body) * unit.Inertia(rollGyration*track*rollGyration*track)
	car.PitchInertia = unit.Inertia(body) * unit.Inertia(pitchPart*car.Front.Distance*car.Rear.Distance)
	return car
}

// axle is one axle of the whole car. A bar is given as wheel force over the
// difference of wheel travels, which is its roll stiffness over t².
func (m Model) axle(axle tuning.Axle, damper ride.Damper, distance unit.Length) transfer.Axle {
	end, corner := m.car.Ends[axle], m.corners[axle]
	return transfer.Axle{
		Distance:   distance,
		Track:      end.Track,
		RollCentre: m.typical.rollCentre[axle],
		Unsprung:   corner.Unsprung,
		Wheel:      corner.Wheel,
		Tyre:       corner.Tyre,
		Bar:        unit.RollRate(*end.Bar) * unit.RollRate(end.Track*end.Track),
		Damper:     damper,
		Anti:       m.typical.anti[axle],
	}
}

// grip is how hard the car's tyres let it corner.
func (m Model) grip() transfer.Grip {
	switch m.car.Tyre {
	case tuning.Slick:
		return transfer.Slick
	case tuning.SemiSlick:
		return transfer.SemiSlick
	}
	return transfer.RoadTyre
}

// driven is which wheels the engine turns.
func (m Model) driven() transfer.Driven {
	switch m.car.Drive {
	case tuning.FrontDrive:
		return transfer.FrontDriven
	case tuning.FourDrive:
		return transfer.AllDriven
	}
	return transfer.RearDriven
}
