package cases

import (
	"detent/tuning/ride"
	"detent/tuning/unit"
)

// Quarter is the answer about one corner with a linear damper on a rough road.
type Quarter struct {
	Modes      QuarterModes `json:"modes"`
	RoadStep   StepFigures  `json:"road_step"`
	ForceStep  StepFigures  `json:"force_step"`
	RMS        RMS          `json:"rms"`
	TyreInBand float64      `json:"rms_tyre_iso_band"`
	BestTyre   float64      `json:"c_opt_tyre"`
	BestRatio  float64      `json:"zeta_opt_tyre"`
	TyreAtBest float64      `json:"rms_tyre_at_opt"`
	BestBody   float64      `json:"c_opt_acc"`
	// The tyre's unrest, if its relaxation length is given.
	Load *float64 `json:"load_variation,omitempty"` // variance of its load over the load at rest
	Lag  *float64 `json:"lag_loss,omitempty"`       // part of its mean side force lost to answering late
}

// QuarterModes are natural frequencies and damping ratios, exact and by the
// one-mass formulas.
type QuarterModes struct {
	Body       float64   `json:"f_body_undamped_hz"`
	Wheel      float64   `json:"f_wheel_undamped_hz"`
	EigenFreq  []float64 `json:"eig_wn_hz"`
	EigenRatio []float64 `json:"eig_zeta"`
	SimpleBody float64   `json:"f_simple_wheelrate_hz"`
	SimpleRide float64   `json:"f_simple_ride_hz"`
	SimpleHop  float64   `json:"f_simple_hop_hz"`
	Critical   float64   `json:"c_crit_simple"`
	RatioBody  float64   `json:"zeta_simple"`
	RatioRide  float64   `json:"zeta_simple_ride"`
	RatioHop   float64   `json:"zeta_hop_simple"`
}

// StepFigures tell how the body answers a step.
type StepFigures struct {
	Overshoot float64 `json:"overshoot"`
	Peak      float64 `json:"t_peak"`
	Settled   float64 `json:"t_settle_2pct"`
}

// RMS are standard deviations on the road.
type RMS struct {
	Acceleration float64 `json:"acc"`
	Travel       float64 `json:"travel"`
	Tyre         float64 `json:"tyre"`
	Intensity    float64 `json:"S"`
}

// quarterQuestion is a corner, its damping and its road.
type quarterQuestion struct {
	corner  ride.Corner
	damping unit.Damping
	road    ride.Road
	unrest  bool // the relaxation length is given
}

// readQuarter reads {ms, mu, ks, cs, kt, road_class or Gd, v} and, if given,
// relaxation. If both the class and the spectrum are given, the spectrum counts.
func readQuarter(question []byte) (quarterQuestion, error) {
	f, err := openQuestion(question)
	if err != nil {
		return quarterQuestion{}, err
	}
	q := quarterQuestion{
		corner: ride.Corner{
			Sprung:   unit.Mass(f.positive("ms")),
			Unsprung: unit.Mass(f.positive("mu")),
			Wheel:    unit.Stiffness(f.positive("ks")),
			Tyre:     unit.Stiffness(f.positive("kt")),
		},
		damping: unit.Damping(f.positive("cs")),
		road:    ride.Road{Speed: unit.Speed(f.positive("v"))},
	}
	if f.has("road_class") || !f.has("Gd") {
		f.word("road_class", "one letter from A to H", func(letter string) bool {
			q.road.Spectrum, err = ride.Class(letter)
			return err == nil
		})
	}
	if f.has("Gd") {
		q.road.Spectrum = ride.Spectrum(f.positive("Gd"))
	}
	if q.unrest = f.has("relaxation"); q.unrest {
		q.corner.Relaxation = readRelaxation(&f)
	}
	return q, f.problem()
}

// readRelaxation reads a tyre's relaxation length, 0 for one that answers at
// once.
func readRelaxation(f *fields) unit.Length {
	return unit.Length(f.between("relaxation", 0, longestRelaxation))
}

// longestRelaxation is far beyond any tyre's, in m.
const longestRelaxation = 100

func quarter(question []byte) (*Quarter, error) {
	q, err := readQuarter(question)
	if err != nil {
		return nil, err
	}
	var answer Quarter
	if answer.Modes, err = quarterModes(q.corner, q.damping); err != nil {
		return nil, err
	}
	if answer.RoadStep, err = stepFigures(q.corner.RoadStep(q.damping)); err != nil {
		return nil, err
	}
	if answer.ForceStep, err = stepFigures(q.corner.ForceStep(q.damping)); err != nil {
		return nil, err
	}
	return &answer, answer.onTheRoad(q)
}

func quarterModes(corner ride.Corner, damping unit.Damping) (QuarterModes, error) {
	frequencies, err := corner.Frequencies()
	if err != nil {
		return QuarterModes{}, err
	}
	critical, err := corner.Critical()
	if err != nil {
		return QuarterModes{}, err
	}
	simple, err := corner.SimpleRatios(damping)
	if err != nil {
		return QuarterModes{}, err
	}
	modes, err := corner.Modes(damping)
	if err != nil {
		return QuarterModes{}, err
	}
	answer := QuarterModes{
		Body:       float64(frequencies.Low),
		Wheel:      float64(frequencies.High),
		SimpleBody: float64(frequencies.Wheel),
		SimpleRide: float64(frequencies.Ride),
		SimpleHop:  float64(frequencies.Hop),
		Critical:   float64(critical),
		RatioBody:  float64(simple.Body),
		RatioRide:  float64(simple.Ride),
		RatioHop:   float64(simple.Hop),
	}
	for _, mode := range modes {
		answer.EigenFreq = append(answer.EigenFreq, float64(mode.Frequency))
		answer.EigenRatio = append(answer.EigenRatio, float64(mode.Ratio))
	}
	return answer, nil
}

func stepFigures(step ride.Step, err error) (StepFigures, error) {
	return StepFigures{float64(step.Overshoot), float64(step.Peak), float64(step.Settled)}, err
}

// onTheRoad adds the figures of rough ground and of the best damping for it.
func (answer *Quarter) onTheRoad(q quarterQuestion) error {
	response, err := q.corner.Response(q.damping, q.road)
	if err != nil {
		return err
	}
	band, err := q.corner.BandTyre(q.damping, q.road)
	if err != nil {
		return err
	}
	best, err := q.corner.Optimum()
	if err != nil {
		return err
	}
	ratios, err := q.corner.SimpleRatios(best.Tyre)
	if err != nil {
		return err
	}
	atBest, err := q.corner.Response(best.Tyre, q.road)
	if err != nil {
		return err
	}
	answer.RMS = RMS{
		Acceleration: float64(response.Acceleration),
		Travel:       float64(response.Travel),
		Tyre:         float64(response.Tyre),
		Intensity:    float64(response.Intensity),
	}
	answer.TyreInBand = float64(band)
	answer.BestTyre = float64(best.Tyre)
	answer.BestRatio = float64(ratios.Body)
	answer.TyreAtBest = float64(atBest.Tyre)
	answer.BestBody = float64(best.Acceleration)
	if !q.unrest {
		return nil
	}
	unrest, err := q.corner.Unrest(q.damping, q.road)
	answer.Load, answer.Lag = &unrest.Load, &unrest.Lag
	return err
}
