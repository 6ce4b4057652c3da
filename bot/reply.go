package bot

import (
	"cmp"

	"detent/tuning"
)

// Reply is what comes back: for every way in the same, shown as each can. Its
// JSON form is part of the program's contract.
type Reply struct {
	Title    string   `json:"title,omitempty"`
	Text     string   `json:"text,omitempty"`
	Private  bool     `json:"private,omitempty"`
	Corners  []Corner `json:"corners,omitempty"`
	Remedies []Remedy `json:"remedies,omitempty"`
	First    []string `json:"first,omitempty"`
	Cautions []string `json:"cautions,omitempty"`
	Notes    []string `json:"notes,omitempty"`
	Assumed  []string `json:"assumed,omitempty"`
	Actions  []Action `json:"actions,omitempty"`
	Picture  *Picture `json:"picture,omitempty"`
	Files    []File   `json:"files,omitempty"`
	Problem  *Trouble `json:"problem,omitempty"`

	View View `json:"-"` // how much of it a person sees at once, see Message
}

// Corner is one adjuster of one corner, in clicks from full soft, and as the
// member counts.
type Corner struct {
	Corner   string `json:"corner"`
	Adjuster string `json:"adjuster"`
	From     int    `json:"from"`
	To       int    `json:"to"`
	Range    int    `json:"range"`
	Clicks   int    `json:"clicks"`
	Turn     string `json:"turn"`
	Shown    string `json:"shown"`
}

// Remedy is one thing to try, in the order to try.
type Remedy struct {
	Rank       int      `json:"rank"`
	Say        string   `json:"-"` // the action in one line
	Why        string   `json:"why"`
	Watch      string   `json:"watch"`
	Confidence string   `json:"confidence"`
	Model      *Verdict `json:"model,omitempty"`
	Learned    *Learned `json:"learned,omitempty"`
	Corners    []Corner `json:"corners"`
	Apply      string   `json:"apply"`
}

// Verdict is what the vehicle model says of a remedy.
type Verdict struct {
	Verdict string   `json:"verdict"`
	Say     string   `json:"say"`
	Points  *float64 `json:"points,omitempty"` // of balance, or per cent of grip, above 0 the wanted way
	Leans   string   `json:"leans,omitempty"`
	Does    string   `json:"does,omitempty"` // what the remedy does of itself
	Peak    *int     `json:"peak,omitempty"` // where the remedy's axle grips best, in clicks from full soft
	At      *int     `json:"at,omitempty"`   // where it stands
}

// Action is a line kept behind a label: a button. Press is the line that a
// button carries where it is not Ask word for word, see Button.
type Action struct {
	Label string `json:"label"`
	Ask   string `json:"ask"`
	Press string `json:"press,omitempty"`
}

// Line is what a press of the button asks.
func (a Action) Line() string { return cmp.Or(a.Press, a.Ask) }

// Picture is a PNG with its words for those who cannot see it. File is set
// once the picture has been put somewhere.
type Picture struct {
	Alt  string `json:"alt"`
	Type string `json:"type"`
	File string `json:"file,omitempty"`
	PNG  []byte `json:"-"`
}

// File is something to take away: an export, a sheet to print.
type File struct {
	Name string `json:"name"`
	Type string `json:"type"`
	File string `json:"file,omitempty"`
	Data []byte `json:"-"`
}

// Trouble is a problem as the person reads it. Ref stands in the log beside
// the cause.
type Trouble struct {
	Kind tuning.Kind `json:"kind"`
	Say  string      `json:"say"`
	Ref  string      `json:"ref,omitempty"`
}
