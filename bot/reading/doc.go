// Package reading reads what people type that is more than one word or one
// number, pressures and positions, and the words for parts of a car. What it refuses it refuses with a sentence that says what to type.
package reading
