package tuning

// Turned leaves out the moves that go nowhere.
func Turned(moves []Move) []Move {
	var out []Move
	for _, m := range moves {
		if m.From != m.To {
			out = append(out, m)
		}
	}
	return out
}
