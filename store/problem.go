package store

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"io"
	"net"
	"syscall"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"

	"detent/tuning"
)

// refusals are what the database's constraints mean to the person asking.
var refusals = map[string]tuning.Problem{
	"cars_name":                 {Kind: tuning.Conflict, Say: "You have a car of that name already: choose another name, or change that car with /car edit."},
	"changes_undoes":            {Kind: tuning.Conflict, Say: "That change has been taken back already: look with /log."},
	"changes_now":               {Kind: tuning.Internal, Say: "The clocks of this machine and of the database are more than 5 minutes apart, and nothing was changed: set them right."},
	"clicks_in_range":           {Kind: tuning.Invalid, Say: "That is past the stop: look with /clicks show."},
	"clicks_follow":             {Kind: tuning.Conflict, Say: "The clicks no longer stand where this change starts: look with /clicks show and ask again."},
	"curves_club_car_axle_fkey": {Kind: tuning.Invalid, Say: "The dampers of that axle are not known yet: use /damper fit first."},
	"searches_under_way":        {Kind: tuning.Conflict, Say: "A grip search is under way already: go on with /sweep run, or end it with /sweep stop."},
}

// states are what the database's other complaints mean, by their code.
var states = map[pqerror.Code]tuning.Problem{
	pqerror.InvalidPassword:                   {Kind: tuning.Invalid, Say: "The database refuses the user or the password in DETENT_DATABASE_URL."},
	pqerror.InvalidAuthorizationSpecification: {Kind: tuning.Invalid, Say: "The database refuses the user in DETENT_DATABASE_URL."},
	pqerror.InvalidCatalogName:                {Kind: tuning.Invalid, Say: "The server has no database of the name in DETENT_DATABASE_URL: create it first."},
	pqerror.InsufficientPrivilege:             {Kind: tuning.Internal, Say: "The database does not let its user do what is needed: give it the right to create roles and tables, or membership of the role detent_app."},
	pqerror.TooManyConnections:                {Kind: tuning.Internal, Say: "The database has no connection left: try again in a moment."},
	pqerror.DiskFull:                          {Kind: tuning.Internal, Say: "The disk that the database is on is full, and nothing was changed: make room on it and try again."},
	pqerror.QueryCanceled:                     {Kind: tuning.Internal, Say: tookTooLong},
	pqerror.CharacterNotInRepertoire:          {Kind: tuning.Invalid, Say: "That text holds a character that cannot be kept: type it again."},
	pqerror.UntranslatableCharacter:           {Kind: tuning.Invalid, Say: "That text holds a character that cannot be kept: type it again."},
}

const tookTooLong = "That took too long and was given up: try again."

// problem turns an error of the database into the Problem it is for a person.
// It is the one place that does. A Problem, and nil, it returns as they are.
func problem(err error) error {
	if err == nil {
		return nil
	}
	if p, ok := errors.AsType[*tuning.Problem](err); ok {
		return p
	}
	said := tuning.Problem{Kind: tuning.Internal, Say: "Something went wrong on our side and nothing was changed: try again."}
	if e := pq.As(err); e != nil {
		if known, ok := states[e.Code]; ok {
			said = known
		}
		if known, ok := refusals[e.Constraint]; ok {
			said = known
		}
		if e.Code == pqerror.ReadOnlySQLTransaction {
			return onlyRead(err)
		}
	}
	_, silent := errors.AsType[*net.OpError](err)
	switch {
	case errors.Is(err, errStandby) && !silent: // with others that do not answer, it is to take over from them
		return onlyRead(err)
	case lost(err):
		said.Say = "The database does not answer: see that it runs and that DETENT_DATABASE_URL names it."
	case errors.Is(err, context.DeadlineExceeded) || errors.Is(err, context.Canceled):
		said.Say = tookTooLong
	case errors.Is(err, pq.ErrSSLNotSupported):
		said.Kind = tuning.Invalid
		said.Say = "The database does not encrypt: if it runs on this machine, add ?sslmode=disable to DETENT_DATABASE_URL."
	}
	said.Err = err
	return &said
}

// onlyRead is the Problem with a database that takes nothing in.
func onlyRead(err error) error {
	return &tuning.Problem{Kind: tuning.Internal, Err: err,
		Say: "The database can only be read: DETENT_DATABASE_URL must name one that can be written to, not a standby."}
}

// none is problem for a single row: when there is none it says so.
func none(err error, format string, args ...any) error {
	if errors.Is(err, sql.ErrNoRows) {
		return tuning.Problemf(tuning.NotFound, format, args...)
	}
	return problem(err)
}

// lost tells whether err means that the connection is gone or was never had.
func lost(err error) bool {
	if e := pq.As(err); e != nil {
		switch e.Code.Class() {
		case pqerror.ClassConnectionException:
			return true
		case pqerror.ClassOperatorIntervention:
			return e.Code != pqerror.QueryCanceled
		}
		return false
	}
	if _, ok := errors.AsType[*net.OpError](err); ok {
		return true
	}
	for _, end := range []error{errStandby, driver.ErrBadConn, sql.ErrConnDone, io.EOF, io.ErrUnexpectedEOF, net.ErrClosed, syscall.EPIPE, syscall.ECONNRESET} {
		if errors.Is(err, end) {
			return true
		}
	}
	return false
}
