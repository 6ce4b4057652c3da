// Package say has the words: what people read of moves, positions, times,
// events, complaints and lists. Each is said in one place. It decides nothing:
// facts of the trade go in, plain English comes out.
package say
