// Package store keeps the club's book in Postgres: one noun a file, the SQL
// beside the method that needs it.
//
// No statement names a club. Each transaction begins by saying whose it is,
// and from then on the database shows and takes that club's rows only. The
// pool works as the role detent_app, which owns nothing.
//
// Every error that leaves the package is a *tuning.Problem, with what the
// database said as its cause, or of an address a *BadAddress.
package store
