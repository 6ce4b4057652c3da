package tuning

import "slices"

// Advice is the answer to a complaint: remedies in the order to try, one at a
// time. Without remedies, First and Notes tell what to do instead.
type Advice struct {
	ID        int64
	Car       int64
	Complaint Complaint
	Remedies  []Remedy
	First     []Check // what comes before any click
	Facts     []Fact  // what is said before the notes
	Notes     []Fact  // of the judgement: what it left out, and what to expect
	Cautions  []Caution
}

// Remedy is one way to answer a complaint.
type Remedy struct {
	Kind       RemedyKind `json:"kind"`
	Why        Why        `json:"why"`
	Watch      Watch      `json:"watch"`
	Confidence Confidence `json:"confidence"`
	Moves      []Move     `json:"moves"`
	Undoes     int64      `json:"undoes,omitempty"` // the change it takes back
	Of         int64      `json:"of,omitempty"`     // what it loads, or the car whose clicks it copies
	Short      bool       `json:"shrunk,omitempty"` // it shrank to the clicks that are left
	High       bool       `json:"-"`                // its adjuster stands above two thirds of its range
	Failed     bool       `json:"-"`                // it felt worse in this weather and was taken back, and nothing else was tried since
}

// RemedyKind is what sort of change a remedy is.
type RemedyKind string

// The kinds of remedy.
const (
	TurnClicks     RemedyKind = "turn"     // a row of the table
	TakeBack       RemedyKind = "undo"     // the last change made it worse
	HalfBack       RemedyKind = "half"     // the last change went too far
	ReturnBaseline RemedyKind = "baseline" // back to the start
	GoToWetStart   RemedyKind = "wet"      // from the dry start to the wet one
	MakeEqual      RemedyKind = "equal"    // both sides of an axle to the softer
	LoadKept       RemedyKind = "load"     // to a setting that was kept
	CopyCar        RemedyKind = "copy"     // to the same parts of the ranges as on another car
)

// SetsAll tells whether remedies of the kind list every adjuster of the car.
func (k RemedyKind) SetsAll() bool {
	return k == ReturnBaseline || k == GoToWetStart || k.Brings()
}

// Brings tells whether remedies of the kind bring a setting from elsewhere.
func (k RemedyKind) Brings() bool { return k == LoadKept || k == CopyCar }

// Reason is how the record names a change of this kind.
func (r Remedy) Reason() Reason {
	switch r.Kind {
	case TakeBack:
		return ByUndo
	case ReturnBaseline, GoToWetStart:
		return ByBaseline
	case MakeEqual:
		return ByHand
	case LoadKept:
		return ByLoading
	case CopyCar:
		return ByCopying
	}
	return ByRemedy
}

// Advise answers a complaint about a car that stands at a setting. The first
// remedy is the one to try. It returns a Refusal when the complaint lacks what
// it needs or the dampers are not known.
// Common practice, no published source.
func Advise(car Car, at Setting, c Complaint, h History, sizes Sizes) (Advice, error) {
	advice := Advice{Car: car.ID, Complaint: c}
	if err := car.Fitted(); err != nil {
		return advice, err
	}
	if c.What.NeedsAxle() && c.Axle == nil {
		return advice, NoAxle
	}
	row, ok := rowFor(car, c)
	if !ok {
		return advice, NoRemedy{c.What}
	}
	if !c.What.NeedsAxle() {
		advice.Complaint.Axle = nil // only some complaints are about one axle
	}
	j := judge{car: car, at: at, complaint: advice.Complaint, history: h, sizes: sizes, advice: &advice}
	j.readComplaint()
	switch {
	case j.stopsForFault():
	case j.triedTwice():
	default:
		j.fromRow(row)
		j.fromRecord()
		j.markFailed()
		j.toWetStart()
		j.fromMemory()
		j.settleOrder()
	}
	advice.Facts = append(j.unequalSides(), advice.Facts...)
	j.tellDoubts()
	j.addChecks()
	advice.Cautions = cautionsFor(car, advice.Remedies)
	return advice, nil
}

// judge holds what one judgement looks at while it composes the advice.
type judge struct {
	car       Car
	at        Setting
	complaint Complaint
	history   History
	sizes     Sizes
	advice    *Advice
	fits      int // how many of the row's remedies the dampers can do, whether or not clicks are left
	high      int // how many of those turn an adjuster above two thirds of its range
}

func (j *judge) note(f Fact) { j.advice.Notes = append(j.advice.Notes, f) }

func (j *judge) tell(f Fact) { j.advice.Facts = append(j.advice.Facts, f) }

// readComplaint tells what the complaint itself calls for, whatever the clicks.
func (j *judge) readComplaint() {
	c := j.complaint
	if place, fixed := placeOf[c.What]; fixed && c.Where != Anywhere && c.Where != place {
		j.note(Fact{Kind: ReadAs, Where: place})
	}
	if c.Where == Mid {
		j.tell(Fact{Kind: MidCorner})
	}
}

// tellDoubts tells what is doubtful about the clicks that the remedies turn.
func (j *judge) tellDoubts() {
	if len(j.advice.Remedies) == 0 {
		return
	}
	if j.history.Unrecorded {
		j.tell(Fact{Kind: Unrecorded})
	}
	both := func(axle Axle) bool { d := j.car.Dampers[axle]; return d.Ways == 1 && d.Moves == MovesBoth }
	switch {
	case both(Front) && both(Rear):
		j.note(Fact{Kind: MoveTogether, Part: WholeCar})
	case both(Front), both(Rear):
		part := FrontPart
		if both(Rear) {
			part = RearPart
		}
		j.note(Fact{Kind: MoveTogether, Part: part})
	}
}

// fromRow turns the row's recipes into remedies for the dampers at hand.
func (j *judge) fromRow(r row) {
	if j.complaint.What == Nervous && j.aboveMiddle() {
		if back, ok := j.returnToBaseline(WhyStandsStiff); ok {
			j.advice.Remedies = append(j.advice.Remedies, back)
			return
		}
	}
	for _, recipe := range r.inOrder(j.car, j.history) {
		remedy, fits := j.remedyOf(recipe)
		if !fits || j.makesAlready(remedy.Moves) {
			continue
		}
		j.fits++
		if remedy.High {
			j.high++
		}
		if len(remedy.Moves) > 0 {
			j.advice.Remedies = append(j.advice.Remedies, remedy)
		}
	}
}

// makesAlready tells whether a remedy makes exactly these moves, as happens where
// one adjuster stands in for two.
func (j *judge) makesAlready(moves []Move) bool {
	return slices.ContainsFunc(j.advice.Remedies, func(r Remedy) bool { return slices.Equal(r.Moves, moves) })
}
