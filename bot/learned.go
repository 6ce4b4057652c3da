package bot

import "detent/tuning/learn"

// Learned is what the record says a remedy does on the car, in marks of balance
// or half marks of grip the wanted way, as it is turned now.
type Learned struct {
	Mean     float64 `json:"mean"`
	SD       float64 `json:"sd"`
	Low      float64 `json:"low"` // of the interval where it lies nine times in ten
	High     float64 `json:"high"`
	Tries    int     `json:"tries"`     // answered on the car
	Better   int     `json:"better"`    // of those that helped
	ClubCars int     `json:"club_cars"` // other cars of the club that know it, 0 where those are too few to tell
}

// LearnedOf puts what is known of a remedy into the form of the contract.
func LearnedOf(l learn.Learned) *Learned {
	low, high := l.Estimate.Interval90()
	return &Learned{Mean: l.Estimate.Mean, SD: l.Estimate.Deviation(), Low: low, High: high,
		Tries: l.Own.Tries, Better: l.Own.Helped, ClubCars: l.Club.Cars}
}
