package main

import (
	"context"
	"fmt"
	"io"
)

type migrateCmd struct{}

// Run brings the database to this program's schema; opening it does that.
func (migrateCmd) Run(ctx context.Context, config *Config, out io.Writer) error {
	_, close, err := config.open(ctx, toServe)
	if err != nil {
		return err
	}
	fmt.Fprintln(out, "The database is at this program's schema.")
	return close()
}
