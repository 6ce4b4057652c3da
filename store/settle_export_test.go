package store

import "time"

// SettleWithin sets how long a request that may have been kept is asked again.
func (db *DB) SettleWithin(d time.Duration) { db.settling = d }
