package bot

import (
	"time"

	"detent/tuning"
)

// Ask is one line from one person, as every way in hands it over.
type Ask struct {
	ID    string            // the request: the same id is answered once
	Who   tuning.Who        // who asks, in which club
	At    time.Time         // when it was asked
	Line  Line              // what was asked
	Files map[string]string // what the file options hold
	Forms bool              // the way in can open forms
	Whole bool              // every field of the reply is wanted, as for --json
}
