package tuning

import "detent/tuning/unit"

// torqueBias is the share of the torque from which a four-wheel-drive car is
// treated as driven more by one axle.
const torqueBias unit.Share = 0.60

// Baseline returns where to start: soft, because a car a little too soft is
// slow but readable, while one too stiff gives no warning and leaves no room
// for the simple remedies. Left and right are equal. It returns a Refusal when
// the dampers of an axle are not known.
// Common practice, no published source.
func Baseline(car Car, weather Weather, sizes Sizes) (Setting, error) {
	var s Setting
	if err := car.Fitted(); err != nil {
		return s, err
	}
	for axle := range Axle(Axles) {
		for _, m := range AxleStart(car, axle, weather, sizes) {
			s[m.Corner][m.Adjuster] = m.To
		}
	}
	return s, nil
}

// AxleStart returns where the dampers of one axle start, as moves from the
// unknown (From is -1).
func AxleStart(car Car, axle Axle, weather Weather, sizes Sizes) []Move {
	var start []Move
	for _, c := range axle.Corners() {
		for _, a := range car.Dampers[axle].Adjusters() {
			start = append(start, Move{c, a, -1, startPosition(car, axle, a, weather, sizes)})
		}
	}
	return start
}

// StartRule is a rule that shapes where a car starts, without the words for it.
type StartRule string

// The rules.
const (
	StartSoft       StartRule = "soft"        // just below the middle of each range
	StartDriven     StartRule = "driven"      // the driven axle a step softer
	StartMostTorque StartRule = "most torque" // of a four-wheel-driven car, the axle that gets most a click softer
	StartWet        StartRule = "wet"         // a step softer everywhere
	StartDownforce  StartRule = "downforce"   // slicks with it, a step stiffer everywhere
	StartRoad       StartRule = "road"        // bump a click softer
)

// StartReason is a rule that shaped a car's start, and the axle that it is about
// where it is about one.
type StartReason struct {
	Rule StartRule
	Axle Axle
}

// StartReasons lists the rules that shaped a car's start.
func StartReasons(car Car, weather Weather) []StartReason {
	reasons := []StartReason{{Rule: StartSoft}}
	for axle := range Axle(Axles) {
		switch {
		case car.Drive != FourDrive && car.Driven(axle):
			reasons = append(reasons, StartReason{StartDriven, axle})
		case car.Drive == FourDrive && torqueShare(car, axle) >= torqueBias:
			reasons = append(reasons, StartReason{StartMostTorque, axle})
		}
	}
	if weather == Wet {
		reasons = append(reasons, StartReason{Rule: StartWet})
	}
	if car.Tyre == Slick && car.Aero == HighAero {
		reasons = append(reasons, StartReason{Rule: StartDownforce})
	}
	if car.Use == RoadAndTrackUse {
		reasons = append(reasons, StartReason{Rule: StartRoad})
	}
	return reasons
}

// startPosition adds up the rules for one adjuster and holds the sum inside
// its range.
func startPosition(car Car, axle Axle, a Adjuster, weather Weather, sizes Sizes) int {
	damper := car.Dampers[axle]
	n := damper.Range[a]
	step := sizes.Step(n)
	position := belowMiddle(n)

	switch {
	case car.Drive != FourDrive && car.Driven(axle):
		position -= step // a softer driven axle finds grip
	case car.Drive == FourDrive && torqueShare(car, axle) >= torqueBias:
		position--
	}
	if weather == Wet {
		position -= step
	}
	if car.Tyre == Slick && car.Aero == HighAero {
		position = min(position+step, n/2+step)
	}
	if car.Use == RoadAndTrackUse && damper.MovesBump(a) {
		position--
	}
	return min(max(position, 0), n)
}

// belowMiddle is the highest whole click strictly below the middle of 0..n.
func belowMiddle(n int) int { return (n+1)/2 - 1 }

// torqueShare is the part of the torque that reaches the axle, 0 when unknown.
func torqueShare(car Car, axle Axle) unit.Share {
	switch {
	case car.TorqueFront == 0:
		return 0
	case axle == Front:
		return car.TorqueFront
	}
	return 1 - car.TorqueFront
}
