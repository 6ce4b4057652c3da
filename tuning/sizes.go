package tuning

// Sizes are how far a club turns an adjuster at a time. The zero Sizes is not
// usable: start from DefaultSizes.
type Sizes struct {
	StepFew     int // clicks in one step of an adjuster of up to 12 clicks
	StepSome    int // of 13 to 19 clicks
	StepMany    int // of 20 clicks and more
	Slight      int // a slight step, whatever the adjuster
	BackOffFew  int // back-off after the grip search went too far, up to 12 clicks
	BackOffMany int // the same from 13 clicks
}

// DefaultSizes are the sizes in common use: 1, 2 or 3 clicks a step by the
// adjuster's range, 1 for a slight step, and 1 or 2 to back off.
// Common practice, no published source.
var DefaultSizes = Sizes{StepFew: 1, StepSome: 2, StepMany: 3, Slight: 1, BackOffFew: 1, BackOffMany: 2}

// Step is S(n): the clicks in one step of an adjuster with n clicks.
func (s Sizes) Step(n int) int {
	switch {
	case n <= 12:
		return s.StepFew
	case n <= 19:
		return s.StepSome
	}
	return s.StepMany
}

// BackOff is how far to come back once the grip search made the car hop.
func (s Sizes) BackOff(n int) int {
	if n <= 12 {
		return s.BackOffFew
	}
	return s.BackOffMany
}

// Validate returns BadStep when a size is not between 1 and 9 clicks.
func (s Sizes) Validate() error {
	for _, n := range []int{s.StepFew, s.StepSome, s.StepMany, s.Slight, s.BackOffFew, s.BackOffMany} {
		if n < 1 || n > 9 {
			return BadStep
		}
	}
	return nil
}
