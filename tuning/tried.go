package tuning

// Tried is one complaint made at an event and what came of it.
type Tried struct {
	Car       int64
	Complaint Complaint
	Moves     []Move // what was turned for it, none when nothing was
	Felt      Better // the first answer given after that
}
