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
