package say

import "detent/tuning"

// whys are the sentences that say why the trade does what a remedy does.
var whys = map[tuning.Why]string{
	tuning.WhyFrontGivesUp:           "A stiffer front takes load sooner, so the front grips a little less and the rear calms down.",
	tuning.WhyRearInsideStays:        "The rear's inside wheel stays on the road as the car rolls in.",
	tuning.WhyRearGivesUp:            "A stiffer rear takes load sooner, so the rear grips a little less and the nose turns in.",
	tuning.WhyFrontInsideStays:       "The front's inside wheel stays on the road as the car rolls in.",
	tuning.WhyLessSquat:              "Less squat on the power, so the nose stays down.",
	tuning.WhyNoseMayRise:            "The nose may rise, but the front tyre stays on the road.",
	tuning.WhySquatAddsGrip:          "The rear may squat and load its tyres: this adds grip where it is missing.",
	tuning.WhyFrontToBalance:         "Takes a little from the front to balance the rear.",
	tuning.WhySupportEverywhere:      "More support everywhere; the front-to-rear split stays. Repeat until it just begins to hop, then back off; the grip search keeps the count.",
	tuning.WhyPastPeak:               "Past the peak the tyre leaves the road over bumps; come back to where it follows.",
	tuning.WhyWheelDropsSooner:       "The wheel can drop back to the road sooner.",
	tuning.WhyWheelClearsKerb:        "The wheel can get out of the kerb's way.",
	tuning.WhyWheelDropsBehindKerb:   "The wheel can drop behind the kerb instead of hanging in the air.",
	tuning.WhyBodyHeldDown:           "Holds the body down once it has moved.",
	tuning.WhySpringLiftsInTime:      "The spring can lift the car again before the next bump.",
	tuning.WhyNoseDownSlower:         "The nose goes down more slowly on the brakes.",
	tuning.WhyRearUpSlower:           "The rear comes up more slowly on the brakes.",
	tuning.WhyRearStaysInPitch:       "The rear tyres stay on the road while the car pitches forward.",
	tuning.WhySlowerPitch:            "Slows the pitch that takes load from the rear.",
	tuning.WhyOutsideLoadsSooner:     "The front outside takes its load sooner.",
	tuning.WhyBodyFollowsSooner:      "The body follows the wheel sooner.",
	tuning.WhyFrontAnswersLater:      "The front answers a little later and gives more warning.",
	tuning.WhySquatLoadsRear:         "The rear may squat and load its tyres.",
	tuning.WhyFrontStaysInRise:       "The front tyres stay on the road as the nose rises.",
	tuning.WhySquatLoadsRearSlightly: "The rear may squat a little and load its tyres.",
	tuning.WhySlowerToStop:           "Slows the wheel before it reaches the stop. Only once bump-stop, ride height and spring are right.",
	tuning.WhyMadeItWorse:            "It made the car worse: take it back.",
	tuning.WhyWentTooFar:             "The complaint has turned into its opposite: the last change went too far, so half of it comes back.",
	tuning.WhyBothNearHard:           "Both remedies' adjusters stand above two thirds of their range: start again from the soft side.",
	tuning.WhyBumpNearHard:           "Bump stands above two thirds of its range at both ends, and too stiff is slow too: start again from the soft side.",
	tuning.WhyStandsStiff:            "It stands stiffer than the middle somewhere, which makes a car snap.",
	tuning.WhyDryInTheWet:            "It stands at its dry start or stiffer: a softer car finds more grip in the wet.",
	tuning.WhyTheStart:               "The start.",
	tuning.WhyStartInWindow:          "The position nearest to the start inside the model's window.",
	tuning.WhySidesDiffer:            "A difference between left and right answers no complaint, and hides what a change does.",
}

// watches are what to watch for after a remedy, as it follows "Watch for".
var watches = map[tuning.Watch]string{
	tuning.WatchNosePushesIn:      "the nose starting to push wide on the way in",
	tuning.WatchRearOverCrests:    "a rear that moves about over crests",
	tuning.WatchLightRearIn:       "a rear that comes light on the way in",
	tuning.WatchNoseBobs:          "a nose that bobs after the brakes come off",
	tuning.WatchLessTraction:      "less traction out of slow corners",
	tuning.WatchNoseFloatsOut:     "a nose that floats on the way out",
	tuning.WatchNosePushesOnPower: "the nose lifting and pushing wide on the power",
	tuning.WatchUndersteerOut:     "understeer on the way out",
	tuning.WatchFirstHop:          "the first hop over bumps",
	tuning.WatchFloatOrRoll:       "the car starting to float or roll more",
	tuning.WatchBodyMovesLonger:   "the body moving longer after a bump",
	tuning.WatchBottoming:         "the car bottoming on big bumps",
	tuning.WatchHopBehindKerb:     "wheels that hop behind a kerb",
	tuning.WatchSinksOverBumps:    "the car sinking lower over a run of bumps",
	tuning.WatchFrontSkipsBraking: "front tyres that skip while braking over bumps",
	tuning.WatchLightRearBraking:  "a light rear under braking",
	tuning.WatchMoreDive:          "more dive",
	tuning.WatchFrontSkipsIn:      "a front that skips over bumps on the way in",
	tuning.WatchSlowNose:          "a nose that feels slow to answer",
	tuning.WatchHarshKerbs:        "harshness over kerbs",
	tuning.WatchFeelsAsBefore:     "the car feeling as it did before",
	tuning.WatchWhichIsLeft:       "which of the two complaints is left",
	tuning.WatchRollsAndWarns:     "a car that rolls and floats more, and gives more warning",
	tuning.WatchPullsNoMore:       "the car pulling to one side no more",
	tuning.WatchAsCoachSaid:       "what your coach told you to",
	tuning.WatchOtherCar:          "a car that answers otherwise than the other one",
	tuning.WatchOtherDay:          "tyres, fuel and weather that are not what they were then",
}

// Why is the sentence that says why a remedy is what it is. Advice from before
// there were words for it holds the sentence itself, as a coach's suggestion
// does.
func Why(w tuning.Why) string { return sentence(whys, w) }

// Watch is what to watch for, as it follows "Watch for"; "" for nothing.
func Watch(w tuning.Watch) string { return sentence(watches, w) }
