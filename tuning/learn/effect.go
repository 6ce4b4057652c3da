package learn

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"detent/tuning"
)

// Effect is what a car has learned of a remedy, as the table writes it.
type Effect struct {
	Key       Key
	Complaint tuning.Complaint // of the remedy's row
	Learned
	Told Told // without turns where the car's dampers can no longer do it
}

// Effects lists what a car has learned, surest first. History is for the rules
// of the table that look back.
func (e Evidence) Effects(car tuning.Car, h tuning.History, sizes tuning.Sizes) []Effect {
	var effects []Effect
	for _, key := range slices.SortedFunc(maps.Keys(e.Own), compareKeys) {
		c := complaintOf(key)
		l := Knowledge{Car: car, Complaint: c, History: h, Sizes: sizes, Evidence: e}.Written(key)
		effects = append(effects, Effect{key, c, l, Tell(tuning.Written(car, c, key, sizes), l.Estimate, l.Own, l.Club)})
	}
	slices.SortStableFunc(effects, func(a, b Effect) int { return cmp.Compare(a.Estimate.Variance, b.Estimate.Variance) })
	return effects
}

// complaintOf is the complaint that a remedy answers, as far as its row tells.
func complaintOf(key Key) tuning.Complaint {
	c := tuning.Complaint{What: key.Row.What, Where: key.Row.Where}
	if axles := key.Part.Axles(); c.What.NeedsAxle() && len(axles) == 1 {
		c.Axle = &axles[0]
	}
	return c
}

func compareKeys(a, b Key) int {
	return cmp.Or(
		strings.Compare(string(a.Row.What), string(b.Row.What)), strings.Compare(string(a.Row.Where), string(b.Row.Where)),
		strings.Compare(string(a.Row.Drive), string(b.Row.Drive)), strings.Compare(string(a.Part), string(b.Part)),
		strings.Compare(string(a.Job), string(b.Job)), strings.Compare(string(a.Turn), string(b.Turn)))
}

// Together is what several cars know of a remedy.
type Together struct {
	Key       Key
	Complaint tuning.Complaint
	Tries     int
	Helped    int
	Club      ClubTries // zero where too few cars or people know it to say more
	Estimate  Estimate  // of those cars as a club
}

// TogetherOf adds up the tries of several cars by remedy, whatever their age.
// Those that helped most often come first.
func TogetherOf(tries []Try) []Together {
	byCar := map[Key]map[int64]CarTries{}
	for _, t := range tries {
		if byCar[t.Key] == nil {
			byCar[t.Key] = map[int64]CarTries{}
		}
		one := byCar[t.Key][t.Car]
		byCar[t.Key][t.Car] = CarTries{t.Owner, one.Sums.Add(t, 1)}
	}
	var all []Together
	for _, key := range slices.SortedFunc(maps.Keys(byCar), compareKeys) {
		sum := Together{Key: key, Complaint: complaintOf(key)}
		var cars []CarTries
		var sums []Sums
		for _, id := range slices.Sorted(maps.Keys(byCar[key])) {
			one := byCar[key][id]
			cars, sums = append(cars, one), append(sums, one.Sums)
			sum.Tries += one.Sums.Tries
			sum.Helped += one.Sums.Helped
		}
		club := ClubOf(false, sums)
		sum.Club, sum.Estimate = ClubTold("", cars), Estimate{club.Mean, 1 / club.Precision}
		all = append(all, sum)
	}
	slices.SortStableFunc(all, func(a, b Together) int { return b.Helped - a.Helped })
	return all
}
