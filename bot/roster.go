package bot

import (
	"context"
	"time"

	"detent/tuning"
)

// Roster shows a coach all of their students at once.
type Roster interface {
	// Students lists a coach's students by name, with what a coach sees of each;
	// those who have not accepted yet by their names alone.
	Students(ctx context.Context, coach string) ([]tuning.Student, error)
	// FeltBetween lists the feels of some people in a span of time, oldest first.
	FeltBetween(ctx context.Context, people []string, from, to time.Time) ([]tuning.Feel, error)
	// LookedThrough notes that a coach looked at the things of several students
	// at once, each of them once however many pages were turned.
	LookedThrough(ctx context.Context, coach string, students []string, what string) error
}
