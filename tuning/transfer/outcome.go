package transfer

import (
	"cmp"

	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Figures are means over a stretch of a manoeuvre.
type Figures struct {
	Load     [2]unit.Force // of each axle
	Capacity [2]unit.Ratio // side force each axle could give, ΣY over its rest load
	Balance  unit.Ratio    // front capacity − rear; a fall is toward understeer
}

// Outcome is what a manoeuvre does to a car.
type Outcome struct {
	Phase   Phase
	Watch   Figures // over the whole 0.8 s
	Early   Figures // over the first 0.15 s
	Rolling Figures // until the roll turns round: while it builds or unwinds
	// FrontShare is the front's part of the load moved from side to side, mean
	// while rolling. Nothing is moved on the straight, and it is 0 there.
	FrontShare unit.Share
}

// Try takes a car through a phase of a corner.
func (c Car) Try(p Phase, grip Grip, driven Driven) (Outcome, error) {
	err := cmp.Or(c.Check(), unit.Between("grip", grip, 0.1, 10),
		unit.Between("phase", float64(p), float64(Entry), float64(Braking)))
	if err != nil {
		return Outcome{}, err
	}
	trace, err := c.drive(c.manoeuvre(p, grip, driven), sampleTimes(), longStep)
	if err != nil {
		return Outcome{}, err
	}
	static, rolling := c.staticLoads(), trace[:rolling(trace)]
	return Outcome{
		Phase:      p,
		Watch:      figures(trace, static),
		Early:      figures(trace[:int(early*samplesEach)+1], static),
		Rolling:    figures(rolling, static),
		FrontShare: frontShare(rolling),
	}, nil
}

func sampleTimes() []unit.Seconds {
	times := make([]unit.Seconds, int(watch*samplesEach)+1)
	for i := range times {
		times[i] = unit.Seconds(i) / samplesEach
	}
	return times
}

// figures takes the means over a trace of even spacing, by the trapezium rule.
func figures(trace []Moment, static [4]unit.Force) Figures {
	var f Figures
	for i, m := range trace {
		weight := 1 / float64(len(trace)-1)
		if i == 0 || i == len(trace)-1 {
			weight /= 2
		}
		for wheel, load := range m.Loads {
			f.Load[wheel/2] += unit.Force(weight) * load
			f.Capacity[wheel/2] += unit.Ratio(weight/2) * ride.SideForce(unit.Ratio(load/static[wheel]))
		}
	}
	f.Balance = f.Capacity[Front] - f.Capacity[Rear]
	return f
}

// rolling is the number of moments until the roll turns round.
func rolling(trace []Moment) int {
	for i := 2; i < len(trace); i++ {
		before, after := trace[i-1].Roll-trace[i-2].Roll, trace[i].Roll-trace[i-1].Roll
		if before*after < 0 {
			return i
		}
	}
	return len(trace)
}

// frontShare is the mean over the moments in which there is a share.
func frontShare(trace []Moment) unit.Share {
	var sum unit.Share
	count := 0
	for _, m := range trace {
		if share, moved := m.FrontShare(); moved {
			sum += share
			count++
		}
	}
	return sum / unit.Share(max(count, 1))
}
