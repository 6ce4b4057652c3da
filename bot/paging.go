package bot

import (
	"fmt"

	"detent/bot/phone"
)

// MoreOption says from where a list goes on that had no room in one message.
type MoreOption struct {
	From int `name:"from" help:"how many lines of it were read already" min:"0" max:"100000"`
}

// Paged makes a reply a list, unless it has another size: a message shows as much of
// it as it has room for, and a button asks the line for what follows.
func (o MoreOption) Paged(r Reply, line string, about ...Named) Reply {
	more := Button("More", line, about...)
	if r.View.Size == phone.Answer {
		r.View.Size = phone.List
	}
	r.View.From, r.View.More = o.From, &more
	return r
}

// startingAt is the button for what follows the first pieces.
func (a Action) startingAt(read int) Action {
	a.Ask += fmt.Sprintf(" from:%d", read)
	if a.Press != "" {
		a.Press += fmt.Sprintf(" from:%d", read)
	}
	return a
}
