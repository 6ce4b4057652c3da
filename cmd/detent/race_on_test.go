//go:build race

package main

// raceEnabled tells whether the tests run with the race detector.
const raceEnabled = true
