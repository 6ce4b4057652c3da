package tuning

import (
	"fmt"
	"time"
)

// Outage is a Refusal of the record itself: nothing is wrong with the request.
type Outage string

// The outages.
const (
	Unreachable    Outage = "the database does not answer"
	ReadOnly       Outage = "the database can only be read"
	NoConnection   Outage = "the database has no connection left"
	DiskFull       Outage = "the database's disk is full"
	GivenUp        Outage = "it took too long and was given up"
	Undecided      Outage = "the database went away before it said whether the request is kept"
	ClocksApart    Outage = "a change is dated other than now by the database's clock"
	NeedsRight     Outage = "the database's user lacks a right"
	CannotMigrate  Outage = "the database's user may not bring its schema up to date"
	CannotRehearse Outage = "the database's user may not rehearse"
	WrongPassword  Outage = "the database refuses the user or the password"
	WrongUser      Outage = "the database refuses the user"
	NoDatabase     Outage = "the server has no database of that name"
	NotEncrypted   Outage = "the database does not encrypt"
)

// outageKinds are the kinds of the outages that are not Internal: whoever set
// the program up can mend these.
var outageKinds = map[Outage]Kind{
	CannotRehearse: Forbidden, WrongPassword: Invalid, WrongUser: Invalid, NoDatabase: Invalid, NotEncrypted: Invalid,
}

func (o Outage) Error() string { return string(o) }

// Refuses returns the kind.
func (o Outage) Refuses() Kind {
	if kind, ok := outageKinds[o]; ok {
		return kind
	}
	return Internal
}

// ClockSkew is how far the clocks of the program and of the database are apart,
// when that is too far for a change to be dated.
type ClockSkew struct{ Apart time.Duration }

func (c ClockSkew) Error() string { return fmt.Sprintf("the clocks are %v apart", c.Apart) }

// Refuses returns Internal.
func (ClockSkew) Refuses() Kind { return Internal }

// NewerSchema is a database whose schema is newer than this program knows.
type NewerSchema struct{ Has, Knows int64 }

func (n NewerSchema) Error() string {
	return fmt.Sprintf("the database is at schema %d, the program knows up to %d", n.Has, n.Knows)
}

// Refuses returns Internal.
func (NewerSchema) Refuses() Kind { return Internal }
