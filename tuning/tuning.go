// Package tuning is the trade: the nouns a club speaks in when it sets
// dampers, and the judgement of when to turn which adjuster which way.
//
// It is pure. It opens nothing, sends nothing and reads no clock; the same
// input gives the same answer. Everything it asserts is common practice in the
// trade with no published source, unless a comment says otherwise.
package tuning
