package tuning

import (
	"slices"
	"time"
)

// Role is what a person may do in a club. Each role may do all that the ones
// before it may.
type Role string

// The roles, least first.
const (
	MemberRole    Role = "member"
	CoachRole     Role = "coach"
	OrganiserRole Role = "organiser"
)

// Allows tells whether the role may do what needs another.
func (r Role) Allows(need Role) bool { return r.rank() >= need.rank() }

func (r Role) rank() int {
	switch r {
	case OrganiserRole:
		return 2
	case CoachRole:
		return 1
	}
	return 0
}

// Units is the system a person reads and writes bare numbers in.
type Units string

// The systems of units.
const (
	Metric   Units = "metric"
	Imperial Units = "imperial"
)

// Who is the person asking and the club they ask in. Club and Person are the keys
// of the place they come from and never change; Name is how others know the
// person today. Role is what the place itself vouches for. Roles are the person's
// other roles there, by the place's own names; a club may choose one of them for
// its coaches.
type Who struct {
	Club   string
	Person string
	Name   string
	Role   Role
	Roles  []string
}

// RoleIn is what the person may do in their club.
func (w Who) RoleIn(club Club) Role {
	if !w.Role.Allows(CoachRole) && club.CoachRole != "" && slices.Contains(w.Roles, club.CoachRole) {
		return CoachRole
	}
	return w.Role
}

// MayBecome tells whether the person may turn out to have a role once the club's
// settings are known: a club can make coaches, and nothing else.
func (w Who) MayBecome(role Role) bool {
	return w.Role.Allows(role) || role == CoachRole && len(w.Roles) > 0
}

// Club is a club's settings.
type Club struct {
	Key         string
	Zone        string        // IANA name
	Channel     string        // where the club's posts go, "" for none
	CoachRole   string        // the workspace's role that makes a coach, "" for none
	QuietFrom   time.Duration // time of day from which no one is written to
	QuietTo     time.Duration // time of day until which no one is written to
	RemindAfter time.Duration // from the end of an event until people are asked how it felt
	Units       Units
	Sizes       Sizes
}

// DefaultClub is a club that has set nothing yet.
func DefaultClub(key string) Club {
	return Club{Key: key, Zone: "UTC", QuietFrom: 21 * time.Hour, QuietTo: 8 * time.Hour,
		RemindAfter: 3 * time.Hour, Units: Metric, Sizes: DefaultSizes}
}

// Member is a person's own settings in a club.
type Member struct {
	Person    string
	Name      string
	Units     Units // "" for the club's
	Reminders bool
	NoDirect  bool // the platform refused direct messages to them
	Muted     bool // they want no messages from coaches and organisers
	Answers   Answers
	Cautioned string // the club's day on which they last saw all cautions, 2026-05-16; "" for never
}

// Answers is who reads the answers about a person's own car. "" is private.
type Answers string

// Who reads them.
const (
	PrivateAnswers Answers = "private"
	SharedAnswers  Answers = "shared"
)

// Shares tells whether answers about the person's own car are shown to everybody.
func (m Member) Shares() bool { return m.Answers == SharedAnswers }
