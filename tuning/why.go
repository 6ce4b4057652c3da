package tuning

// Why is why the trade does what a remedy does, without the words for it. In a
// coach's suggestion it is what the coach wrote, in clicks that were brought
// from elsewhere where they come from.
type Why string

// The reasons.
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
	WhyMadeItWorse            Why = "made-it-worse"
	WhyWentTooFar             Why = "went-too-far"
	WhyBothNearHard           Why = "both-near-hard"
	WhyBumpNearHard           Why = "bump-near-hard"
	WhyStandsStiff            Why = "stands-stiff"
	WhyDryInTheWet            Why = "dry-in-the-wet"
	WhyTheStart               Why = "the-start"
	WhyStartInWindow          Why = "start-in-window"
	WhySidesDiffer            Why = "sides-differ"
)

// Watch is what to watch for after a remedy, without the words for it.
type Watch string

// What can be watched for.
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
	WatchFeelsAsBefore     Watch = "feels-as-before"
	WatchWhichIsLeft       Watch = "which-is-left"
	WatchRollsAndWarns     Watch = "rolls-and-warns"
	WatchPullsNoMore       Watch = "pulls-no-more"
	WatchAsCoachSaid       Watch = "as-coach-said"
	WatchOtherCar          Watch = "other-car"
	WatchOtherDay          Watch = "other-day"
)
