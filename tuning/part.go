package tuning

// Part is which part of the car something belongs to. It is kept in the record
// by its word.
type Part string

// The parts of a car.
const (
	FrontPart Part = "front"
	RearPart  Part = "rear"
	WholeCar  Part = "whole"
)

// PartOf is the part that an axle is.
func PartOf(axle Axle) Part {
	if axle == Rear {
		return RearPart
	}
	return FrontPart
}

// Axles lists the axles of the part.
func (p Part) Axles() []Axle {
	switch p {
	case FrontPart:
		return []Axle{Front}
	case RearPart:
		return []Axle{Rear}
	}
	return []Axle{Front, Rear}
}
