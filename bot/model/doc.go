// Package model says what the vehicle model makes of a car: a verdict on each
// remedy, figures and damping ratios, windows, what it thinks of a start, and
// the pictures of them. The facts come from tuning/figures; this room adds them
// to a reply in sentences. The trade's answer and its order stand whatever the
// model says, and where the model has no answer the reply says why.
package model
