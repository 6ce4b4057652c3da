package main

import (
	"errors"
	"time"
)

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
