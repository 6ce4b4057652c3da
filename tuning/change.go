package tuning

import "time"

// Reason is why clicks were changed.
type Reason string

// The reasons a change can have in the record.
const (
	ByFitting  Reason = "fitted"   // new dampers, assumed at the start until someone says otherwise
	ByBaseline Reason = "baseline" // set to the start
	ByRemedy   Reason = "remedy"   // an advice was applied
	ByHand     Reason = "by hand"  // the member set a position
	ByUndo     Reason = "undo"     // a change was taken back
	BySearch   Reason = "search"   // a run of the grip search
	ByLoading  Reason = "loaded"   // to a setting that was kept
	ByCopying  Reason = "copied"   // from another car
)

// Better is how the car felt against the run before the last change; "" is not
// said.
type Better string

// The answers.
const (
	BetterYes  Better = "yes"
	BetterNo   Better = "no"
	BetterSame Better = "same"
)

// Change is one entry of a car's record: everything that was turned at once.
type Change struct {
	ID        int64
	At        time.Time
	By        string // the person
	Reason    Reason
	Complaint *Complaint // what it was meant to cure, for a remedy
	Advice    int64      // the advice it came from, 0 for none
	Remedy    int        // which of the advice's remedies
	Undoes    int64      // the change that it takes back, 0 for none
	Event     int64      // the event the car was entered in, 0 for none
	Turned    bool       // ByHand: turned at that time; otherwise the record was corrected and nothing was turned
	Moves     []Move     // From is -1 where nothing was known before
	Felt      Better     // the latest answer given after it
	Undone    bool       // a later change took it back
}

// Corrects tells whether the change only corrected the record: nothing was
// turned, so there is nothing to remember of how the car took it.
func (c Change) Corrects() bool { return c.Reason == ByHand && !c.Turned }

// Occasion is when something was done, zero for never, and at which event, 0 for
// none.
type Occasion struct {
	At    time.Time
	Event int64
}

// History is what the judgement needs to remember about a car.
type History struct {
	Changes    []Change // newest first, only since the dampers were fitted
	LastFeel   *Feel    // the newest feel, nil for none
	LastAnswer Occasion // when a complaint was last answered
	LastAdvice Occasion // when clicks to turn were last named: for a complaint, a start, saved clicks or a grip search
	ChecksDue  bool     // no complaint was answered yet at this event, so the checks are due
	ChecksSeen bool     // the checks were shown at this event, so a message need not show them again
	Unrecorded bool     // nobody has said yet where the clicks stand

	// Prefer gives the order of the record. It takes the remedies of a row in the
	// table's order and returns their places in the order to offer them. Nil
	// keeps the table's order.
	Prefer func(remedies []Remedy) []int
}

// ChecksToShow tells whether a message that names clicks shows the checks: once
// an event.
func (h History) ChecksToShow() bool { return h.ChecksDue && !h.ChecksSeen }

// FixFailed tells whether the newest change was felt as no better, or took back
// one that was.
func (h History) FixFailed() bool {
	if len(h.Changes) == 0 {
		return false
	}
	last := h.Changes[0]
	for _, c := range h.Changes {
		if last.Reason == ByUndo && last.Felt == "" && c.ID == last.Undoes {
			last = c
		}
	}
	return last.Felt == BetterNo || last.Felt == BetterSame
}

// LastNotes are those of the newest feel, "" for none.
func (h History) LastNotes() string {
	if h.LastFeel == nil {
		return ""
	}
	return h.LastFeel.Notes
}
