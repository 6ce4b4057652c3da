package tuning

import "slices"

// This file is the table of remedies, in the order to try them. A coach can
// check it by eye: a row is a complaint and where in the corner it happens,
// and under it stand the remedies as
//
//	which corners, which adjuster, which way, how far, how sure; why; what to watch for
//
// The last two are words, listed below the table; their sentences are in bot/say.
//
// Common practice, no published source; the entries marked weaker are from
// memory of the trade.

// scope is which corners a remedy turns.
type scope int

const (
	front     scope = iota // both front corners
	rear                   // both rear corners
	saidAxle               // both corners of the axle in the complaint
	bothAxles              // all corners, each axle by its own step
	allAlike               // all corners by the same number of clicks
)

// size is how far a remedy turns.
type size int

const (
	step    size = iota // S of the axle's own adjuster; of the smaller range where all move alike
	slight              // a slight step
	backOff             // the back-off of the grip search
)

// Confidence is how well the trade stands behind a remedy.
type Confidence string

// The two levels.
const (
	CommonPractice Confidence = "common practice"
	WeakerPractice Confidence = "weaker" // from memory of the trade
)

const (
	sure   = CommonPractice
	weaker = WeakerPractice
)

// recipe is one remedy of a row.
type recipe struct {
	scope      scope
	job        Job
	turn       Turn
	size       size
	confidence Confidence
	why        Why
	watch      Watch
}

// row is one complaint with its remedies. Drive "" is any car.
type row struct {
	what    What
	phase   Where // Anywhere, or the phase it belongs to
	drive   Drive
	recipes []recipe
	swap    func(Car, History) bool // when the second comes first; nil never
}

// inOrder lists the row's recipes in the order to try on a car.
func (r row) inOrder(car Car, h History) []recipe {
	recipes := slices.Clone(r.recipes)
	if r.swap != nil && r.swap(car, h) {
		slices.Reverse(recipes)
	}
	return recipes
}

var table = []row{
	{what: Oversteer, phase: Entry, recipes: []recipe{
		{front, AnyRebound, Stiffer, step, sure, WhyFrontGivesUp, WatchNosePushesIn},
		{rear, AnyRebound, Softer, step, weaker, WhyRearInsideStays, WatchRearOverCrests},
	}},
	{what: Understeer, phase: Entry, recipes: []recipe{
		{rear, AnyRebound, Stiffer, step, sure, WhyRearGivesUp, WatchLightRearIn},
		{front, AnyRebound, Softer, step, weaker, WhyFrontInsideStays, WatchNoseBobs},
	}},
	{what: Understeer, phase: Exit, swap: squatComesFirst, recipes: []recipe{
		{rear, AnyBump, Stiffer, step, sure, WhyLessSquat, WatchLessTraction},
		{front, AnyRebound, Softer, slight, sure, WhyNoseMayRise, WatchNoseFloatsOut},
	}},
	{what: Oversteer, phase: Exit, recipes: []recipe{
		{rear, AnyBump, Softer, step, sure, WhySquatAddsGrip, WatchNosePushesOnPower},
		{front, AnyRebound, Stiffer, slight, sure, WhyFrontToBalance, WatchUndersteerOut},
	}},
	{what: LowGrip, recipes: []recipe{
		{allAlike, AnyBump, Stiffer, step, sure, WhySupportEverywhere, WatchFirstHop},
	}},
	{what: Hops, recipes: []recipe{
		{allAlike, AnyBump, Softer, backOff, sure, WhyPastPeak, WatchFloatOrRoll},
		{allAlike, AnyRebound, Softer, slight, weaker, WhyWheelDropsSooner, WatchBodyMovesLonger},
	}},
	{what: Kerbs, recipes: []recipe{
		{bothAxles, FastBump, Softer, step, sure, WhyWheelClearsKerb, WatchBottoming},
		{bothAxles, FastRebound, Softer, step, weaker, WhyWheelDropsBehindKerb, WatchHopBehindKerb},
	}},
	{what: SlowSettle, recipes: []recipe{
		{bothAxles, AnyRebound, Stiffer, step, weaker, WhyBodyHeldDown, WatchSinksOverBumps},
	}},
	{what: PacksDown, recipes: []recipe{
		{saidAxle, AnyRebound, Softer, step, weaker, WhySpringLiftsInTime, WatchBodyMovesLonger},
	}},
	{what: Dives, recipes: []recipe{
		{front, AnyBump, Stiffer, step, weaker, WhyNoseDownSlower, WatchFrontSkipsBraking},
		{rear, AnyRebound, Stiffer, slight, weaker, WhyRearUpSlower, WatchLightRearBraking},
	}},
	{what: LooseBraking, recipes: []recipe{
		{rear, AnyRebound, Softer, step, weaker, WhyRearStaysInPitch, WatchMoreDive},
		{front, AnyBump, Stiffer, slight, weaker, WhySlowerPitch, WatchFrontSkipsBraking},
	}},
	{what: SlowTurnIn, recipes: []recipe{
		{front, AnyBump, Stiffer, slight, weaker, WhyOutsideLoadsSooner, WatchFrontSkipsIn},
		{front, AnyRebound, Stiffer, slight, weaker, WhyBodyFollowsSooner, WatchNosePushesIn},
	}},
	{what: Nervous, recipes: []recipe{
		{front, AnyBump, Softer, slight, weaker, WhyFrontAnswersLater, WatchSlowNose},
	}},
	{what: Wheelspin, drive: RearDrive, recipes: []recipe{
		{rear, AnyBump, Softer, step, sure, WhySquatLoadsRear, WatchNosePushesOnPower},
	}},
	{what: Wheelspin, drive: FrontDrive, recipes: []recipe{
		{front, AnyRebound, Softer, step, weaker, WhyFrontStaysInRise, WatchNoseFloatsOut},
	}},
	{what: Wheelspin, drive: FourDrive, recipes: []recipe{
		{rear, AnyBump, Softer, slight, weaker, WhySquatLoadsRearSlightly, WatchUndersteerOut},
	}},
	{what: Bottoms, recipes: []recipe{
		{saidAxle, FastBump, Stiffer, step, weaker, WhySlowerToStop, WatchHarshKerbs},
	}},
	{what: OneSided},
}

// Why the trade does what a row says.
const (
	WhyFrontGivesUp           Why = "front-gives-up"
	WhyRearInsideStays        Why = "rear-inside-stays"
	WhyRearGivesUp            Why = "rear-gives-up"
	WhyFrontInsideStays       Why = "front-inside-stays"
	WhyLessSquat              Why = "less-squat"
	WhyNoseMayRise            Why = "nose-may-rise"
	WhySquatAddsGrip          Why = "squat-adds-grip"
	WhyFrontToBalance         Why = "front-to-balance"
	WhySupportEverywhere      Why = "support-everywhere"
	WhyPastPeak               Why = "past-peak"
	WhyWheelDropsSooner       Why = "wheel-drops-sooner"
	WhyWheelClearsKerb        Why = "wheel-clears-kerb"
	WhyWheelDropsBehindKerb   Why = "wheel-drops-behind-kerb"
	WhyBodyHeldDown           Why = "body-held-down"
	WhySpringLiftsInTime      Why = "spring-lifts-in-time"
	WhyNoseDownSlower         Why = "nose-down-slower"
	WhyRearUpSlower           Why = "rear-up-slower"
	WhyRearStaysInPitch       Why = "rear-stays-in-pitch"
	WhySlowerPitch            Why = "slower-pitch"
	WhyOutsideLoadsSooner     Why = "outside-loads-sooner"
	WhyBodyFollowsSooner      Why = "body-follows-sooner"
	WhyFrontAnswersLater      Why = "front-answers-later"
	WhySquatLoadsRear         Why = "squat-loads-rear"
	WhyFrontStaysInRise       Why = "front-stays-in-rise"
	WhySquatLoadsRearSlightly Why = "squat-loads-rear-slightly"
	WhySlowerToStop           Why = "slower-to-stop"
)

// What to watch for after what a row says.
const (
	WatchNosePushesIn      Watch = "nose-pushes-in"
	WatchRearOverCrests    Watch = "rear-over-crests"
	WatchLightRearIn       Watch = "light-rear-in"
	WatchNoseBobs          Watch = "nose-bobs"
	WatchLessTraction      Watch = "less-traction"
	WatchNoseFloatsOut     Watch = "nose-floats-out"
	WatchNosePushesOnPower Watch = "nose-pushes-on-power"
	WatchUndersteerOut     Watch = "understeer-out"
	WatchFirstHop          Watch = "first-hop"
	WatchFloatOrRoll       Watch = "float-or-roll"
	WatchBodyMovesLonger   Watch = "body-moves-longer"
	WatchBottoming         Watch = "bottoming"
	WatchHopBehindKerb     Watch = "hop-behind-kerb"
	WatchSinksOverBumps    Watch = "sinks-over-bumps"
	WatchFrontSkipsBraking Watch = "front-skips-braking"
	WatchLightRearBraking  Watch = "light-rear-braking"
	WatchMoreDive          Watch = "more-dive"
	WatchFrontSkipsIn      Watch = "front-skips-in"
	WatchSlowNose          Watch = "slow-nose"
	WatchHarshKerbs        Watch = "harsh-kerbs"
)

// squatComesFirst tells whether an exit understeer is better treated at the
// front: the rear needs its squat for traction, or entry and mid are good
// already and should be left alone.
func squatComesFirst(car Car, h History) bool {
	return car.Drive == RearDrive || h.LastFeel.entryAndMidGood()
}

// rowFor finds the row of the table for a complaint about a car.
func rowFor(car Car, c Complaint) (row, bool) {
	for _, r := range table {
		if r.what == c.What && (r.phase == Anywhere || r.phase == c.Where.Phase()) && (r.drive == "" || r.drive == car.Drive) {
			return r, true
		}
	}
	return row{}, false
}
