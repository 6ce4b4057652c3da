package figures

import (
	"errors"
	"fmt"
	"math"

	"detent/tuning"
)

// Unanswered is a Refusal: a question that the vehicle model has no answer to.
type Unanswered struct {
	Task Task
	Axle tuning.Axle // of a Task that is about one
	Err  error       // what the model says of it
}

// Task is what the vehicle model was to do.
type Task string

// The tasks.
const (
	AnswerForCar     Task = "answer for the car"
	UseTable         Task = "use the force table of an axle"
	MakeDamper       Task = "make the damper of an axle"
	FindWindow       Task = "find the window of an axle"
	PlaceClick       Task = "place today's click in the window"
	CompareGrip      Task = "compare the grip"
	CompareMechanism Task = "compare what a remedy does"
	Drive            Task = "drive the car"
	DriveBumps       Task = "drive the car over a bumpy road"
	DriveRough       Task = "drive the car over a rough road"
	DriveKerb        Task = "drive the car over a kerb"
)

// Tasks are all of them.
var Tasks = []Task{AnswerForCar, UseTable, MakeDamper, FindWindow, PlaceClick, CompareGrip, CompareMechanism, Drive, DriveBumps, DriveRough, DriveKerb}

func (u Unanswered) Error() string { return fmt.Sprintf("cannot %s: %v", u.Task, u.Err) }

func (u Unanswered) Unwrap() error { return u.Err }

// Refuses returns Invalid.
func (Unanswered) Refuses() tuning.Kind { return tuning.Invalid }

// HeavyWheels is a Refusal: wheels that weigh more than their axle carries.
type HeavyWheels struct{ Axle tuning.Axle }

func (h HeavyWheels) Error() string {
	return fmt.Sprintf("the %s wheels weigh more than the axle carries", h.Axle)
}

// Refuses returns Invalid.
func (HeavyWheels) Refuses() tuning.Kind { return tuning.Invalid }

// These are figures that are none.
var (
	errNothingBefore = errors.New("there was nothing before to compare with")
	errNoFigure      = errors.New("a figure is not finite")
)

// finite tells whether v is a figure.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// cannot turns an error of the model into Unanswered; nil stays nil.
func cannot(err error, task Task) error {
	if err == nil {
		return nil
	}
	return Unanswered{Task: task, Err: err}
}

// cannotAt is cannot for a task about an axle.
func cannotAt(axle tuning.Axle, err error, task Task) error {
	if err == nil {
		return nil
	}
	return Unanswered{Task: task, Axle: axle, Err: err}
}
