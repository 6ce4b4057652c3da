package store

import (
	"context"

	"detent/tuning"
)

// Cars lists a person's cars by name, retired ones last.
func (b *Book) Cars(ctx context.Context, owner string) ([]tuning.Car, error) {
	return b.cars(ctx, "where owner = $1 order by retired, lower(name)", owner)
}

// Car finds a person's car by name, whatever its case; "" is the main car, or
// the only one that is not retired.
func (b *Book) Car(ctx context.Context, owner, name string) (tuning.Car, error) {
	car, err := b.bareCar(ctx, owner, name)
	if err != nil {
		return car, err
	}
	cars := []tuning.Car{car}
	err = b.dampers(ctx, cars)
	return cars[0], err
}

// bareCar is Car without its dampers.
func (b *Book) bareCar(ctx context.Context, owner, name string) (tuning.Car, error) {
	condition, args := "where owner = $1 and not retired order by main desc, lower(name) limit 2", []any{owner}
	if name != "" {
		condition, args = "where owner = $1 and lower(name) = lower($2)", []any{owner, name}
	}
	cars, err := b.bareCars(ctx, condition, args...)
	if err != nil {
		return tuning.Car{}, err
	}
	return meant(cars, name)
}

// meant picks the car that a name means from those that it may mean.
func meant(cars []tuning.Car, name string) (tuning.Car, error) {
	switch {
	case len(cars) == 0:
		return tuning.Car{}, tuning.Missing{What: tuning.CarThing, Name: name}
	case len(cars) > 1 && name == "" && !cars[0].Main:
		return tuning.Car{}, tuning.Ambiguous{What: tuning.CarThing, Among: []string{cars[0].Name, cars[1].Name}}
	}
	return cars[0], nil
}

// cars reads the cars that a condition picks.
func (b *Book) cars(ctx context.Context, condition string, args ...any) ([]tuning.Car, error) {
	cars, err := b.bareCars(ctx, condition, args...)
	if err != nil || len(cars) == 0 {
		return nil, err
	}
	return cars, b.dampers(ctx, cars)
}

// bareCars is cars without their dampers.
func (b *Book) bareCars(ctx context.Context, condition string, args ...any) ([]tuning.Car, error) {
	var rows []carRow
	if err := b.list(ctx, &rows, selectCars+condition, args...); err != nil {
		return nil, err
	}
	return b.sawCars(rows), nil
}

// sawCars turns rows into cars without their dampers, and notes that they were
// seen.
func (b *Book) sawCars(rows []carRow) []tuning.Car {
	cars := make([]tuning.Car, len(rows))
	for i, r := range rows {
		b.saw(r.ID, r.Version)
		cars[i] = r.car()
	}
	return cars
}

// byID finds cars by their ID.
func byID(cars []tuning.Car) map[int64]tuning.Car {
	found := make(map[int64]tuning.Car, len(cars))
	for _, c := range cars {
		found[c.ID] = c
	}
	return found
}

// SaveCar adds a car, or changes the one with the same ID. It does not touch
// dampers. A car that is made main makes the owner's others not main, and a
// retired one cannot be. A name that another car of the same owner has is a
// Conflict. Other tyres or springs than it had are a refit.
func (b *Book) SaveCar(ctx context.Context, car tuning.Car) (tuning.Car, error) {
	car.Main = car.Main && !car.Retired
	if car.Main {
		err := b.exec(ctx, `update cars set main = false where owner = $1 and main and id <> $2`, car.Owner, car.ID)
		if err != nil {
			return car, err
		}
	}
	query := insertCar
	if car.ID != 0 {
		query = updateCar
		was, err := b.bareCars(ctx, `where id = $1`, car.ID)
		if err != nil {
			return car, err
		}
		if err := b.refitEdited(ctx, first(was), car); err != nil {
			return car, err
		}
	}
	query, args, err := b.named(query, valuesOf(car))
	if err != nil {
		return car, err
	}
	err = b.get(ctx, &car.ID, query, args...)
	return car, none(err, tuning.Gone{What: tuning.CarThing, Name: car.Name})
}
