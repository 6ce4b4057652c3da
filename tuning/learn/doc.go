// Package learn is what the record says a turn does: on one car, in one club,
// and how sure that is.
//
// For each remedy of the table, by its Key, it estimates β: how many marks of
// the driver's scale (-3 to +3) the remedy as written moves the car the way it
// should. A Record is read into tries: a change that made the remedy, and what
// the driver said after it. Tries add up to Sums, and everything else is a
// closed form over those. The model is
//
//	β of the club   ~ N(μ₀, τ_k²)
//	β of a car      ~ N(β of the club, τ_c²)
//	y of a try      ~ N(u·β, R/w)
//
// where u is the part of the remedy that was turned, R the variance of the
// reading and w the weight that its age and the changes since leave it. This is
// the normal model with known variances, whose posterior is again normal.
//
// It is pure: it opens nothing and reads no clock. Its constants are from
// memory and stand in constants.go.
package learn
