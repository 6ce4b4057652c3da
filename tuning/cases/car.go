package cases

import (
	"fmt"

	"detent/tuning/ride"
	"detent/tuning/transfer"
	"detent/tuning/unit"
)

// Car is the answer about the whole car in a manoeuvre. The lists hold one
// entry for each time asked for; loads are in the order FL, FR, RL, RR.
type Car struct {
	Static     [4]float64   `json:"static_loads"`
	Loads      [][4]float64 `json:"tyre_loads"`
	Heave      []float64    `json:"heave"`
	Pitch      []float64    `json:"pitch"`
	Roll       []float64    `json:"roll"`
	MovedFront []float64    `json:"LT_front"`
	MovedRear  []float64    `json:"LT_rear"`
	FrontShare []*float64   `json:"front_share"` // null while no load is moved
	Steady     [4]float64   `json:"steady_loads"`
}

// carQuestion is a car, what it does, and when it is looked at.
type carQuestion struct {
	car       transfer.Car
	manoeuvre transfer.Manoeuvre
	times     []unit.Seconds
}

func readCar(question []byte) (carQuestion, error) {
	f, err := openQuestion(question)
	if err != nil {
		return carQuestion{}, err
	}
	var q carQuestion
	f.within("parameters", func(f *fields) { q.car = readParameters(f) })
	q.manoeuvre = transfer.Manoeuvre{Lateral: readCourse(&f, "ay_points"), Longitudinal: readCourse(&f, "ax_points")}
	var times []float64
	if f.list("t", "a list of times", &times) {
		q.times = risingTimes(&f, times)
	}
	return q, f.problem()
}

// risingTimes reads the times asked for, which must rise from zero or more.
func risingTimes(f *fields, times []float64) (at []unit.Seconds) {
	if len(times) == 0 {
		f.complain("t", "is empty")
	}
	for i, t := range times {
		if t < 0 || t > 600 || i > 0 && t <= times[i-1] {
			f.complain(fmt.Sprintf("t[%d]", i), "must rise from 0 and end by 600 s, not %g", t)
		}
		at = append(at, unit.Seconds(t))
	}
	return at
}

// readCourse reads a list of [time, acceleration].
func readCourse(f *fields, name string) (course transfer.Course) {
	var points [][]float64
	if !f.list(name, "a list of [time, acceleration]", &points) {
		return nil
	}
	if len(points) == 0 {
		f.complain(name, "is empty")
	}
	for i, p := range points {
		switch entry := fmt.Sprintf("%s[%d]", name, i); {
		case len(p) != 2:
			f.complain(entry, "must be [time, acceleration]")
		case p[0] < 0 || p[0] > 600 || i > 0 && len(points[i-1]) == 2 && p[0] < points[i-1][0]:
			f.complain(entry, "must not go back in time, start before 0 or end after 600 s")
		case p[1] < -1000 || p[1] > 1000:
			f.complain(entry, "must be an acceleration from -1000 to 1000")
		default:
			course = append(course, transfer.Point{At: unit.Seconds(p[0]), Value: unit.Acceleration(p[1])})
		}
	}
	return course
}

func readParameters(f *fields) transfer.Car {
	car := transfer.Car{
		Sprung:         unit.Mass(f.positive("ms")),
		RollInertia:    unit.Inertia(f.positive("Ixx")),
		PitchInertia:   unit.Inertia(f.positive("Iyy")),
		Height:         unit.Length(f.positive("h_s")),
		UnsprungHeight: unit.Length(f.positive("h_u")),
		Front:          readAxle(f, "a", "f"),
		Rear:           readAxle(f, "b", "r"),
	}
	if f.has("gravity_roll") {
		car.Overturning = f.flag("gravity_roll")
	}
	return car
}

// readAxle reads the parameters of the axle whose names end in f or r.
func readAxle(f *fields, distance, end string) transfer.Axle {
	axle := transfer.Axle{
		Distance:   unit.Length(f.positive(distance)),
		Track:      unit.Length(f.positive("t" + end)),
		RollCentre: unit.Length(f.between("h_rc_"+end, -10, 10)),
		Unsprung:   unit.Mass(f.positive("mu" + end)),
		Wheel:      unit.Stiffness(f.positive("kw" + end)),
		Tyre:       unit.Stiffness(f.positive("kt" + end)),
		Bar:        unit.RollRate(f.notNegative("K_arb_" + end)),
	}
	f.within("d"+end, func(f *fields) { axle.Damper = readDamper(f) })
	if f.has("anti_" + end) {
		axle.Anti = unit.Share(f.between("anti_"+end, -2, 2))
	}
	return axle
}

// readDamper reads a damper of two slopes a side. A damper that cannot be made
// has been reported already, figure by figure.
func readDamper(f *fields) ride.Damper {
	side := func(name string) ride.Knee {
		return ride.Knee{
			Low:  unit.Damping(f.positive(name + "_lo")),
			High: unit.Damping(f.notNegative(name + "_hi")),
			At:   unit.Speed(f.positive(name + "_knee")),
		}
	}
	damper, err := ride.Kneed(side("bump"), side("reb"))
	if err != nil {
		return ride.Damper{}
	}
	return damper
}

func car(question []byte) (*Car, error) {
	q, err := readCar(question)
	if err != nil {
		return nil, err
	}
	static, err := q.car.StaticLoads()
	if err != nil {
		return nil, err
	}
	trace, err := q.car.Drive(q.manoeuvre, q.times)
	if err != nil {
		return nil, err
	}
	steady, err := q.car.Steady(q.manoeuvre.Lateral.End(), q.manoeuvre.Longitudinal.End())
	if err != nil {
		return nil, err
	}
	answer := &Car{Static: plain(static), Steady: plain(steady.Loads)}
	for _, m := range trace {
		answer.add(m)
	}
	return answer, nil
}

// add appends the state of the car at one time.
func (answer *Car) add(m transfer.Moment) {
	answer.Loads = append(answer.Loads, plain(m.Loads))
	answer.Heave = append(answer.Heave, float64(m.Heave))
	answer.Pitch = append(answer.Pitch, float64(m.Pitch))
	answer.Roll = append(answer.Roll, float64(m.Roll))
	answer.MovedFront = append(answer.MovedFront, float64(m.Moved(transfer.Front)))
	answer.MovedRear = append(answer.MovedRear, float64(m.Moved(transfer.Rear)))
	var share *float64
	if front, moved := m.FrontShare(); moved {
		share = (*float64)(&front)
	}
	answer.FrontShare = append(answer.FrontShare, share)
}

func plain(loads [4]unit.Force) (bare [4]float64) {
	for i, load := range loads {
		bare[i] = float64(load)
	}
	return bare
}
