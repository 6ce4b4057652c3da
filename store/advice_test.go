package store_test

import (
	"cmp"
	"context"
	"testing"
	"time"

	"detent/store"
	"detent/tuning"
)

func TestAdviceIsKeptWhole(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	c := r.theCase(sam)
	rear := tuning.Rear
	advice, err := tuning.Advise(c.Car, c.Setting, tuning.Complaint{What: tuning.PacksDown, Axle: &rear, Weather: tuning.Wet}, c.History, tuning.DefaultSizes)
	must(t, err)
	advice.First = tuning.Checks
	if len(advice.Remedies) == 0 || len(advice.Cautions) == 0 {
		t.Fatalf("the advice is too poor for this test: %+v", advice)
	}
	want := tuning.Given{Setting: c.Setting, Car: c.Car, Stands: c.Setting}
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		want.Advice, err = b.SaveAdvice(ctx, advice, c.Setting)
		return err
	})
	given := func(who tuning.Who, id int64) (got tuning.Given, err error) {
		err = r.db.Read(t.Context(), who, morning, func(b *store.Book) error {
			got, err = b.Given(t.Context(), who.Person, id)
			return err
		})
		return got, err
	}
	want.Advice.Facts, want.Advice.Notes = nil, nil // they are of the moment, and not kept
	got, err := given(sam, want.Advice.ID)
	must(t, err)
	same(t, got, want)
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		for car, want := range map[int64]int64{c.Car.ID: want.Advice.ID, 999: 0} {
			if id, err := b.NewestAdvice(ctx, tuning.Car{ID: car}); err != nil || id != want {
				t.Errorf("the newest of car %d is %d, %v, want %d", car, id, err, want)
			}
		}
		return nil
	})

	want.Applied = 1
	apply := func() error {
		return r.try(sam, func(ctx context.Context, b *store.Book) error {
			now, err := b.Case(ctx, sam.Person, "")
			if err != nil {
				return err
			}
			change, err := b.Record(ctx, c.Car, tuning.Change{Reason: tuning.ByRemedy, Advice: want.Advice.ID, Remedy: 1, Moves: turn(now, tuning.Rebound, -1)})
			want.Change = cmp.Or(change.ID, want.Change)
			return err
		})
	}
	must(t, apply())
	want.Stands = r.theCase(sam).Setting
	got, err = given(sam, want.Advice.ID)
	must(t, err)
	same(t, got, want)
	stands := r.theCase(sam)
	wantRefusal(t, apply(), tuning.AdviceSpent)
	same(t, r.theCase(sam), stands)

	_, err = given(robin, want.Advice.ID)
	wantRefusal(t, err, tuning.Missing{What: tuning.AdviceThing, Name: "1"})
	_, err = given(sam, 4711)
	wantRefusal(t, err, tuning.Missing{What: tuning.AdviceThing, Name: "4711"})
}

func TestSearchIsKeptOverDays(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	want := tuning.Search{Car: car.ID, Weather: tuning.Dry, Started: morning}
	save := func() error {
		return r.try(sam, func(ctx context.Context, b *store.Book) (err error) {
			want, err = b.SaveSearch(ctx, want)
			return err
		})
	}
	find := func(weather tuning.Weather) (got tuning.Search, err error) {
		err = r.db.Read(t.Context(), sam, morning, func(b *store.Book) error {
			got, err = b.Search(t.Context(), car, weather)
			return err
		})
		return got, err
	}
	_, err := find(tuning.Dry)
	wantRefusal(t, err, tuning.NoSearch{Car: "Blue hatch", Weather: tuning.Dry})

	must(t, save())
	for day := range 3 {
		want.Runs = append(want.Runs, tuning.Run{At: morning.AddDate(0, 0, day), Hop: day == 2, Grip: day, Clicks: 2})
		must(t, save())
		got, err := find(tuning.Dry)
		must(t, err)
		same(t, got, want)
	}
	_, err = find(tuning.Wet)
	wantRefusal(t, err, tuning.NoSearch{Car: "Blue hatch", Weather: tuning.Wet})

	first := want
	want = tuning.Search{Car: car.ID, Weather: tuning.Dry, Started: morning}
	wantRefusal(t, save(), tuning.SearchUnderWay)
	want = first
	want.Stopped, want.Why = morning.Add(72*time.Hour), tuning.EndHop
	must(t, save())
	if _, err = find(tuning.Dry); tuning.KindOf(err) != tuning.NotFound {
		t.Errorf("after its end: %v", err)
	}
	want = tuning.Search{Car: car.ID, Weather: tuning.Dry, Started: morning}
	must(t, save())
}

// Advice that earlier programs kept by number is read as what it was, and none
// is kept so any more.
func TestOlderAdviceIsRead(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	rear := tuning.Rear
	complaint := tuning.Complaint{What: tuning.Bottoms, Axle: &rear}
	moves := []tuning.Move{{Corner: tuning.RL, Adjuster: tuning.Rebound, From: 3, To: 5}}
	var at tuning.Setting
	at[tuning.FL][tuning.Rebound], at[tuning.RR][tuning.LowBump] = 7, 3
	var id int64
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		advice, err := b.SaveAdvice(ctx, tuning.Advice{Car: car.ID, Complaint: complaint,
			Remedies: []tuning.Remedy{{Kind: tuning.TurnClicks, Moves: moves}}}, at)
		id = advice.ID
		return err
	})
	read := func() (given tuning.Given) {
		t.Helper()
		r.read(sam, func(ctx context.Context, b *store.Book) (err error) {
			given, err = b.Given(ctx, sam.Person, id)
			return err
		})
		return given
	}
	want := read()
	same(t, want.Advice.Complaint, complaint)
	same(t, want.Advice.Remedies[0].Moves, moves)
	same(t, want.Setting, at)
	var words string
	must(t, r.admin.Get(&words, `select concat(complaint->>'axle', ' ', given->'remedies'->0->'moves'->0->>'corner', ' ', setting) from advice`))
	same(t, words, `rear RL {"FL": {"rebound": 7}, "RR": {"low-bump": 3}}`)

	r.admin.MustExec(`
		update advice set complaint = jsonb_set(complaint, '{axle}', '1'),
			given = jsonb_set(given, '{remedies,0,moves}', '[{"corner": 2, "adjuster": 3, "from": 3, "to": 5}]'),
			setting = '[[0,0,0,7,0,0],[0,0,0,0,0,0],[0,0,0,0,0,0],[0,3,0,0,0,0]]'`)
	same(t, read(), want)
}
