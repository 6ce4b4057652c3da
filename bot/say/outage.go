package say

import (
	"fmt"
	"time"

	"detent/tuning"
)

// outages are the sentences of what keeps the record from serving: for members,
// who can only wait or tell somebody, and for whoever runs the program.
var outages = map[tuning.Outage]struct{ member, operator string }{
	tuning.Unreachable: {"The bot's database does not answer: try again in a minute.",
		"The database does not answer: see that it runs and that DETENT_DATABASE_URL names it."},
	tuning.ReadOnly: {"The bot's database takes nothing in just now: try again in a minute.",
		"The database can only be read: DETENT_DATABASE_URL must name one that can be written to, not a standby."},
	tuning.NoConnection: {"The bot's database is too busy: try again in a moment.",
		"The database has no connection left: try again in a moment."},
	tuning.DiskFull: {"The disk of the bot's database is full, and nothing was changed: tell whoever runs the bot.",
		"The disk that the database is on is full, and nothing was changed: make room on it and try again."},
	tuning.GivenUp: {"That took too long and was given up: try again.",
		"That took too long and was given up: try again."},
	tuning.Undecided: {"The database went away and I could not tell whether that was saved: look before you send it again. Under the same id it is saved once.",
		"The database went away and I could not tell whether that was saved: look before you send it again. Under the same id it is saved once."},
	tuning.ClocksApart: {"The bot's clock is wrong, and nothing was changed: tell whoever runs the bot.",
		"The clocks of this machine and of the database are more than 5 minutes apart, and nothing was changed: set them right."},
	tuning.NeedsRight: {misconfigured,
		"The database does not let its user do what is needed: give it the right to create roles and tables, or membership of the role detent_app."},
	tuning.CannotMigrate: {misconfigured,
		"The database is behind this program and its user may not change that: run detent migrate as the user who owns it, who may create roles and tables."},
	tuning.CannotRehearse: {misconfigured,
		"This user of the database may not rehearse: name one in DETENT_DATABASE_URL that may become detent_rehearsal."},
	tuning.WrongPassword: {misconfigured, "The database refuses the user or the password in DETENT_DATABASE_URL."},
	tuning.WrongUser:     {misconfigured, "The database refuses the user in DETENT_DATABASE_URL."},
	tuning.NoDatabase:    {misconfigured, "The server has no database of the name in DETENT_DATABASE_URL: create it first."},
	tuning.NotEncrypted: {misconfigured,
		"The database does not encrypt: if it runs on this machine, add ?sslmode=disable to DETENT_DATABASE_URL."},
}

// misconfigured is all that a member can do about the database's set-up.
const misconfigured = "The bot's database is not set up right, and nothing was changed: tell whoever runs the bot."

// outageForMembers tells nothing of where the database is.
func outageForMembers(r tuning.Refusal) string {
	switch r := r.(type) {
	case tuning.Outage:
		return outages[r].member
	case tuning.ClockSkew:
		return outages[tuning.ClocksApart].member
	case tuning.NewerSchema:
		return misconfigured
	}
	return ""
}

func outageForOperators(r tuning.Refusal) string {
	switch r := r.(type) {
	case tuning.Outage:
		return outages[r].operator
	case tuning.ClockSkew:
		return fmt.Sprintf("The clocks of this machine and of the database are %d minutes apart: set them right.", int(r.Apart.Round(time.Minute).Minutes()))
	case tuning.NewerSchema:
		return fmt.Sprintf("The database is at schema %d and this program knows only up to %d: run the newer program.", r.Has, r.Knows)
	}
	return ""
}
