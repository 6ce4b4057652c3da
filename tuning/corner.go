package tuning

// Axle is one end of the car. It indexes arrays of length Axles.
type Axle int

// The two axles.
const (
	Front Axle = iota
	Rear

	Axles = 2
)

func (a Axle) String() string { return [...]string{"front", "rear"}[a] }

// Corners returns the left and the right corner of the axle.
func (a Axle) Corners() [2]Corner { return [...][2]Corner{{FL, FR}, {RL, RR}}[a] }

// Corner is one wheel station, left and right as seen from the driver's seat.
// It indexes arrays of length Corners, in the order FL FR RL RR.
type Corner int

// The four corners.
const (
	FL Corner = iota
	FR
	RL
	RR

	Corners = 4
)

func (c Corner) String() string { return [...]string{"FL", "FR", "RL", "RR"}[c] }

// Axle returns the end of the car that the corner belongs to.
func (c Corner) Axle() Axle { return Axle(c / 2) }

// CornersAt returns the corners meant by FL, FR, RL, RR, front, rear or all.
// ok is false for any other word.
func CornersAt(word string) (corners []Corner, ok bool) {
	switch word {
	case "FL":
		return []Corner{FL}, true
	case "FR":
		return []Corner{FR}, true
	case "RL":
		return []Corner{RL}, true
	case "RR":
		return []Corner{RR}, true
	case "front":
		return []Corner{FL, FR}, true
	case "rear":
		return []Corner{RL, RR}, true
	case "all":
		return []Corner{FL, FR, RL, RR}, true
	}
	return nil, false
}
