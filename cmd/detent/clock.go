package main

import (
	"errors"
	"fmt"
	"reflect"
	"time"

	"github.com/alecthomas/kong"
)

// readTime reads a moment given on the command line into a *time.Time.
func readTime(ctx *kong.DecodeContext, target reflect.Value) error {
	var text string
	if err := ctx.Scan.PopValueInto("time", &text); err != nil {
		return err
	}
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return fmt.Errorf("%q is no time: write it like 2026-05-16T10:00:00Z or 2026-05-16T12:00:00+02:00", text)
	}
	target.Set(reflect.ValueOf(&at))
	return nil
}

// clockAt is a clock that stands at the time given with --at, or the real one for
// nil. A time outside any calendar is wrong use.
func clockAt(at *time.Time) (now func() time.Time, err error) {
	const first, last = 1970, 2999
	switch {
	case at == nil:
		return time.Now, nil
	case at.UTC().Year() < first || at.UTC().Year() > last:
		return nil, usageError{errors.New("--at is out of range: give a time between the years 1970 and 2999")}
	}
	return func() time.Time { return *at }, nil
}
