// Package store keeps the club's book in Postgres: one noun a file, the SQL
// beside the method that needs it.
//
// No statement names a club. Each transaction begins by saying whose it is,
// and from then on the database shows and takes that club's rows only. The
// pool works as the role detent_app, which owns nothing.
//
// What people can do something about leaves the package as a tuning.Refusal, with
// what the database said as its cause, or of an address as a *BadAddress; the
// words for it are not here.
package store
