package tuning

import "errors"

// Kind sorts what can go wrong by what the person can do about it.
type Kind string

// The kinds of refusal.
const (
	Invalid   Kind = "invalid"   // the request says something that cannot be
	NotFound  Kind = "not-found" // it names something that is not there
	Forbidden Kind = "forbidden" // it is not this person's to ask
	Conflict  Kind = "conflict"  // the world has moved on since it was composed
	Limit     Kind = "limit"     // it is too much, too large or too often
	Internal  Kind = "internal"  // the fault is ours
)

// Refusal is an error that is a fact about the request or the record, without
// the words for it: its Error is for the log.
type Refusal interface {
	error
	Refuses() Kind
}

// KindOf returns the kind of the Refusal in err's chain, Internal for any other
// error and "" for nil.
func KindOf(err error) Kind {
	if err == nil {
		return ""
	}
	if r, ok := errors.AsType[Refusal](err); ok {
		return r.Refuses()
	}
	return Internal
}

// Plain is a Refusal that needs nothing beside its name.
type Plain string

// The plain refusals.
const (
	NoName          Plain = "there is no name"
	UnprintableName Plain = "the name holds a character that does not print"
	UnsprungTooMuch Plain = "the unsprung masses are too large beside the car"

	NoWays       Plain = "the damper's ways are not said"
	NoCount      Plain = "the stop that clicks are counted from is not said"
	NoMoves      Plain = "what a single adjuster moves is not said"
	NeedlessMove Plain = "what a single adjuster moves is said of another damper"
	BadStep      Plain = "a step is not 1 to 9 clicks"

	NoAxle       Plain = "the complaint needs an axle"
	BadGrip      Plain = "the grip's mark is not 1 to 10"
	BadLap       Plain = "the lap time is not up to an hour"
	NotesTooLong Plain = "the notes are too long"

	TurnsNothing   Plain = "the change turns nothing"
	BeyondStop     Plain = "the change goes past a stop"
	ClicksMoved    Plain = "the clicks do not stand where the change starts"
	TakenBack      Plain = "the change was taken back already"
	AdviceSpent    Plain = "the advice was applied or declined already"
	AxleUnfitted   Plain = "the axle has no dampers"
	SearchUnderWay Plain = "a grip search is under way already"
	SearchGone     Plain = "the grip search is not there any more"
	DraftGone      Plain = "the line is no longer kept"
	UnkeepableText Plain = "the text holds a character that cannot be kept"
	LeaseTaken     Plain = "the lease has run out and another has taken it over"
	TooManyAtOnce  Plain = "others were in the way until the end"
)

// plainKinds are the kinds of the plain refusals that are not Invalid.
var plainKinds = map[Plain]Kind{
	DraftGone:    NotFound,
	NotesTooLong: Limit, SearchGone: NotFound,
	ClicksMoved: Conflict, TakenBack: Conflict, AdviceSpent: Conflict, SearchUnderWay: Conflict, LeaseTaken: Conflict, TooManyAtOnce: Conflict,
}

func (p Plain) Error() string { return string(p) }

// Refuses returns the kind.
func (p Plain) Refuses() Kind {
	if kind, ok := plainKinds[p]; ok {
		return kind
	}
	return Invalid
}
