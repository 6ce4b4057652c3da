package tuning

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"detent/tuning/unit"
)

func TestEveryFigureIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Figures {
		if seen[f.Name] {
			t.Errorf("%s stands twice", f.Name)
		}
		seen[f.Name] = true
		if !(f.Low < f.High && f.Usual >= f.Low && f.Usual <= f.High) || f.Zero != (f.Low == 0 && f.Base == "bar") {
			t.Errorf("%s is not whole: %+v", f.Name, f)
		}
		if found, ok := FigureNamed(f.Name); !ok || found.Name != f.Name {
			t.Errorf("%s is not found by its name", f.Name)
		}
		typed := unit.Typed(f.Of, f.Usual)
		if v, err := unit.Read(f.Of, typed, false); err != nil || math.Abs(v-f.Usual) > 1e-9*f.Usual {
			t.Errorf("the example %s:%s is read as %v, %v", f.Name, typed, v, err)
		}
	}
	if _, ok := FigureNamed("caster"); ok {
		t.Error("there is a figure called caster")
	}
}

// Setting a figure sets that one and no other.
func TestFiguresAreKeptApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var car Car
		told := map[string]float64{}
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			f := rapid.SampledFrom(Figures).Draw(t, "figure")
			if rapid.IntRange(0, 4).Draw(t, "forget") == 0 {
				f.Forget(&car)
				delete(told, f.Name)
				continue
			}
			v := rapid.Float64Range(f.Low, f.High).Draw(t, "value")
			f.Set(&car, v)
			if told[f.Name] = v; v == 0 && !f.Zero {
				delete(told, f.Name)
			}
		}
		for _, f := range Figures {
			want, wanted := told[f.Name]
			if v, known := f.Get(car); known != wanted || v != want {
				t.Fatalf("%s is %v, %v; told %v, %v", f.Name, v, known, want, wanted)
			}
		}
	})
}

// Every quantity of a car's chassis is a figure: once all figures are set, none
// is zero but what only one end has.
func TestFiguresAreAllThereIs(t *testing.T) {
	var car Car
	for _, f := range Figures {
		f.Set(&car, f.Usual)
	}
	quantities := func(of any, path string) {
		v := reflect.ValueOf(of)
		for i := range v.NumField() {
			name, field := v.Type().Field(i).Name, v.Field(i)
			quantity := field.Kind() == reflect.Float64 || field.Kind() == reflect.Pointer && field.Type().Elem().Kind() == reflect.Float64
			other := path == "Car.Ends." && !reflect.ValueOf(car.Ends[Rear]).FieldByName(name).IsZero()
			if quantity && field.IsZero() && !other {
				t.Errorf("%s%s is no figure", path, name)
			}
		}
	}
	quantities(car, "Car.")
	quantities(car.Ends[Front], "Car.Ends.")
}

func TestFiguresOutOfBounds(t *testing.T) {
	for _, f := range Figures {
		for v, ok := range map[float64]bool{f.Low: true, f.High: true, f.Usual: true, math.NaN(): false, -1: false, math.Inf(1): false,
			math.Nextafter(f.High, math.Inf(1)): false, f.Low * 0.999: f.Low == 0} {
			var car Car
			f.Set(&car, v)
			err := car.Validate()
			var bounds OutOfBounds
			if (err == nil) != ok || !ok && (KindOf(err) != Invalid || !errors.As(err, &bounds) || bounds.Figure.Name != f.Name) {
				t.Errorf("%s of %v: %v", f.Name, v, err)
			}
		}
	}
	if err := (Car{Mass: 500, Ends: [Axles]End{{Unsprung: 60}, {Unsprung: 60}}}).Validate(); KindOf(err) != Invalid {
		t.Errorf("wheels of a quarter of the car: %v", err)
	}
}
