package store

import (
	"encoding/json"
	"fmt"
	"strings"

	"detent/tuning"
)

// carRow is a row of cars. It comes as JSON, alone or inside other JSON.
type carRow struct {
	ID      int64
	Owner   string
	Name    string
	Main    bool
	Retired bool
	Drive   tuning.Drive
	Engine  tuning.Engine
	Tyre    tuning.Tyre
	Aero    tuning.Aero
	Use     tuning.Use
	Version int64

	figures map[string]*float64 // by column
}

// carColumns are those that a person sets: what the car is, and its figures.
var carColumns = append([]string{"name", "main", "retired", "drive", "engine", "tyre", "aero", "use"}, figureColumns...)

// figureColumns are the columns of all figures.
var figureColumns = func() (columns []string) {
	for _, f := range tuning.Figures {
		columns = append(columns, columnOf(f))
	}
	return columns
}()

// columnOf is the column that keeps a figure. It is 0 while the figure is
// unknown, and null where zero is a value.
func columnOf(f tuning.Figure) string { return strings.ReplaceAll(f.Name, "-", "_") }

var (
	selectCars = "select to_json(cars) from cars "
	insertCar  = "insert into cars (owner, " + strings.Join(carColumns, ", ") + ") values (:owner, :" + strings.Join(carColumns, ", :") + ") returning id"
	updateCar  = "update cars set (" + strings.Join(carColumns, ", ") + ") = (:" + strings.Join(carColumns, ", :") + ") where id = :id returning id"
)

// Scan reads the row from JSON.
func (r *carRow) Scan(from any) error {
	text, ok := from.([]byte)
	if !ok {
		return fmt.Errorf("a car comes as %T", from)
	}
	return json.Unmarshal(text, r)
}

// UnmarshalJSON reads the row with every figure that has a column.
func (r *carRow) UnmarshalJSON(text []byte) error {
	type plain carRow
	if err := json.Unmarshal(text, (*plain)(r)); err != nil {
		return err
	}
	var columns map[string]json.RawMessage
	if err := json.Unmarshal(text, &columns); err != nil {
		return err
	}
	r.figures = map[string]*float64{}
	for _, column := range figureColumns {
		var v *float64
		if err := json.Unmarshal(columns[column], &v); err != nil {
			return fmt.Errorf("column %s: %w", column, err)
		}
		r.figures[column] = v
	}
	return nil
}

// car is the row as a Car without its dampers.
func (r carRow) car() tuning.Car {
	car := tuning.Car{
		ID: r.ID, Owner: r.Owner, Name: r.Name, Main: r.Main, Retired: r.Retired,
		Drive: r.Drive, Engine: r.Engine, Tyre: r.Tyre, Aero: r.Aero, Use: r.Use,
	}
	for _, f := range tuning.Figures {
		if v := r.figures[columnOf(f)]; v != nil {
			f.Set(&car, *v)
		}
	}
	return car
}

// valuesOf are the values of a car by column.
func valuesOf(c tuning.Car) map[string]any {
	values := map[string]any{
		"id": c.ID, "owner": c.Owner, "name": c.Name, "main": c.Main, "retired": c.Retired,
		"drive": c.Drive, "engine": c.Engine, "tyre": c.Tyre, "aero": c.Aero, "use": c.Use,
	}
	for _, f := range tuning.Figures {
		v, known := f.Get(c)
		if values[columnOf(f)] = v; !known && f.Zero {
			values[columnOf(f)] = nil
		}
	}
	return values
}
