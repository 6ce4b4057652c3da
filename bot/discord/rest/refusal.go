package rest

import (
	"errors"
	"fmt"
)

// Refusal is the platform's no: the status, its own code and its words.
type Refusal struct {
	Status  int
	Code    int    `json:"code"`
	Message string `json:"message"`
}

func (r *Refusal) Error() string {
	return fmt.Sprintf("the platform answered %d, code %d: %s", r.Status, r.Code, r.Message)
}

// The platform's codes that mean something here.
const (
	CodeNoMessage    = 10008 // the message is gone
	CodeNoAnswer     = 10015 // the interaction has no first answer yet
	CodeAnswered     = 40060 // a first answer is there already
	CodeTooFast      = 40003 // direct messages are opened too fast
	CodeNoDirect     = 50007 // the person takes no direct messages
	CodeNoDirectHere = 50278 // nor from this bot, having no club in common
)

// AsRefusal finds the refusal in an error.
func AsRefusal(err error) (*Refusal, bool) { return errors.AsType[*Refusal](err) }

// IsRefusal tells whether an error is the refusal of a code.
func IsRefusal(err error, code int) bool {
	r, ok := AsRefusal(err)
	return ok && r.Code == code
}

// doubt is an error of a request that the platform may have done all the same.
type doubt struct{ error }

func (d doubt) Unwrap() error { return d.error }

// Unsure tells whether the platform may have done what was asked although
// Client.Do returned an error: the answer to an attempt was lost, or does not
// say.
func Unsure(err error) bool {
	_, unsure := errors.AsType[doubt](err)
	return unsure
}

// doubted marks an error where unsure.
func doubted(err error, unsure bool) error {
	if err == nil || !unsure {
		return err
	}
	return doubt{err}
}

// surelyUndone tells whether a failed attempt changed nothing: the platform
// said no.
func surelyUndone(err error) bool {
	r, refused := AsRefusal(err)
	return refused && r.Status < 500
}
