package learn

// CarVariance is τ_c², the variance between cars of a club. It eases the sums of
// each other car: however much a car knows, it tells mostly of itself.
const CarVariance = carDev * carDev

// Others is what the other cars of a club know of a remedy, added up. The zero
// Others are none.
type Others struct {
	A float64 // Σ A/(1 + τ_c²·A) over the cars, 1/marks²
	B float64 // Σ B/(1 + τ_c²·A), 1/marks

	Cars      int // how many have tries
	Tries     int
	Helped    int
	Strangers int // how many of the cars belong to other people than the owner of the car at hand
	People    int // how many people those are
}

// OthersOf adds up the other cars of a club beside one of the owner's.
func OthersOf(owner string, cars []CarTries) Others {
	var all Others
	people := map[string]bool{}
	for _, c := range cars {
		if c.Sums.Tries == 0 {
			continue
		}
		all = all.add(c.Sums)
		if c.Owner != owner {
			all.Strangers++
			people[c.Owner] = true
		}
	}
	all.People = len(people)
	return all
}

func (o Others) add(s Sums) Others {
	known := 1 + CarVariance*s.A
	o.A += s.A / known
	o.B += s.B / known
	o.Cars++
	o.Tries += s.Tries
	o.Helped += s.Helped
	return o
}

// Club is what the table and the other cars say of a remedy. First tells whether
// the rules of the table put it first on the car at hand.
func (o Others) Club(first bool) Club {
	mean := otherMean
	if first {
		mean = firstMean
	}
	const table = 1 / (clubDev * clubDev)
	precision := table + o.A
	return Club{Mean: (mean*table + o.B) / precision, Precision: precision}
}

// Told is what may be said of the other cars: nothing unless three cars of three
// people other than the owner know the remedy, so that nobody's answers can be
// told from it.
func (o Others) Told() ClubTries {
	if o.Strangers < clubCars || o.People < clubCars {
		return ClubTries{}
	}
	return ClubTries{Cars: o.Cars, Tries: o.Tries, Helped: o.Helped}
}
