package tuning

import (
	"slices"
	"testing"
)

func TestMovesAreReadAsRemedies(t *testing.T) {
	two := carOf(RearDrive, ways(2, 30))
	mixed := carOf(RearDrive, ways(2, 30))
	mixed.Dampers[Rear] = ways(2, 16)
	one := carOf(RearDrive, Damper{Ways: 1, Range: [Adjusters]int{Rebound: 12}, Count: FromSoft, Moves: MovesBoth})
	understeer, exit := RowKey{Understeer, Entry, ""}, RowKey{Oversteer, Exit, ""}
	rear := Rear
	for _, tt := range []struct {
		name      string
		car       Car
		complaint Complaint
		moves     []Move
		key       RecipeKey
		fraction  float64 // 0: no remedy
	}{
		{"as written", two, Complaint{What: Understeer}, pair(Rear, Rebound, 5, 8), RecipeKey{understeer, RearPart, AnyRebound, Stiffer}, 1},
		{"the second", two, Complaint{What: Understeer, Where: Mid}, pair(Front, Rebound, 5, 2), RecipeKey{understeer, FrontPart, AnyRebound, Softer}, 1},
		{"shrunk", two, Complaint{What: Understeer}, pair(Rear, Rebound, 28, 30), RecipeKey{understeer, RearPart, AnyRebound, Stiffer}, 2.0 / 3},
		{"twice as far", two, Complaint{What: Understeer}, pair(Rear, Rebound, 5, 11), RecipeKey{understeer, RearPart, AnyRebound, Stiffer}, 2},
		{"a slight step asks for one", two, Complaint{What: Oversteer, Where: Exit}, pair(Front, Rebound, 5, 8), RecipeKey{exit, FrontPart, AnyRebound, Stiffer}, 3},
		{"the other way", two, Complaint{What: Understeer}, pair(Rear, Rebound, 8, 5), RecipeKey{}, 0},
		{"another adjuster", two, Complaint{What: Understeer}, pair(Rear, Bump, 5, 8), RecipeKey{}, 0},
		{"one side only", two, Complaint{What: Understeer}, pair(Rear, Rebound, 5, 8)[:1], RecipeKey{}, 0},
		{"the sides apart", two, Complaint{What: Understeer}, []Move{{RL, Rebound, 5, 8}, {RR, Rebound, 5, 7}}, RecipeKey{}, 0},
		{"one more adjuster", two, Complaint{What: Understeer}, append(pair(Rear, Rebound, 5, 8), pair(Rear, Bump, 5, 8)...), RecipeKey{}, 0},
		{"moves that stay are none", two, Complaint{What: Understeer}, append(pair(Rear, Rebound, 5, 8), pair(Rear, Bump, 5, 5)...), RecipeKey{understeer, RearPart, AnyRebound, Stiffer}, 1},
		{"from the unknown", two, Complaint{What: Understeer}, pair(Rear, Rebound, -1, 8), RecipeKey{}, 0},
		{"nothing turned", two, Complaint{What: Understeer}, pair(Rear, Rebound, 8, 8), RecipeKey{}, 0},
		{"all four", mixed, Complaint{What: LowGrip}, append(pair(Front, Bump, 5, 7), pair(Rear, Bump, 5, 7)...), RecipeKey{RowKey{LowGrip, "", ""}, WholeCar, AnyBump, Stiffer}, 1},
		{"both axles, one at its stop", mixed, Complaint{What: SlowSettle}, pair(Front, Rebound, 5, 8), RecipeKey{RowKey{SlowSettle, "", ""}, WholeCar, AnyRebound, Stiffer}, 0.5},
		{"both axles, one shrunk", mixed, Complaint{What: SlowSettle}, append(pair(Front, Rebound, 5, 8), pair(Rear, Rebound, 15, 16)...), RecipeKey{RowKey{SlowSettle, "", ""}, WholeCar, AnyRebound, Stiffer}, 0.75},
		{"the axle that was said", two, Complaint{What: PacksDown, Axle: &rear}, pair(Rear, Rebound, 8, 5), RecipeKey{RowKey{PacksDown, "", ""}, RearPart, AnyRebound, Softer}, 1},
		{"an axle that was not", two, Complaint{What: PacksDown}, pair(Rear, Rebound, 8, 5), RecipeKey{}, 0},
		{"a row of one drive", two, Complaint{What: Wheelspin}, pair(Rear, Bump, 8, 5), RecipeKey{RowKey{Wheelspin, "", RearDrive}, RearPart, AnyBump, Softer}, 1},
		{"an adjuster that stands in", two, Complaint{What: Kerbs}, append(pair(Front, Bump, 5, 4), pair(Rear, Bump, 5, 4)...), RecipeKey{RowKey{Kerbs, "", ""}, WholeCar, FastBump, Softer}, 1},
		{"a one-way that moves both", one, Complaint{What: Oversteer, Where: Exit}, pair(Rear, Rebound, 5, 4), RecipeKey{exit, RearPart, AnyBump, Softer}, 1},
		{"no complaint", two, Complaint{}, pair(Rear, Rebound, 5, 8), RecipeKey{}, 0},
		{"a complaint without clicks", two, Complaint{What: OneSided}, pair(Rear, Rebound, 5, 8), RecipeKey{}, 0},
	} {
		m, ok := MatchMoves(tt.car, tt.complaint, tt.moves, DefaultSizes)
		if ok != (tt.fraction > 0) || m.Key != tt.key || m.Fraction != tt.fraction {
			t.Errorf("%s: %+v, %v", tt.name, m, ok)
		}
	}
}

// Every remedy that the table gives reads back as itself.
func TestAdviceMatchesItsOwnRecipe(t *testing.T) {
	rear := Rear
	for _, drive := range []Drive{FrontDrive, RearDrive, FourDrive} {
		for w := Ways(1); w <= 4; w++ {
			car := carOf(drive, ways(w, 30))
			for _, what := range Whats {
				for _, where := range []Where{Anywhere, Entry, Mid, Exit} {
					c := Complaint{What: what.What, Where: where, Axle: &rear}
					keys := RecipesFor(car, c, History{})
					for i, r := range advise(t, car, all(car, 14), c, History{}).Remedies {
						m, ok := MatchMoves(car, c, r.Moves, DefaultSizes)
						if !ok || m.Fraction != 1 || i >= len(keys) || keys[i] != m.Key {
							t.Errorf("%s %s, %s drive, %s-way: remedy %d reads as %+v, %v; the table has %+v", what.What, where, drive, w, i+1, m, ok, keys)
						}
					}
				}
			}
		}
	}
}

func TestRecipesStandInTheOrderOfTheCar(t *testing.T) {
	push := Complaint{What: Understeer, Where: Exit}
	front, rear := RecipeKey{RowKey{Understeer, Exit, ""}, FrontPart, AnyRebound, Softer}, RecipeKey{RowKey{Understeer, Exit, ""}, RearPart, AnyBump, Stiffer}
	for drive, want := range map[Drive][]RecipeKey{FrontDrive: {rear, front}, RearDrive: {front, rear}} {
		if got := RecipesFor(carOf(drive, ways(2, 30)), push, History{}); !slices.Equal(got, want) {
			t.Errorf("%s drive: %+v", drive, got)
		}
	}
	if got := RecipesFor(carOf(FrontDrive, ways(1, 30)), push, History{}); !slices.Equal(got, []RecipeKey{front}) {
		t.Errorf("without bump: %+v", got)
	}
	if got := RecipesFor(Car{}, Complaint{What: PacksDown}, History{}); got != nil {
		t.Errorf("without an axle: %+v", got)
	}
}

// A remedy as the table writes it matches as a whole.
func TestWrittenIsMatchedWhole(t *testing.T) {
	front := Front
	for _, car := range []Car{{Drive: FrontDrive}, {Drive: RearDrive}, {Drive: FourDrive}} {
		d := Damper{Ways: 4, Count: FromSoft}
		for _, a := range d.Adjusters() {
			d.Range[a] = 24
		}
		car.Dampers = [Axles]Damper{d, d}
		for _, w := range Whats {
			c := Complaint{What: w.What, Axle: &front}
			for _, key := range RecipesFor(car, c, History{}) {
				m, ok := MatchMoves(car, c, Written(car, c, key, DefaultSizes), DefaultSizes)
				if !ok || m.Key != key || m.Fraction != 1 {
					t.Errorf("%+v is matched as %+v (%v)", key, m, ok)
				}
			}
		}
	}
	if moves := Written(Car{}, Complaint{What: Understeer}, RecipeKey{}, DefaultSizes); moves != nil {
		t.Errorf("no remedy is written as %+v", moves)
	}
}
