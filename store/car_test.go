package store_test

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"detent/store"
	"detent/tuning"
	"detent/tuning/unit"
)

func TestCarIsKeptWhole(t *testing.T) {
	r := open(t)
	front, none := unit.Stiffness(21000), unit.Stiffness(0)
	want := tuning.Car{
		Owner: sam.Person, Name: "Blue hatch 🚗 \"B\"", Main: true, Drive: tuning.FourDrive, Engine: tuning.MidEngine,
		Tyre: tuning.SemiSlick, Aero: tuning.WingAero, Use: tuning.RoadAndTrackUse, TorqueFront: 0.4,
		Mass: 1247.3789, FrontShare: 0.541, Wheelbase: 2.55, CGHeight: 0.48,
		Ends: [tuning.Axles]tuning.End{
			{Track: 1.48, Spring: 70e3, MotionRatio: 0.95, Bar: &front, Unsprung: 36, TyreRate: 210e3},
			{Track: 1.46, Spring: 55e3, MotionRatio: 0.72, Bar: &none, Unsprung: 33.5, TyreRate: 190e3},
		},
	}
	told(t, want)
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		want, err = b.SaveCar(ctx, want)
		return err
	})
	same(t, r.theCase(sam).Car, want)

	want.Name, want.Mass, want.Ends[tuning.Front].Bar, want.Tyre = "Old hatch", 0, nil, ""
	r.once(sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.SaveCar(ctx, want)
		return err
	})
	same(t, r.theCase(sam).Car, want)
}

// told fails the test while a field of the car or one of its figures is zero: a
// column that is forgotten in one direction would not be noticed.
func told(t *testing.T, car tuning.Car) {
	t.Helper()
	elsewhere := []string{"ID", "Retired", "Dampers", "Curves"} // given by the record, no main car's, and kept by tests of their own
	fields := reflect.ValueOf(car)
	for i := range fields.NumField() {
		if name := fields.Type().Field(i).Name; fields.Field(i).IsZero() && !slices.Contains(elsewhere, name) {
			t.Errorf("%s of the car is zero", name)
		}
	}
	for _, f := range tuning.Figures {
		if _, known := f.Get(car); !known {
			t.Errorf("%s of the car is unknown", f.Name)
		}
	}
}

func TestEveryFigureIsKept(t *testing.T) {
	r := open(t)
	car := r.car(sam, "Blue hatch")
	keep := func(car tuning.Car) {
		t.Helper()
		r.once(sam, func(ctx context.Context, b *store.Book) error { _, err := b.SaveCar(ctx, car); return err })
		same(t, r.theCase(sam).Car, car)
	}
	for _, f := range tuning.Figures {
		f.Forget(&car)
	}
	keep(car) // nothing is known
	for _, f := range tuning.Figures {
		f.Set(&car, f.Low+(f.High-f.Low)/3) // a third needs every digit
		keep(car)
	}
	for _, f := range tuning.Figures {
		if f.Zero {
			f.Set(&car, 0)
		}
	}
	keep(car)
}

func TestCarThatIsMeant(t *testing.T) {
	r := open(t)
	meant := func(name string) (got string, err error) {
		err = r.db.Read(t.Context(), sam, morning, func(b *store.Book) error {
			car, err := b.Car(t.Context(), sam.Person, name)
			got = car.Name
			return err
		})
		return got, err
	}
	wantCar := func(name, want string) {
		t.Helper()
		if got, err := meant(name); err != nil || got != want {
			t.Errorf("car %q is %q, %v; want %q", name, got, err, want)
		}
	}
	_, err := meant("")
	wantRefusal(t, err, tuning.Missing{What: tuning.CarThing})

	hatch := r.car(sam, "Blue Hatch")
	wantCar("", "Blue Hatch")
	wantCar("blue hatch", "Blue Hatch")
	_, err = meant("red hatch")
	wantRefusal(t, err, tuning.Missing{What: tuning.CarThing, Name: "red hatch"})

	coupe := r.car(sam, "École coupé")
	wantCar("ÉCOLE COUPÉ", "École coupé")
	_, err = meant("")
	wantRefusal(t, err, tuning.Ambiguous{What: tuning.CarThing, Among: []string{"Blue Hatch", "École coupé"}})

	save := func(car tuning.Car) {
		t.Helper()
		r.once(sam, func(ctx context.Context, b *store.Book) error { _, err := b.SaveCar(ctx, car); return err })
	}
	hatch.Main = true
	save(hatch)
	wantCar("", "Blue Hatch")
	coupe.Main = true
	save(coupe)
	wantCar("", "École coupé")
	coupe.Retired = true
	save(coupe)
	wantCar("", "Blue Hatch")
	r.read(sam, func(ctx context.Context, b *store.Book) error {
		cars, err := b.Cars(ctx, sam.Person)
		if len(cars) != 2 || cars[0].Main || cars[1].Main || cars[1].Name != "École coupé" || cars[0].Dampers[tuning.Rear] != damper() {
			t.Errorf("the cars are %+v: want the retired one last, and not main", cars)
		}
		return err
	})
}

func TestCarNameThatIsTaken(t *testing.T) {
	r := open(t)
	r.car(sam, "Blue hatch")
	err := r.try(sam, func(ctx context.Context, b *store.Book) error {
		_, err := b.SaveCar(ctx, hatch(sam, "BLUE HATCH"))
		return err
	})
	wantRefusal(t, err, tuning.Taken{What: tuning.CarThing})
	r.car(robin, "Blue hatch") // another's may be called the same
}

func TestCarThatIsGone(t *testing.T) {
	r := open(t)
	err := r.try(sam, func(ctx context.Context, b *store.Book) error {
		car := hatch(sam, "Blue hatch")
		car.ID = 4711
		_, err := b.SaveCar(ctx, car)
		return err
	})
	wantRefusal(t, err, tuning.Gone{What: tuning.CarThing, Name: "Blue hatch"})
}

func TestTextThatCannotBeKept(t *testing.T) {
	r := open(t)
	for _, name := range []string{"nul \x00 byte", "not \xff UTF-8"} {
		err := r.try(sam, func(ctx context.Context, b *store.Book) error {
			_, err := b.SaveCar(ctx, hatch(sam, name))
			return err
		})
		wantRefusal(t, err, tuning.UnkeepableText)
	}
}

func TestDampers(t *testing.T) {
	r := open(t)
	every := []tuning.Damper{
		{Ways: 1, Count: tuning.FromSoft, Moves: tuning.MovesBoth, Range: [tuning.Adjusters]int{tuning.Rebound: 8}},
		{Ways: 2, Count: tuning.FromHard, Range: [tuning.Adjusters]int{tuning.Bump: 30, tuning.Rebound: 24}},
		damper(),
		{Ways: 4, Count: tuning.FromSoft, Range: [tuning.Adjusters]int{tuning.LowBump: 1, tuning.HighBump: 99, tuning.LowRebound: 40, tuning.HighRebound: 12}},
	}
	car := r.car(sam, "Blue hatch")
	for _, d := range every {
		r.once(sam, func(ctx context.Context, b *store.Book) error { return fit(ctx, b, &car, d) })
		got := r.theCase(sam)
		want, err := tuning.Baseline(car, tuning.Dry, tuning.DefaultSizes)
		must(t, err)
		same(t, got.Car, car)
		same(t, got.Setting, want)
	}
}

func TestForceTable(t *testing.T) {
	r := open(t)
	table, err := tuning.ParseForceTable("click,speed_mm_s,bump_n,rebound_n\n0,0,0,0\n0,100,180,260\n8,0,0,0\n8,100,310,520\n")
	must(t, err)
	car := tuning.Car{}
	keep := func() error {
		return r.try(sam, func(ctx context.Context, b *store.Book) error { return b.SaveCurve(ctx, car, tuning.Rear, table) })
	}
	r.once(sam, func(ctx context.Context, b *store.Book) (err error) {
		car, err = b.SaveCar(ctx, hatch(sam, "Blue hatch"))
		return err
	})
	wantRefusal(t, keep(), tuning.AxleUnfitted)

	r.once(sam, func(ctx context.Context, b *store.Book) error { return fit(ctx, b, &car, damper()) })
	must(t, keep())
	must(t, keep())
	same(t, r.theCase(sam).Car.Curves, [tuning.Axles]*tuning.ForceTable{nil, table})

	// Other dampers have another table.
	r.once(sam, func(ctx context.Context, b *store.Book) error { return fit(ctx, b, &car, damper()) })
	same(t, r.theCase(sam).Car.Curves, [tuning.Axles]*tuning.ForceTable{})
}
