// Package bot is the conversation: an Ask comes in, a Reply goes out, whatever
// the way in. Commands are declared once, as data; the router finds the one
// that is meant, checks who may use it, decodes what was typed and opens the
// club's book for it.
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
}
