package bot

// Digest tells a coach what their students did in a span of time.
type Digest struct {
	Reply    Reply
	Students []string // whose things it shows, by key
	News     bool     // whether one of them turned something or owes an answer
}
