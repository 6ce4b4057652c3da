package tuning

// Why is why the trade does what a remedy does, without the words for it. In a
// coach's suggestion it is what the coach wrote, in clicks that were brought
// from elsewhere where they come from.
type Why string

// The reasons of the judgement; those of the table stand with it in remedies.go.
const (
	WhyMadeItWorse   Why = "made-it-worse"
	WhyWentTooFar    Why = "went-too-far"
	WhyBothNearHard  Why = "both-near-hard"
	WhyBumpNearHard  Why = "bump-near-hard"
	WhyStandsStiff   Why = "stands-stiff"
	WhyDryInTheWet   Why = "dry-in-the-wet"
	WhyTheStart      Why = "the-start"
	WhyStartInWindow Why = "start-in-window"
	WhySidesDiffer   Why = "sides-differ"
)

// Watch is what to watch for after a remedy, without the words for it.
type Watch string

// What can be watched for beside what the table names.
const (
	WatchFeelsAsBefore Watch = "feels-as-before"
	WatchWhichIsLeft   Watch = "which-is-left"
	WatchRollsAndWarns Watch = "rolls-and-warns"
	WatchPullsNoMore   Watch = "pulls-no-more"
	WatchAsCoachSaid   Watch = "as-coach-said"
	WatchOtherCar      Watch = "other-car"
	WatchOtherDay      Watch = "other-day"
)
