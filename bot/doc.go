// Package bot is the conversation: an Ask comes in, a Reply goes out, whatever
// the way in. Commands are declared once, as data; the router finds the one
// that is meant, checks who may use it, decodes what was typed and opens the
// club's book for it.
package bot
