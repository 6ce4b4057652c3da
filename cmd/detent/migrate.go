package main

import (
	"context"
	"fmt"
	"io"
)

type migrateCmd struct{}

// Run brings the database to this program's schema, which opening it does.
func (migrateCmd) Run(ctx context.Context, config *Config, out io.Writer) error {
	_, close, err := config.open(ctx, toServe)
	if err != nil {
		return err
	}
	fmt.Fprintln(out, "The database is at this program's schema.")
	return close()
}
