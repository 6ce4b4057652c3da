package tuning

import (
	"slices"
	"testing"
	"time"
)

// What the judgement must show. Common practice, no published source, and the
// entries marked (m) from memory of the trade.

func wet(c Complaint) Complaint { c.Weather = Wet; return c }

func TestWhatJustFailedIsNotOfferedFirstAgain(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	at := all(car, 14)
	push, float := Complaint{What: Understeer, Where: Entry}, Complaint{What: LowGrip}
	monday := time.Date(2026, 6, 1, 10, 40, 0, 0, time.UTC)
	made := func(id int64, c Complaint, felt Better, undone bool, moves ...Move) Change {
		change := tried(id, c, felt, moves...)
		change.Undone, change.At = undone, monday
		return change
	}
	rear := func(felt Better, undone bool) Change {
		return made(7, push, felt, undone, pair(Rear, Rebound, 11, 14)...)
	}
	front := made(9, push, "", false, pair(Front, Rebound, 14, 11)...)
	undo := Change{ID: 8, Reason: ByUndo, Undoes: 7, Moves: pair(Rear, Rebound, 14, 11)}
	bump := made(7, float, BetterNo, true, append(pair(Front, Bump, 11, 14), pair(Rear, Bump, 11, 14)...)...)
	const first, second = "RL RR rebound +3", "FL FR rebound -3 (m)"
	for _, tt := range []struct {
		name      string
		complaint Complaint
		changes   []Change // newest first
		want      []string
		said      bool // what felt worse and when
		checks    bool
	}{
		{"worse and taken back", push, []Change{undo, rear(BetterNo, true)}, []string{second, first}, true, true},
		{"the same and taken back", push, []Change{undo, rear(BetterSame, true)}, []string{first, second}, false, true},
		{"better and taken back", push, []Change{undo, rear(BetterYes, true)}, []string{first, second}, false, false},
		{"worse and still there", push, []Change{rear(BetterNo, false)}, []string{"undo: RL RR rebound -3", first, second}, true, true},
		{"something else was tried since", push, []Change{front, undo, rear(BetterNo, true)}, []string{first, second}, true, false},
		{"another weather", wet(push), []Change{undo, rear(BetterNo, true)}, []string{"wet", first, second}, true, true},
		{"another complaint was tried since", push, []Change{made(9, float, BetterYes, false, pair(Front, Bump, 11, 14)...), undo, rear(BetterNo, true)}, []string{second, first}, true, false},
		{"a row with one remedy: the checks first", float, []Change{undo, bump}, []string{"FL FR RL RR bump +3"}, true, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			advice := advise(t, car, at, tt.complaint, History{Changes: tt.changes})
			check(t, advice, tt.want...)
			said := slices.ContainsFunc(advice.Facts, func(f Fact) bool { return f.Kind == FeltWorse && f.At.Equal(monday) && f.Turn == Stiffer })
			if said != tt.said {
				t.Errorf("the facts are %+v", advice.Facts)
			}
			if got := len(advice.First) == len(Checks); got != tt.checks {
				t.Errorf("the checks come first: %v", advice.First)
			}
		})
	}
}

func TestNearTheStiffEnd(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	fourWay := carOf(RearDrive, ways(4, 30))
	rear := Rear
	stand := func(front, rear int) Setting {
		at := all(car, 14)
		for _, c := range []Corner{FL, FR} {
			at[c][Bump], at[c][Rebound] = front, front
		}
		for _, c := range []Corner{RL, RR} {
			at[c][Bump], at[c][Rebound] = rear, rear
		}
		return at
	}
	const four = "FL FR RL RR bump +3"
	for _, tt := range []struct {
		name      string
		car       Car
		at        Setting
		complaint Complaint
		want      []string
		little    *Fact
	}{
		{"low grip, bump high on both axles", car, stand(21, 21), Complaint{What: LowGrip}, []string{"baseline", four}, &Fact{Kind: LittleLeft, Axle: Front, Adjuster: Bump}},
		{"low grip, two thirds is not above", car, stand(20, 20), Complaint{What: LowGrip}, []string{four}, nil},
		{"low grip, bump high on one axle", car, stand(14, 21), Complaint{What: LowGrip}, []string{four}, &Fact{Kind: LittleLeft, Axle: Rear, Adjuster: Bump}},
		{"low grip, at the stop", car, stand(30, 30), Complaint{What: LowGrip}, []string{"baseline"}, nil},
		{"slow to settle, rebound high (m)", car, stand(14, 24), Complaint{What: SlowSettle}, []string{"FL FR RL RR rebound +3 (m)"}, &Fact{Kind: LittleLeft, Axle: Rear, Adjuster: Rebound}},
		{"slow to settle, rebound high on both (m)", car, stand(24, 24), Complaint{What: SlowSettle}, []string{"FL FR RL RR rebound +3 (m)"}, &Fact{Kind: LittleLeft, Axle: Front, Adjuster: Rebound}},
		{"bottoms, high-speed bump high (m)", fourWay, all(fourWay, 25), Complaint{What: Bottoms, Axle: &rear}, []string{"RL RR high-bump +3 (m)"}, &Fact{Kind: LittleLeft, Axle: Rear, Adjuster: HighBump}},
		{"a single softening remedy has room", car, stand(25, 25), Complaint{What: Wheelspin}, []string{"RL RR bump -3"}, nil},
		{"both high, one of them at its stop", car, stand(30, 22), Complaint{What: Oversteer}, []string{"baseline", "RL RR rebound -3 (m)"}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			advice := advise(t, tt.car, tt.at, tt.complaint, History{})
			check(t, advice, tt.want...)
			i := slices.IndexFunc(advice.Facts, func(f Fact) bool { return f.Kind == LittleLeft })
			if (i >= 0) != (tt.little != nil) || i >= 0 && advice.Facts[i] != *tt.little {
				t.Errorf("the facts are %+v", advice.Facts)
			}
		})
	}
}

func TestWetFromTheDryStart(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30)) // dry 14 and 11, wet 11 and 8
	soft := carOf(RearDrive, ways(1, 1)) // every start is 0
	dry, err := Baseline(car, Dry, DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	wetStart, err := Baseline(car, Wet, DefaultSizes)
	if err != nil {
		t.Fatal(err)
	}
	stiffer, oneSofter := all(car, 16), dry
	oneSofter[RR][Bump]--
	push := Complaint{What: Understeer}
	row := []string{"RL RR rebound +3", "FL FR rebound -3 (m)"}
	for _, tt := range []struct {
		name      string
		car       Car
		at        Setting
		complaint Complaint
		history   History
		want      []string
	}{
		{"at the dry start", car, dry, wet(push), History{}, append([]string{"wet"}, row...)},
		{"stiffer than that", car, stiffer, wet(push), History{}, append([]string{"wet"}, row...)},
		{"one adjuster is softer already", car, oneSofter, wet(push), History{}, row},
		{"at the wet start", car, wetStart, wet(push), History{}, row},
		{"dry", car, dry, push, History{}, row},
		{"no start is softer in the wet", soft, all(soft, 0), wet(push), History{}, []string{"RL RR rebound +1"}},
		{"all stands high: the wet start is the start", car, all(car, 25), wet(push), History{}, []string{"wet", "FL FR rebound -3 (m)", "RL RR rebound +3"}},
		{"nervous above the middle", car, stiffer, wet(Complaint{What: Nervous}), History{}, []string{"baseline"}},
		{"nothing to turn for it", car, dry, wet(Complaint{What: OneSided}), History{}, nil},
		{"what made it worse comes back before", car, dry, wet(push), History{Changes: []Change{tried(7, wet(push), BetterNo, pair(Rear, Rebound, 8, 11)...)}},
			append([]string{"undo: RL RR rebound -3", "wet"}, row...)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			advice := advise(t, tt.car, tt.at, tt.complaint, tt.history)
			check(t, advice, tt.want...)
			for _, r := range advice.Remedies {
				if after, err := tt.at.Apply(r.Moves); r.Kind == GoToWetStart && (err != nil || after != wetStart || len(r.Moves) != 8 || r.Reason() != ByBaseline) {
					t.Errorf("the wet start is %+v", r)
				}
			}
		})
	}
}

func TestUnequalSides(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	at := all(car, 14)
	at[FL][Rebound], at[FR][Rebound] = 9, 1
	push := Complaint{What: Understeer}
	advice := advise(t, car, at, push, History{})
	check(t, advice, "RL RR rebound +3", "FL FR rebound -1 (m)") // each side by the same clicks
	want := Fact{Kind: UnequalSides, Axle: Front, Adjuster: Rebound, Left: 9, Right: 1}
	if len(advice.Facts) != 1 || advice.Facts[0] != want {
		t.Fatalf("the facts are %+v", advice.Facts)
	}
	after, err := at.Apply(want.Equal())
	if err != nil || after[FL][Rebound] != 1 || after[FR][Rebound] != 1 || len(want.Equal()) != 1 {
		t.Errorf("made equal by %+v", want.Equal())
	}
	if equal := (Fact{Left: 2, Right: 5, Axle: Rear, Adjuster: Bump}).Equal(); !slices.Equal(equal, []Move{{RR, Bump, 5, 2}}) {
		t.Errorf("made equal by %+v", equal)
	}

	at[RL][Bump] = 3 // which no remedy of the row moves
	if facts := advise(t, car, at, push, History{}).Facts; len(facts) != 1 {
		t.Errorf("the facts are %+v", facts)
	}
	at = all(car, 25)
	at[FL][Bump] = 20
	advice = advise(t, car, at, Complaint{What: Nervous}, History{})
	if check(t, advice, "baseline"); len(advice.Facts) != 0 {
		t.Errorf("going to the start leaves nothing unequal: %+v", advice.Facts)
	}
}

func TestTheRecordMayOrderTheRow(t *testing.T) {
	car := carOf(RearDrive, ways(2, 30))
	push := Complaint{What: Understeer}
	turnRound := func(remedies []Remedy) []int {
		if len(remedies) != 2 || remedies[0].Kind != TurnClicks {
			t.Errorf("it is asked about %+v", remedies)
		}
		return []int{1, 0}
	}
	h := History{Prefer: turnRound}
	advice := advise(t, car, all(car, 14), push, h)
	check(t, advice, "FL FR rebound -3 (m)", "RL RR rebound +3")
	if !slices.Contains(advice.Facts, Fact{Kind: OrderOfRecord}) {
		t.Errorf("the facts are %+v", advice.Facts)
	}
	h.Prefer = func([]Remedy) []int { return []int{0, 1} }
	if advice := advise(t, car, all(car, 14), push, h); len(advice.Facts) != 0 {
		t.Errorf("the table's order is told as the record's: %+v", advice.Facts)
	}
	// The rules of judgement come after: what felt worse still comes back first.
	h = History{Prefer: turnRound, Changes: []Change{tried(7, push, BetterNo, pair(Rear, Rebound, 11, 14)...)}}
	check(t, advise(t, car, all(car, 14), push, h), "undo: RL RR rebound -3", "FL FR rebound -3 (m)", "RL RR rebound +3")
}
