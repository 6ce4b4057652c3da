package learn

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"detent/tuning"
)

// The simulated seasons: clubs of drivers who take one remedy after another and
// answer with noise. Cars and clubs differ as the estimate assumes, and the
// drivers' answers are rounded, partly missing and noisy, which it does not
// know. All of it is invented.
const (
	clubs    = 20
	drivers  = 30
	triesOf  = 24
	seasonIn = 200 * 24 * time.Hour
)

// simRows are the complaints of a season, each with two remedies.
var simRows = []tuning.Complaint{
	{What: tuning.Understeer, Where: tuning.Entry}, {What: tuning.Oversteer, Where: tuning.Entry}, {What: tuning.Oversteer, Where: tuning.Exit},
}

// truth is what the remedies of a row do on one car.
type truth [2]float64

// policy picks a remedy for a row on a car, 0 or 1, from what was answered up to
// the round before.
type policy func(s *season, car, row int) int

// season is one club's year under one policy.
type season struct {
	truths [drivers][]truth
	tries  [drivers][]Try
	sums   [drivers][][2]Sums // of each row's remedies, as they weigh at the round that is driven
	lost   float64            // marks against the better remedy, all tries together

	inside, judged int // 90 % intervals that hold the truth, of all that were said
}

// keyOf tells the two remedies of a row apart.
func keyOf(row, remedy int) Key {
	return Key{Row: tuning.RowKey{What: simRows[row].What, Where: simRows[row].Where}, Part: []tuning.Part{tuning.FrontPart, tuning.RearPart}[remedy]}
}

func newSeason(random *rand.Rand) *season {
	var s season
	for range simRows {
		var club truth
		for remedy, mean := range []float64{0.5, 0.3} {
			club[remedy] = mean + 0.25*random.NormFloat64()
		}
		for car := range s.truths {
			s.truths[car] = append(s.truths[car], truth{club[0] + 0.45*random.NormFloat64(), club[1] + 0.45*random.NormFloat64()})
		}
	}
	return &s
}

// play drives the season in rounds, each driver once a round.
func play(seed uint64, choose policy) *season {
	s := newSeason(rand.New(rand.NewPCG(seed, 1)))
	random := rand.New(rand.NewPCG(seed, 2))
	for round := range time.Duration(triesOf) {
		at := now.Add(-seasonIn + seasonIn*round/triesOf)
		for car := range drivers {
			sums := SumsOf(s.tries[car], nil, at)
			s.sums[car] = nil
			for row := range simRows {
				s.sums[car] = append(s.sums[car], [2]Sums{sums[keyOf(row, 0)], sums[keyOf(row, 1)]})
			}
		}
		for car := range drivers {
			row := random.IntN(len(simRows))
			remedy := choose(s, car, row)
			real := s.truths[car][row]
			s.lost += max(real[0], real[1]) - real[remedy]
			if reading, ok := answerOf(random, simRows[row], real[remedy]); ok {
				s.tries[car] = append(s.tries[car], Try{Car: int64(car), Key: keyOf(row, remedy), At: at, Fraction: 1, Reading: reading})
			}
		}
	}
	return s
}

// answerOf is what a driver says of a remedy that does so much, read as the
// record reads it. The draws do not depend on what it does.
func answerOf(random *rand.Rand, c tuning.Complaint, does float64) (Reading, bool) {
	stood := 1 + 2*random.Float64()
	noise := [3]float64{0.65 * random.NormFloat64(), 0.65 * random.NormFloat64(), 0.8 * random.NormFloat64()}
	says := random.Float64()
	sign := -1.0
	if c.What == tuning.Oversteer {
		sign = 1
	}
	marked := func(v float64) tuning.Feel {
		m := mark(int(min(3, max(-3, math.Round(sign*v)))))
		return tuning.Feel{Entry: m, Exit: m}
	}
	before, after := marked(stood+noise[0]), marked(stood-does+noise[1])
	switch felt := does + noise[2]; {
	case felt > 0.45:
		after.Better = tuning.BetterYes
	case felt < -0.45:
		after.Better = tuning.BetterNo
	default:
		after.Better = tuning.BetterSame
	}
	switch {
	case says < 0.45: // only the words
		return readFeels(c, nil, after)
	case says < 0.65: // only the marks
		after.Better = ""
	case says > 0.95: // nothing
		return Reading{}, false
	}
	return readFeels(c, &before, after)
}

// tableAlone always takes the first remedy.
func tableAlone(*season, int, int) int { return 0 }

// tableTwice leaves a remedy after two tries of it in a row without a gain.
func tableTwice(s *season, car, row int) int {
	take, without := 0, 0
	for _, t := range s.tries[car] {
		if t.Key != keyOf(row, take) {
			continue
		}
		if t.Helped {
			without = 0
			continue
		}
		if without++; without == 2 {
			take, without = 1-take, 0
		}
	}
	return take
}

// learned takes what the record puts first, and checks the intervals that it
// gives.
func learned(s *season, car, row int) int {
	var candidates []Candidate
	answered := 0
	for remedy := range len(truth{}) {
		own := s.sums[car][row][remedy]
		var others []Sums
		for other := range drivers {
			if other != car {
				others = append(others, s.sums[other][row][remedy])
			}
		}
		estimate := EstimateOf(own, ClubOf(remedy == 0, others))
		low, high := estimate.Interval90()
		if real := s.truths[car][row][remedy]; real >= low && real <= high {
			s.inside++
		}
		s.judged++
		answered += own.Tries
		candidates = append(candidates, Candidate{estimate, own.Worse})
	}
	return Order(candidates, answered)[0]
}

func TestLearningBeatsTheTable(t *testing.T) {
	begun := time.Now()
	lost := func(choose policy) (each []float64, inside, judged int) {
		for seed := range uint64(clubs) {
			s := play(seed, choose)
			each = append(each, s.lost/(drivers*triesOf))
			inside, judged = inside+s.inside, judged+s.judged
		}
		return each, inside, judged
	}
	mean := func(each []float64) (sum float64) {
		for _, v := range each {
			sum += v
		}
		return sum / float64(len(each))
	}
	alone, _, _ := lost(tableAlone)
	twice, _, _ := lost(tableTwice)
	record, inside, judged := lost(learned)
	covered := float64(inside) / float64(judged)
	wins := 0
	for i := range record {
		if record[i] < min(alone[i], twice[i]) {
			wins++
		}
	}
	t.Logf("marks lost per try: table alone %.3f, with the two-tries rule %.3f, learning %.3f (better in %d clubs of %d, worst %.3f); 90 %% intervals hold %.1f %%; %v",
		mean(alone), mean(twice), mean(record), wins, clubs, slices.Max(record), 100*covered, time.Since(begun).Round(time.Millisecond))
	if best := min(mean(alone), mean(twice)); mean(record) >= best {
		t.Errorf("learning loses %.3f marks a try, the table %.3f", mean(record), best)
	}
	if covered < 0.85 || covered > 0.99 {
		t.Errorf("90 %% intervals hold %.1f %%", 100*covered)
	}
}

// BenchmarkOrder orders two remedies of a car in a club of 200 cars with ten
// tries each, everything added up anew.
func BenchmarkOrder(b *testing.B) {
	random := rand.New(rand.NewPCG(1, 1))
	cars := make([][]Try, 200)
	for car := range cars {
		for n := range 10 {
			if reading, ok := answerOf(random, simRows[0], 0.4); ok {
				cars[car] = append(cars[car], Try{Car: int64(car), Key: keyOf(0, n%2), At: now.Add(-time.Duration(n) * time.Hour), Fraction: 1, Reading: reading})
			}
		}
	}
	for b.Loop() {
		var others [2][]Sums
		for _, tries := range cars[1:] {
			sums := SumsOf(tries, nil, now)
			for remedy := range others {
				others[remedy] = append(others[remedy], sums[keyOf(0, remedy)])
			}
		}
		own := SumsOf(cars[0], nil, now)
		var candidates []Candidate
		for remedy := range others {
			candidates = append(candidates, Candidate{Estimate: EstimateOf(own[keyOf(0, remedy)], ClubOf(remedy == 0, others[remedy]))})
		}
		if len(Order(candidates, 10)) != 2 {
			b.Fatal("no order")
		}
	}
}

// BenchmarkTries reads a record of 1,000 entries.
func BenchmarkTries(b *testing.B) {
	var entries []Entry
	for n := range int64(500) {
		entries = append(entries, remedy(2*n+1), yes(2*n+2))
	}
	record := Record{Car: hatch, Sizes: tuning.DefaultSizes, Entries: entries}
	for b.Loop() {
		if len(record.Tries()) != 500 {
			b.Fatal("tries are missing")
		}
	}
}
