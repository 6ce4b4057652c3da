package learn

import (
	"testing"
	"time"

	"detent/tuning"
	"detent/tuning/tuningtest"
)

func dampers(n int) tuning.Damper {
	d := tuning.Damper{Ways: 2, Count: tuning.FromSoft}
	d.Range[tuning.Bump], d.Range[tuning.Rebound] = n, n
	return d
}

var (
	hatch = tuning.Car{ID: 3, Owner: "sam", Drive: tuning.FrontDrive, Dampers: [tuning.Axles]tuning.Damper{dampers(24), dampers(24)}}
	pushy = tuning.Complaint{What: tuning.Understeer}
	loose = tuning.Complaint{What: tuning.Oversteer, Where: tuning.Exit}
)

func moves(axle tuning.Axle, a tuning.Adjuster, from, to int) []tuning.Move {
	c := axle.Corners()
	return []tuning.Move{{Corner: c[0], Adjuster: a, From: from, To: to}, {Corner: c[1], Adjuster: a, From: from, To: to}}
}

// remedy is an applied remedy against understeer: the rear's rebound stiffer.
func remedy(id int64) Changed {
	return Changed{Kind: tuning.TurnClicks, Change: tuning.Change{ID: id, Reason: tuning.ByRemedy, Complaint: &pushy, Moves: moves(tuning.Rear, tuning.Rebound, 8, 11)}}
}

// other is the second remedy against understeer: the front's rebound softer.
func other(id int64) Changed {
	c := remedy(id)
	c.Moves = moves(tuning.Front, tuning.Rebound, 11, 8)
	return c
}

func byHand(id int64, turned bool) Changed {
	return Changed{Turned: turned, Change: tuning.Change{ID: id, Reason: tuning.ByHand, Moves: remedy(0).Moves}}
}

func because(id int64, reason tuning.Reason, m []tuning.Move) Changed {
	return Changed{Change: tuning.Change{ID: id, Reason: reason, Moves: m}}
}

func undo(id, of int64) Changed {
	c := because(id, tuning.ByUndo, moves(tuning.Rear, tuning.Rebound, 11, 8))
	c.Undoes = of
	return c
}

// felt is a feel with a mark on entry, "" or an answer, in a weather.
func felt(id int64, entry int, better tuning.Better, weather tuning.Weather) Felt {
	return Felt{tuning.Feel{ID: id, At: now, Grip: 5, Entry: mark(entry), Better: better}, weather}
}

func yes(id int64) Felt {
	return Felt{tuning.Feel{ID: id, At: now, Grip: 6, Better: tuning.BetterYes}, ""}
}

// wanted is what must come of a try.
type wanted struct {
	change, feel int64
	fraction     float64
	moved        float64
	variance     float64
}

func TestWhatCountsAsATry(t *testing.T) {
	half := remedy(2)
	half.Kind = tuning.HalfBack
	shrunk := remedy(2)
	shrunk.Moves = moves(tuning.Rear, tuning.Rebound, 23, 24)
	suggestion := remedy(2)
	suggestion.Complaint = nil
	loaded, copied := remedy(2), remedy(2)
	loaded.Complaint, loaded.Kind, loaded.Reason = nil, tuning.LoadKept, tuning.ByLoading
	copied.Complaint, copied.Kind, copied.Reason = nil, tuning.CopyCar, tuning.ByCopying
	equal := byHand(2, true)
	equal.Kind = tuning.MakeEqual
	stay := because(9, tuning.ByBaseline, moves(tuning.Rear, tuning.Rebound, 11, 11))
	all := append(moves(tuning.Front, tuning.Bump, 5, 8), moves(tuning.Rear, tuning.Bump, 5, 8)...)
	back := append(moves(tuning.Front, tuning.Bump, 8, 6), moves(tuning.Rear, tuning.Bump, 8, 6)...)
	fitted := func(id int64, axle tuning.Axle, d tuning.Damper) Changed {
		c := because(id, tuning.ByFitting, moves(axle, tuning.Rebound, -1, 11))
		c.Fitted = d
		return c
	}
	for _, tt := range []struct {
		name    string
		entries []Entry
		want    []wanted
	}{
		{"nothing", nil, nil},
		{"a remedy and a feel", []Entry{remedy(2), yes(3)}, []wanted{{2, 3, 1, 0.9, 0.8}}},
		{"marks on both sides", []Entry{felt(1, -2, "", ""), remedy(2), felt(3, -1, "", "")}, []wanted{{2, 3, 1, 1, 1}}},
		{"the last feel before it counts", []Entry{felt(1, -3, "", ""), felt(2, -2, "", ""), remedy(3), felt(4, -1, "", "")}, []wanted{{3, 4, 1, 1, 1}}},
		{"only the first feel after it counts", []Entry{remedy(2), yes(3), felt(4, 0, tuning.BetterNo, "")}, []wanted{{2, 3, 1, 0.9, 0.8}}},
		{"a remedy and no feel", []Entry{felt(1, -2, "", ""), remedy(2)}, nil},
		{"a feel before any change", []Entry{yes(1), remedy(2), yes(3)}, []wanted{{2, 3, 1, 0.9, 0.8}}},
		{"no evidence changes nothing", []Entry{remedy(2), felt(3, -1, "", "")}, nil},
		{"shrunk", []Entry{shrunk, yes(3)}, []wanted{{2, 3, 1.0 / 3, 0.9, 0.8}}},
		{"one try after another", []Entry{felt(1, -2, "", ""), remedy(2), felt(3, -1, "", ""), other(4), felt(5, 0, "", "")}, []wanted{{2, 3, 1, 1, 1}, {4, 5, 1, 1, 1}}},
		{"two in one run: both, doubled; before the second nothing was felt", []Entry{felt(1, -2, "", ""), remedy(2), other(3), felt(4, -1, tuning.BetterYes, "")},
			[]wanted{{2, 4, 1, 0.95, 1.2}, {3, 4, 1, 0.9, 1.6}}},
		{"three in one run: not the first", []Entry{remedy(2), other(3), remedy(4), yes(5)}, []wanted{{3, 5, 1, 0.9, 1.6}, {4, 5, 1, 0.9, 1.6}}},
		{"another change in the run doubles", []Entry{because(2, tuning.ByBaseline, moves(tuning.Front, tuning.Bump, 9, 5)), remedy(3), yes(4)}, []wanted{{3, 4, 1, 0.9, 1.6}}},
		{"a change that turns nothing does not", []Entry{stay, remedy(3), yes(4)}, []wanted{{3, 4, 1, 0.9, 0.8}}},
		{"another weather doubles", []Entry{felt(1, -2, "", tuning.Dry), remedy(2), felt(3, -1, "", tuning.Wet)}, []wanted{{2, 3, 1, 1, 2}}},
		{"a weather that nobody said does not", []Entry{felt(1, -2, "", tuning.Dry), remedy(2), felt(3, -1, "", "")}, []wanted{{2, 3, 1, 1, 1}}},
		{"two reasons double once", []Entry{felt(1, -2, "", tuning.Dry), remedy(2), other(3), felt(4, -1, "", tuning.Wet)}, []wanted{{2, 4, 1, 1, 2}}},
		{"taken back before any feel, and what took it back, are none", []Entry{felt(1, -2, "", ""), remedy(2), undo(3, 2), other(4), felt(5, -1, "", "")}, []wanted{{4, 5, 1, 1, 1}}},
		{"taken back after a feel is a change of its own", []Entry{remedy(2), felt(3, -2, tuning.BetterNo, ""), undo(4, 2), other(5), felt(6, -1, tuning.BetterYes, "")},
			[]wanted{{2, 3, 1, -0.9, 0.8}, {5, 6, 1, 0.9, 1.6}}},
		{"half back is none", []Entry{half, yes(3)}, nil},
		{"a start is none", []Entry{because(2, tuning.ByBaseline, remedy(0).Moves), yes(3)}, nil},
		{"by hand, for the last complaint", []Entry{Asked{loose}, Asked{pushy}, byHand(2, true), yes(3)}, []wanted{{2, 3, 1, 0.9, 0.8}}},
		{"by hand, for another complaint", []Entry{Asked{pushy}, Asked{loose}, byHand(2, true), yes(3)}, nil},
		{"by hand, for none", []Entry{byHand(2, true), yes(3)}, nil},
		{"a start asked for is no complaint", []Entry{Asked{pushy}, Asked{}, byHand(2, true), yes(3)}, []wanted{{2, 3, 1, 0.9, 0.8}}},
		{"a correction of the record is none", []Entry{Asked{pushy}, byHand(2, false), yes(3)}, nil},
		{"nor does it stand between", []Entry{felt(1, -2, "", ""), byHand(2, false), remedy(3), byHand(4, false), felt(5, -1, "", "")}, []wanted{{3, 5, 1, 1, 1}}},
		{"a suggestion, for the last complaint", []Entry{Asked{pushy}, suggestion, yes(3)}, []wanted{{2, 3, 1, 0.9, 0.8}}},
		{"a suggestion for none", []Entry{suggestion, yes(3)}, nil},
		{"making the sides equal is none", []Entry{Asked{pushy}, equal, yes(3)}, nil},
		{"kept clicks that were loaded are none", []Entry{Asked{pushy}, loaded, yes(3)}, nil},
		{"nor are those of another car", []Entry{Asked{pushy}, copied, yes(3)}, nil},
		{"a run of the grip search", []Entry{Felt{tuning.Feel{ID: 1, At: now, Grip: 5}, ""}, because(2, tuning.BySearch, all), Felt{tuning.Feel{ID: 3, At: now, Grip: 7}, ""}}, []wanted{{2, 3, 1, 1, 1}}},
		{"a run that does not tell its grip", []Entry{Felt{tuning.Feel{ID: 1, At: now}, ""}, because(2, tuning.BySearch, all), Felt{tuning.Feel{ID: 3, At: now, Grip: 7}, ""}}, nil},
		{"backing off from the hop is none", []Entry{Felt{tuning.Feel{ID: 1, At: now, Grip: 5}, ""}, because(2, tuning.BySearch, back), Felt{tuning.Feel{ID: 3, At: now, Grip: 7}, ""}}, nil},
		{"other tyres in the run double", []Entry{felt(1, -2, "", ""), remedy(2), Refitted{now}, felt(3, -1, "", "")}, []wanted{{2, 3, 1, 1, 2}}},
		{"other dampers end what was turned on the old", []Entry{felt(1, -2, "", ""), remedy(2), fitted(3, tuning.Rear, dampers(24)), felt(4, -1, tuning.BetterYes, "")}, nil},
		{"nothing was felt before on new dampers", []Entry{felt(1, -2, "", ""), fitted(2, tuning.Rear, dampers(24)), remedy(3), felt(4, -1, tuning.BetterYes, "")}, []wanted{{3, 4, 1, 0.9, 0.8}}},
		{"a first remedy on a new car", []Entry{fitted(1, tuning.Front, dampers(24)), fitted(2, tuning.Rear, dampers(24)), stay, remedy(3), yes(4)}, []wanted{{3, 4, 1, 0.9, 0.8}}},
		{"the step of the dampers it had", []Entry{fitted(1, tuning.Rear, dampers(10)), remedy(2), yes(3), fitted(4, tuning.Rear, dampers(24)), remedy(5), yes(6)},
			[]wanted{{2, 3, 3, 0.9, 0.8}, {5, 6, 1, 0.9, 0.8}}},
		{"dampers that nobody knows any more", []Entry{fitted(1, tuning.Rear, tuning.Damper{}), remedy(2), yes(3), fitted(4, tuning.Rear, tuning.Damper{}), remedy(5), yes(6)},
			[]wanted{{5, 6, 1, 0.9, 0.8}}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			tries := Record{Car: hatch, Sizes: tuning.DefaultSizes, Entries: tt.entries}.Tries()
			if len(tries) != len(tt.want) {
				t.Fatalf("%d tries, want %d: %+v", len(tries), len(tt.want), tries)
			}
			for i, got := range tries {
				want := tt.want[i]
				if got.Change != want.change || got.Feel != want.feel || got.Car != 3 || got.Owner != "sam" || !got.At.Equal(now) {
					t.Errorf("try %d is %+v", i, got)
				}
				tuningtest.Within(t, "u", got.Fraction, want.fraction, 1e-15)
				tuningtest.Within(t, "y", got.Moved, want.moved, 1e-15)
				tuningtest.Within(t, "R", got.Variance, want.variance, 1e-15)
			}
		})
	}
}

func TestTheKeyIsTheRemedyOfItsRow(t *testing.T) {
	tries := Record{Car: hatch, Sizes: tuning.DefaultSizes, Entries: []Entry{remedy(1), yes(2), other(3), yes(4)}}.Tries()
	row := tuning.RowKey{What: tuning.Understeer, Where: tuning.Entry}
	for i, want := range []Key{
		{Row: row, Part: tuning.RearPart, Job: tuning.AnyRebound, Turn: tuning.Stiffer},
		{Row: row, Part: tuning.FrontPart, Job: tuning.AnyRebound, Turn: tuning.Softer},
	} {
		if tries[i].Key != want {
			t.Errorf("try %d is of %+v", i, tries[i].Key)
		}
	}
}

func TestRefits(t *testing.T) {
	fit := because(1, tuning.ByFitting, moves(tuning.Rear, tuning.Rebound, -1, 11))
	fit.At = now
	refits := Record{Entries: []Entry{fit, remedy(2), Refitted{now.Add(time.Hour)}, yes(3)}}.Refits()
	if len(refits) != 2 || !refits[0].Equal(now) || !refits[1].Equal(now.Add(time.Hour)) {
		t.Errorf("refits %v", refits)
	}
}

// A record read as it grows gives the tries of the whole, so a row that is kept
// when its feel is recorded never has to be read again.
func TestReadingAsItGrows(t *testing.T) {
	whole := []Entry{felt(1, -2, "", ""), remedy(2), felt(3, -1, "", ""), other(4), undo(5, 4), remedy(6), felt(7, -1, tuning.BetterSame, ""), undo(8, 6), Refitted{now}, other(9), yes(10)}
	var kept []Try
	for end := range whole {
		if f, ok := whole[end].(Felt); ok {
			for _, try := range (Record{Car: hatch, Sizes: tuning.DefaultSizes, Entries: whole[:end+1]}).Tries() {
				if try.Feel == f.ID {
					kept = append(kept, try)
				}
			}
		}
	}
	tries := Record{Car: hatch, Sizes: tuning.DefaultSizes, Entries: whole}.Tries()
	if len(kept) != len(tries) || len(kept) != 3 {
		t.Fatalf("%d tries kept, %d read", len(kept), len(tries))
	}
	for i := range kept {
		if kept[i] != tries[i] {
			t.Errorf("kept %+v, read %+v", kept[i], tries[i])
		}
	}
}
