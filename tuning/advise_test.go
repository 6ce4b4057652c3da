package tuning

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// Every figure in this file's tables is common practice, no published source;
// rows marked (m) are from memory of the trade.

// twoWay is a pair of two-way dampers.
func twoWay(n int, count Count) Damper {
	d := Damper{Ways: 2, Count: count}
	d.Range[Bump], d.Range[Rebound] = n, n
	return d
}

func ways(w Ways, n int) Damper {
	d := Damper{Ways: w, Count: FromSoft}
	for _, a := range d.Adjusters() {
		d.Range[a] = n
	}
	if w == 1 {
		d.Moves = MovesRebound
	}
	return d
}

// carOf is a car with the same dampers at both ends.
func carOf(drive Drive, d Damper) Car {
	return Car{Name: "Blue hatch", Drive: drive, Engine: FrontEngine, Tyre: RoadTyre, Aero: NoAero, Use: TrackUse,
		Dampers: [Axles]Damper{d, d}}
}

// all is a setting with every adjuster of every corner at one position.
func all(car Car, position int) Setting {
	var s Setting
	for c := range Corner(Corners) {
		for _, a := range car.Dampers[c.Axle()].Adjusters() {
			s[c][a] = position
		}
	}
	return s
}

// said writes a remedy as "FL FR rebound +3".
func said(r Remedy) string {
	if r.Kind.SetsAll() {
		return string(r.Kind)
	}
	var out []string
	var corners []string
	for i, m := range r.Moves {
		corners = append(corners, m.Corner.String())
		if i+1 == len(r.Moves) || r.Moves[i+1].Adjuster != m.Adjuster || r.Moves[i+1].To-r.Moves[i+1].From != m.To-m.From {
			out = append(out, fmt.Sprintf("%s %s %+d", strings.Join(corners, " "), m.Adjuster, m.To-m.From))
			corners = nil
		}
	}
	s := strings.Join(out, ", ")
	if r.Kind != TurnClicks {
		s = string(r.Kind) + ": " + s
	}
	if r.Confidence == WeakerPractice {
		s += " (m)"
	}
	return s
}

func TestEachRowOfTheTable(t *testing.T) {
	rear := Rear
	two := ways(2, 30)
	const f, r, a = "FL FR", "RL RR", "FL FR RL RR"
	for _, tt := range []struct {
		name      string
		drive     Drive
		damper    Damper
		complaint Complaint
		want      []string
	}{
		{"oversteer", RearDrive, two, Complaint{What: Oversteer}, []string{f + " rebound +3", r + " rebound -3 (m)"}},
		{"oversteer entry", RearDrive, two, Complaint{What: Oversteer, Where: Entry}, []string{f + " rebound +3", r + " rebound -3 (m)"}},
		{"oversteer mid", FrontDrive, two, Complaint{What: Oversteer, Where: Mid}, []string{f + " rebound +3", r + " rebound -3 (m)"}},
		{"understeer", FrontDrive, two, Complaint{What: Understeer}, []string{r + " rebound +3", f + " rebound -3 (m)"}},
		{"understeer exit, front driven", FrontDrive, two, Complaint{What: Understeer, Where: Exit}, []string{r + " bump +3", f + " rebound -1"}},
		{"understeer exit, all driven", FourDrive, two, Complaint{What: Understeer, Where: Exit}, []string{r + " bump +3", f + " rebound -1"}},
		{"understeer exit, the rear needs its squat", RearDrive, two, Complaint{What: Understeer, Where: Exit}, []string{f + " rebound -1", r + " bump +3"}},
		{"oversteer exit", RearDrive, two, Complaint{What: Oversteer, Where: Exit}, []string{r + " bump -3", f + " rebound +1"}},
		{"low grip", RearDrive, two, Complaint{What: LowGrip}, []string{a + " bump +3"}},
		{"hops", RearDrive, two, Complaint{What: Hops}, []string{a + " bump -2", a + " rebound -1 (m)"}},
		{"hops, few clicks", RearDrive, ways(2, 12), Complaint{What: Hops}, []string{a + " bump -1", a + " rebound -1 (m)"}},
		{"kerbs, four-way", RearDrive, ways(4, 16), Complaint{What: Kerbs}, []string{a + " high-bump -2", a + " high-rebound -2 (m)"}},
		{"kerbs, three-way", RearDrive, ways(3, 16), Complaint{What: Kerbs}, []string{a + " high-bump -2"}},
		{"kerbs, two-way", RearDrive, two, Complaint{What: Kerbs}, []string{a + " bump -1"}},
		{"slow to settle (m)", RearDrive, two, Complaint{What: SlowSettle}, []string{a + " rebound +3 (m)"}},
		{"packs down (m)", RearDrive, two, Complaint{What: PacksDown, Axle: &rear}, []string{r + " rebound -3 (m)"}},
		{"dives (m)", RearDrive, two, Complaint{What: Dives}, []string{f + " bump +3 (m)", r + " rebound +1 (m)"}},
		{"loose under braking (m)", RearDrive, two, Complaint{What: LooseBraking}, []string{r + " rebound -3 (m)", f + " bump +1 (m)"}},
		{"slow to turn in (m)", RearDrive, two, Complaint{What: SlowTurnIn}, []string{f + " bump +1 (m)", f + " rebound +1 (m)"}},
		{"nervous (m)", RearDrive, two, Complaint{What: Nervous}, []string{f + " bump -1 (m)"}},
		{"wheelspin, rear", RearDrive, two, Complaint{What: Wheelspin}, []string{r + " bump -3"}},
		{"wheelspin, front (m)", FrontDrive, two, Complaint{What: Wheelspin}, []string{f + " rebound -3 (m)"}},
		{"wheelspin, four (m)", FourDrive, two, Complaint{What: Wheelspin}, []string{r + " bump -1 (m)"}},
		{"bottoms (m)", RearDrive, ways(4, 30), Complaint{What: Bottoms, Axle: &rear}, []string{r + " high-bump +3 (m)"}},
		{"bottoms, no high-speed adjuster (m)", RearDrive, two, Complaint{What: Bottoms, Axle: &rear}, []string{r + " bump +1 (m)"}},
		{"one-sided", RearDrive, two, Complaint{What: OneSided}, nil},
		{"low-speed adjusters do the driver's work", RearDrive, ways(4, 30), Complaint{What: Oversteer, Where: Exit}, []string{r + " low-bump -3", f + " low-rebound +1"}},
		{"three-way rebound is one", RearDrive, ways(3, 20), Complaint{What: Oversteer}, []string{f + " rebound +3", r + " rebound -3 (m)"}},
		{"one-way without bump: the next moves up", RearDrive, ways(1, 7), Complaint{What: Oversteer, Where: Exit}, []string{f + " rebound +1"}},
		{"one-way that moves both stands in for bump", RearDrive, Damper{Ways: 1, Range: [Adjusters]int{Rebound: 7}, Count: FromSoft, Moves: MovesBoth},
			Complaint{What: Oversteer, Where: Exit}, []string{r + " rebound -1", f + " rebound +1"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			car := carOf(tt.drive, tt.damper)
			n := tt.damper.Range[tt.damper.Adjusters()[0]]
			advice, err := Advise(car, all(car, belowMiddle(n)), tt.complaint, History{}, DefaultSizes)
			if err != nil {
				t.Fatal(err)
			}
			check(t, advice, tt.want...)
		})
	}
}

func check(t *testing.T, advice Advice, want ...string) {
	t.Helper()
	var got []string
	for _, r := range advice.Remedies {
		got = append(got, said(r))
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("remedies %q, want %q (notes %+v)", got, want, advice.Notes)
	}
}

func advise(t *testing.T, car Car, at Setting, c Complaint, h History) Advice {
	t.Helper()
	advice, err := Advise(car, at, c, h, DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	return advice
}

func TestBothAxlesMoveByTheirOwnStepAndAllAlikeByTheSmaller(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	car.Dampers[Rear] = ways(2, 16)
	at := all(car, 7)
	check(t, advise(t, car, at, Complaint{What: SlowSettle}, History{}), "FL FR rebound +3, RL RR rebound +2 (m)")
	check(t, advise(t, car, at, Complaint{What: LowGrip}, History{}), "FL FR RL RR bump +2")
	check(t, advise(t, car, at, Complaint{What: Oversteer}, History{}), "FL FR rebound +3", "RL RR rebound -2 (m)")
}

func TestEachAxleIsHeldByItsOwnRoom(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	car.Dampers[Rear] = ways(2, 16)
	at := all(car, 7)
	at[RL][Rebound], at[RR][Rebound] = 15, 15
	check(t, advise(t, car, at, Complaint{What: SlowSettle}, History{}), "FL FR rebound +3, RL RR rebound +1 (m)")
	at[RL][Rebound], at[RR][Rebound] = 16, 16
	check(t, advise(t, car, at, Complaint{What: SlowSettle}, History{}), "FL FR rebound +3 (m)")
	alike := carOf(RearDrive, ways(2, 30)) // four corners of one step move alike
	at = all(alike, 7)
	at[RR][Rebound] = 29
	check(t, advise(t, alike, at, Complaint{What: SlowSettle}, History{}), "FL FR RL RR rebound +1 (m)")
}

func TestOneMoveIsOfferedOnce(t *testing.T) {
	both := Damper{Ways: 1, Range: [Adjusters]int{Rebound: 18}, Count: FromSoft, Moves: MovesBoth}
	car := carOf(FrontDrive, both)
	check(t, advise(t, car, all(car, 13), Complaint{What: SlowTurnIn}, History{}), "FL FR rebound +1 (m)")
	car = carOf(RearDrive, ways(2, 20))
	push := Complaint{What: Understeer, Where: Exit}
	h := History{Changes: []Change{tried(7, push, "", pair(Front, Rebound, 9, 8)...)}}
	at := all(car, 8)
	check(t, advise(t, car, at, Complaint{What: Oversteer, Where: Exit}, h), "half: FL FR rebound +1", "RL RR bump -3")
}

func TestNearAStop(t *testing.T) {
	car := carOf(FrontDrive, ways(2, 30))
	at := all(car, 14)
	at[RL][Rebound], at[RR][Rebound] = 29, 29
	advice := advise(t, car, at, Complaint{What: Understeer}, History{})
	check(t, advice, "FL FR rebound -3 (m)", "RL RR rebound +1")
	if !slices.Contains(advice.Notes, Fact{Kind: NearStop, Part: RearPart, Adjuster: Rebound, Turn: Stiffer, Clicks: 1}) {
		t.Errorf("it does not say that the remedy shrank: %+v", advice.Notes)
	}

	at[RL][Rebound], at[RR][Rebound] = 30, 30
	check(t, advise(t, car, at, Complaint{What: Understeer}, History{}), "FL FR rebound -3 (m)")

	// The corner with the least room sets the number for all four.
	at = all(car, 14)
	at[RR][Bump] = 29
	check(t, advise(t, car, at, Complaint{What: LowGrip}, History{}), "FL FR RL RR bump +1")
	at[RR][Bump] = 30
	check(t, advise(t, car, at, Complaint{What: LowGrip}, History{}))
}

func TestAboveTwoThirds(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	at := all(car, 14)
	at[FL][Rebound], at[FR][Rebound] = 21, 21
	check(t, advise(t, car, at, Complaint{What: Oversteer}, History{}), "RL RR rebound -3 (m)", "FL FR rebound +3")
	at[FL][Rebound], at[FR][Rebound] = 20, 20 // two thirds itself is not above
	check(t, advise(t, car, at, Complaint{What: Oversteer}, History{}), "FL FR rebound +3", "RL RR rebound -3 (m)")
	// Both short of clicks: the stiffening one on the high adjuster goes last.
	one := carOf(FrontDrive, ways(1, 19))
	one.Dampers[Rear] = ways(1, 13)
	short := all(one, 1)
	short[FL][Rebound], short[FR][Rebound] = 18, 18
	check(t, advise(t, one, short, Complaint{What: Oversteer}, History{}), "RL RR rebound -1 (m)", "FL FR rebound +1")
	at = all(car, 22)
	check(t, advise(t, car, at, Complaint{What: Oversteer}, History{}), "baseline", "RL RR rebound -3 (m)", "FL FR rebound +3")
}

func TestNervousAboveTheMiddleGoesBackToTheStart(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	at := all(car, 14)
	at[RR][Bump] = 16
	advice := advise(t, car, at, Complaint{What: Nervous}, History{})
	check(t, advice, "baseline")
	if n := len(advice.Remedies[0].Moves); n != 8 {
		t.Errorf("the return lists %d adjusters, want all 8", n)
	}
}

// tried is a change made for a complaint, with what was felt after it.
func tried(id int64, c Complaint, felt Better, moves ...Move) Change {
	return Change{ID: id, Reason: ByRemedy, Complaint: &c, Felt: felt, Moves: moves}
}

func pair(axle Axle, a Adjuster, from, to int) []Move {
	c := axle.Corners()
	return []Move{{c[0], a, from, to}, {c[1], a, from, to}}
}

func TestMemory(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	at := all(car, 14)
	push := Complaint{What: Understeer, Where: Entry}
	stiffer := func(id int64, felt Better) Change { return tried(id, push, felt, pair(Rear, Rebound, 11, 14)...) }

	t.Run("worse: undo first", func(t *testing.T) {
		advice := advise(t, car, at, push, History{Changes: []Change{stiffer(7, BetterNo)}})
		check(t, advice, "undo: RL RR rebound -3", "RL RR rebound +3", "FL FR rebound -3 (m)")
		if want := (Fact{Kind: FeltWorse, Axle: Rear, Adjuster: Rebound, Turn: Stiffer}); !slices.Contains(advice.Facts, want) {
			t.Errorf("it does not say what felt worse: %+v", advice.Facts)
		}
		if advice.Remedies[0].Undoes != 7 || advice.Remedies[0].Reason() != ByUndo {
			t.Errorf("the undo does not name what it takes back: %+v", advice.Remedies[0])
		}
	})
	t.Run("worse but taken back already", func(t *testing.T) {
		gone := stiffer(7, BetterNo)
		gone.Undone = true
		advice := advise(t, car, at, push, History{Changes: []Change{gone}})
		check(t, advice, "FL FR rebound -3 (m)", "RL RR rebound +3")
	})
	t.Run("two tries in one direction without a gain", func(t *testing.T) {
		advice := advise(t, car, at, push, History{Changes: []Change{stiffer(8, BetterSame), stiffer(7, BetterSame)}})
		check(t, advice)
		if len(advice.First) < len(Checks) {
			t.Errorf("it does not send to the checks: %q", advice.First)
		}
	})
	t.Run("two tries, one helped", func(t *testing.T) {
		advice := advise(t, car, at, push, History{Changes: []Change{stiffer(8, BetterSame), stiffer(7, BetterYes)}})
		check(t, advice, "RL RR rebound +3", "FL FR rebound -3 (m)")
	})
	t.Run("two tries, nothing said: go on, and ask", func(t *testing.T) {
		for felt, asks := range map[Better]bool{"": true, BetterYes: false} {
			advice := advise(t, car, at, push, History{Changes: []Change{stiffer(8, felt), stiffer(7, "")}})
			check(t, advice, "RL RR rebound +3", "FL FR rebound -3 (m)")
			if advice.Tells(UntoldTries) != asks {
				t.Errorf("felt %q, it tells %+v", felt, advice.Facts)
			}
		}
	})
	t.Run("two tries in two directions", func(t *testing.T) {
		other := tried(8, push, BetterSame, pair(Front, Rebound, 17, 14)...)
		advice := advise(t, car, at, push, History{Changes: []Change{other, stiffer(7, BetterSame)}})
		check(t, advice, "RL RR rebound +3", "FL FR rebound -3 (m)")
	})
	t.Run("turned into its opposite: half back", func(t *testing.T) {
		advice := advise(t, car, at, Complaint{What: Oversteer, Where: Mid}, History{Changes: []Change{stiffer(7, "")}})
		check(t, advice, "half: RL RR rebound -1", "FL FR rebound +3", "RL RR rebound -3 (m)")
	})
	t.Run("turned, by one click: one click back", func(t *testing.T) {
		exit := Complaint{What: Understeer, Where: Exit}
		h := History{Changes: []Change{tried(7, exit, BetterYes, pair(Front, Rebound, 15, 14)...)}}
		advice := advise(t, car, at, Complaint{What: Oversteer, Where: Exit}, h)
		check(t, advice, "half: FL FR rebound +1", "RL RR bump -3")
	})
	t.Run("a fault in the notes stops all clicks", func(t *testing.T) {
		advice := advise(t, car, at, push, History{LastFeel: &Feel{Notes: "a knock from the left rear"}})
		check(t, advice)
	})
	t.Run("entry and mid good: the front comes first on exit", func(t *testing.T) {
		zero := 0
		front := carOf(FrontDrive, ways(2, 30))
		advice := advise(t, front, at, Complaint{What: Understeer, Where: Exit}, History{LastFeel: &Feel{Entry: &zero, Mid: &zero}})
		check(t, advice, "FL FR rebound -1", "RL RR bump +3")
	})
}

func TestWhatIsSaid(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	at := all(car, 14)
	mid := advise(t, car, at, Complaint{What: Understeer, Where: Mid}, History{})
	if !slices.Contains(mid.Facts, Fact{Kind: MidCorner}) {
		t.Errorf("a mid-corner complaint is not put down to springs and bars: %+v", mid.Facts)
	}
	if len(mid.First) != 0 {
		t.Errorf("checks that were shown already come again: %q", mid.First)
	}
	if due := advise(t, car, at, Complaint{What: Understeer}, History{ChecksDue: true}); len(due.First) != len(Checks) {
		t.Errorf("the checks are due and missing: %q", due.First)
	}
	if c := advise(t, car, all(car, 20), Complaint{What: LowGrip}, History{}).Cautions; !strings.Contains(fmt.Sprint(c), string(TooStiff)) {
		t.Errorf("no caution for the stiff side: %q", c)
	}
	if _, err := Advise(car, at, Complaint{What: Bottoms}, History{}, DefaultSizes); KindOf(err) != Invalid {
		t.Errorf("bottoms without an axle: %v", err)
	}
	if _, err := Advise(Car{Name: "x"}, at, Complaint{What: Hops}, History{}, DefaultSizes); KindOf(err) != Invalid {
		t.Errorf("no dampers: %v", err)
	}
}
