package tuning

// RowKey names a row of the table of remedies: a complaint, the part of the
// corner where the row depends on it, and the drive where the row does.
type RowKey struct {
	What  What
	Where Where // Entry (entry, mid and not said) or Exit for a row that depends on it, else Anywhere
	Drive Drive // "" for a row of any drive
}

// RecipeKey names one remedy of a row, whatever the damper: a part of the car,
// an adjuster by its job, and the way it turns.
type RecipeKey struct {
	Row  RowKey
	Part Part
	Job  Job
	Turn Turn
}

// Match is a change of clicks read as a remedy of the table.
type Match struct {
	Key      RecipeKey
	Fraction float64 // clicks turned over clicks that the row asks for, above 0; over two axles the mean
}

// MatchMoves finds the remedy of the complaint's row that moves make on the car,
// by the club's sizes. ok is false when they make none: they turn another
// adjuster, go both ways, or turn left and right differently.
func MatchMoves(car Car, c Complaint, moves []Move, sizes Sizes) (m Match, ok bool) {
	r, ok := rowFor(car, c)
	if !ok || c.What.NeedsAxle() && c.Axle == nil {
		return m, false
	}
	for _, recipe := range r.recipes {
		targets, _ := recipe.targetsOf(car, c, sizes)
		if fraction, ok := fractionOf(targets, recipe.turn, moves); ok {
			return Match{recipe.key(r, c), fraction}, true
		}
	}
	return m, false
}

// RecipesFor lists the remedies of the complaint's row that the car's dampers
// can do, in the order of the table's rules for this car, whatever clicks are
// left. The first is the one that the trade would try first.
func RecipesFor(car Car, c Complaint, h History) []RecipeKey {
	r, ok := rowFor(car, c)
	if !ok || c.What.NeedsAxle() && c.Axle == nil {
		return nil
	}
	var keys []RecipeKey
	for _, recipe := range r.inOrder(car, h) {
		if targets, _ := recipe.targetsOf(car, c, DefaultSizes); len(targets) > 0 {
			keys = append(keys, recipe.key(r, c))
		}
	}
	return keys
}

// key names the recipe.
func (r recipe) key(of row, c Complaint) RecipeKey {
	part := WholeCar
	if axles := r.axles(c); len(axles) == 1 {
		part = PartOf(axles[0])
	}
	return RecipeKey{RowKey{of.what, of.phase, of.drive}, part, r.job, r.turn}
}

// fractionOf tells how much of the targets moves turn, the mean of the axles.
// ok is false when they turn anything else, nothing, or left and right apart.
func fractionOf(targets []target, turn Turn, moves []Move) (fraction float64, ok bool) {
	if len(targets) == 0 {
		return 0, false
	}
	type place struct {
		corner   Corner
		adjuster Adjuster
	}
	turned := map[place]int{}
	for _, m := range moves {
		switch {
		case m.From == m.To:
		case m.From < 0 || m.Turn() != turn:
			return 0, false
		default:
			turned[place{m.Corner, m.Adjuster}] = m.Clicks()
		}
	}
	found := 0
	for i := 0; i < len(targets); i += 2 { // left, then right of one axle
		left, right := targets[i], targets[i+1]
		clicks := turned[place{left.corner, left.adjuster}]
		if clicks != turned[place{right.corner, right.adjuster}] {
			return 0, false
		}
		if clicks > 0 {
			found += 2
		}
		fraction += float64(clicks) / float64(left.clicks)
	}
	return fraction / float64(len(targets)/2), found > 0 && found == len(turned)
}

// Written are the moves of a remedy as its row writes it for the car, from the
// soft stop for one that stiffens. There are none where the car's dampers cannot
// do it, or the remedy is not of the complaint's row.
func Written(car Car, c Complaint, key RecipeKey, sizes Sizes) []Move {
	r, ok := rowFor(car, c)
	if !ok || c.What.NeedsAxle() && c.Axle == nil {
		return nil
	}
	var moves []Move
	for _, recipe := range r.recipes {
		if recipe.key(r, c) != key {
			continue
		}
		targets, _ := recipe.targetsOf(car, c, sizes)
		for _, t := range targets {
			m := Move{Corner: t.corner, Adjuster: t.adjuster, From: 0, To: t.clicks}
			if recipe.turn == Softer {
				m.From, m.To = m.To, m.From
			}
			moves = append(moves, m)
		}
	}
	return moves
}
