package learn

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

var now = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)

func mark(v int) *int { return &v }

// answered is a try of an understeer remedy, some days ago; a zero pair of marks
// is not said.
func answered(days, fraction float64, better tuning.Better, marks ...int) Try {
	var before, after tuning.Feel
	if len(marks) == 2 {
		before.Entry, after.Entry = mark(marks[0]), mark(marks[1])
	}
	after.Better = better
	reading, ok := readFeels(tuning.Complaint{What: tuning.Understeer}, &before, after)
	if !ok {
		panic("a try without evidence")
	}
	return Try{At: now.Add(-time.Duration(days * 24 * float64(time.Hour))), Fraction: fraction, Reading: reading}
}

// The worked figures were made with an independent program by the same model,
// and are no published source.
func TestWorkedFigures(t *testing.T) {
	const tolerance = 1e-12
	t.Run("nothing tried", func(t *testing.T) {
		e := EstimateOf(Sums{}, ClubOf(true, nil))
		low, high := e.Interval90()
		tuningtest.Within(t, "mean", e.Mean, 0.5, tolerance)
		tuningtest.Within(t, "variance", e.Variance, 0.265, tolerance)
		tuningtest.Within(t, "low", low, -0.346740228957668, tolerance)
		tuningtest.Within(t, "high", high, 1.34674022895767, tolerance)
	})
	t.Run("five tries and two other cars", func(t *testing.T) {
		tries, clubTries := fiveTries()
		own, others := sumOf(tries), sumsOf(clubTries)
		tuningtest.Within(t, "A", own.A, 5.83327599836273, tolerance)
		tuningtest.Within(t, "B", own.B, 4.18724925387426, tolerance)
		tuningtest.Within(t, "A of the first other", others[0].A, 2.51396947480550, tolerance)
		tuningtest.Within(t, "B of the first other", others[0].B, 1.52432495858165, tolerance)
		tuningtest.Within(t, "A of the second other", others[1].A, 0.545104914805004, tolerance)
		tuningtest.Within(t, "B of the second other", others[1].B, -0.735891634986755, tolerance)
		club := ClubOf(true, others)
		tuningtest.Within(t, "m", club.Mean, 0.459737446495999, tolerance)
		tuningtest.Within(t, "P", club.Precision, 18.1568125248233, tolerance)
		e := EstimateOf(own, club)
		low, high := e.Interval90()
		tuningtest.Within(t, "mean", e.Mean, 0.614691266231586, tolerance)
		tuningtest.Within(t, "variance", e.Variance, 0.102926942631305, tolerance)
		tuningtest.Within(t, "low", low, 0.0869855566867858, tolerance)
		tuningtest.Within(t, "high", high, 1.14239697577639, tolerance)
		if own.Tries != 5 || own.Helped != 4 {
			t.Errorf("helped %d of %d, want 4 of 5", own.Helped, own.Tries)
		}
	})
	t.Run("the second comes first", func(t *testing.T) {
		firstTries, secondTries := firstAndSecond()
		first, second := sumOf(firstTries), sumOf(secondTries)
		tuningtest.Within(t, "A of the first", first.A, 3.75, tolerance)
		tuningtest.Within(t, "B of the first", first.B, -1.77083333333333, tolerance)
		tuningtest.Within(t, "A of the second", second.A, 0.370370370370370, tolerance)
		tuningtest.Within(t, "B of the second", second.B, 1.05555555555556, tolerance)
		a, b := EstimateOf(first, ClubOf(true, nil)), EstimateOf(second, ClubOf(false, nil))
		tuningtest.Within(t, "mean of the first", a.Mean, 0.0154127481713688, tolerance)
		tuningtest.Within(t, "variance of the first", a.Variance, 0.132915360501567, tolerance)
		tuningtest.Within(t, "mean of the second", b.Mean, 0.527908937605396, tolerance)
		tuningtest.Within(t, "variance of the second", b.Variance, 0.241315345699831, tolerance)
		tuningtest.Within(t, "second the better", b.BetterThan(a), 0.798917956007954, tolerance)
		if got := Order([]Candidate{{Estimate: a}, {Estimate: b}}, first.Tries+second.Tries); !slices.Equal(got, []int{1, 0}) {
			t.Errorf("the order is %v", got)
		}
	})
}

// weighed is a try with the weight that its age and the refits since leave it.
type weighed struct {
	Try
	weight float64
}

func at(now time.Time, tries ...Try) []weighed {
	var all []weighed
	for _, t := range tries {
		all = append(all, weighed{t, t.Weight(now, nil)})
	}
	return all
}

func sumOf(tries []weighed) (s Sums) {
	for _, t := range tries {
		s = s.Add(t.Try, t.weight)
	}
	return s
}

func sumsOf(cars [][]weighed) (all []Sums) {
	for _, c := range cars {
		all = append(all, sumOf(c))
	}
	return all
}

func fiveTries() (own []weighed, others [][]weighed) {
	own = at(now, answered(0, 1, tuning.BetterYes), answered(7, 1, tuning.BetterYes), answered(30, 1, tuning.BetterSame),
		answered(60, 1, tuning.BetterYes), answered(90, 1, tuning.BetterYes))
	return own, [][]weighed{
		at(now, answered(20, 1, tuning.BetterYes, -2, -1), answered(50, 1, "", -2, -2)),
		at(now, answered(10, 2.0/3, tuning.BetterNo)),
	}
}

// firstAndSecond are the tries of the third worked figure; the last of the
// first remedy came before a change of tyres.
func firstAndSecond() (first, second []weighed) {
	first = at(now, answered(0, 1, tuning.BetterNo, -2, -3), answered(0, 1, tuning.BetterSame, -2, -2), answered(0, 1, tuning.BetterNo, -2, -2))
	first[2].weight = 0.25
	return first, at(now, answered(0, 1.0/3, tuning.BetterYes, -2, -1), answered(0, 1.0/3, tuning.BetterYes, -2, -1))
}

// The closed form is held against the integral that it solves, over the club's
// β and every car's.
func TestPosteriorIsTheIntegral(t *testing.T) {
	own, others := fiveTries()
	first, second := firstAndSecond()
	type situation struct {
		first  bool
		own    []weighed
		others [][]weighed
	}
	cases := []situation{{true, nil, nil}, {true, own, others}, {true, first, nil}, {false, second, nil}}
	random := rand.New(rand.NewPCG(13, 13))
	for range 12 {
		s := situation{first: random.IntN(2) == 0, own: randomTries(random)}
		for range random.IntN(5) {
			s.others = append(s.others, randomTries(random))
		}
		cases = append(cases, s)
	}
	for _, c := range cases {
		got := EstimateOf(sumOf(c.own), ClubOf(c.first, sumsOf(c.others)))
		mean, variance := integrated(c.first, c.own, c.others)
		tuningtest.Within(t, "mean", got.Mean, mean, 1e-9)
		tuningtest.Within(t, "variance", got.Variance, variance, 1e-9)
	}
}

func randomTries(random *rand.Rand) (tries []weighed) {
	for range random.IntN(6) {
		better := []tuning.Better{tuning.BetterYes, tuning.BetterSame, tuning.BetterNo}[random.IntN(3)]
		tries = append(tries, weighed{answered(0, 0.2+2*random.Float64(), better, -2, random.IntN(6)-3), random.Float64()})
	}
	return tries
}

// integrated is the posterior's mean and variance by the trapezium rule, which
// on a normal density that is nothing at both ends of the grid is exact to
// rounding. A try's likelihood is written out as the model says it.
func integrated(first bool, own []weighed, others [][]weighed) (mean, variance float64) {
	const points, reach = 121, 9.0
	mean0 := 0.3
	if first {
		mean0 = 0.5
	}
	likelihood := func(tries []weighed, beta float64) (log float64) {
		for _, t := range tries {
			off := t.Moved - t.Fraction*beta
			log -= off * off * t.weight / (2 * t.Variance)
		}
		return log
	}
	normal := func(x, mean, dev float64) float64 { return -0.5 * (x - mean) * (x - mean) / (dev * dev) }
	grid := func(centre, dev float64, f func(x float64)) {
		for i := range points {
			f(centre + dev*reach*(2*float64(i)/(points-1)-1))
		}
	}
	var total, sum, squares float64
	grid(mean0, 0.25, func(club float64) {
		weight := math.Exp(normal(club, mean0, 0.25))
		for _, o := range others {
			inner := 0.0
			grid(club, 0.45, func(beta float64) { inner += math.Exp(normal(beta, club, 0.45) + likelihood(o, beta)) })
			weight *= inner
		}
		grid(club, 0.45, func(beta float64) {
			p := weight * math.Exp(normal(beta, club, 0.45)+likelihood(own, beta))
			total, sum, squares = total+p, sum+p*beta, squares+p*beta*beta
		})
	})
	mean = sum / total
	return mean, squares/total - mean*mean
}
