package bot

import (
	"context"
	"time"

	"detent/tuning"
	"detent/tuning/calendar"
)

// Unseen finds what a student has not read of what coaches put to them.
type Unseen interface {
	// Unseen is the newest of it, zero for nothing.
	Unseen(ctx context.Context, student string) (tuning.Unseen, error)
}

// Coaches keeps who coaches whom, and what coaches wrote, suggested and looked
// at.
type Coaches interface {
	// FindMember finds a member of the club by key or name.
	FindMember(ctx context.Context, word string) (tuning.Member, error)
	// Members lists members whose name begins with some letters, by name.
	Members(ctx context.Context, begin string, most int) ([]tuning.Member, error)
	// Coachings lists the ties of a person, on either side, that have not ended.
	Coachings(ctx context.Context, person string) ([]tuning.Coaching, error)
	// SaveCoaching adds a tie, or notes that one was accepted or ended.
	SaveCoaching(ctx context.Context, c tuning.Coaching) (tuning.Coaching, error)
	SaveNote(ctx context.Context, note tuning.CoachNote) (tuning.CoachNote, error)
	// Notes lists what coaches wrote to a student, newest first.
	Notes(ctx context.Context, student string, most int) ([]tuning.CoachNote, error)
	Unseen
	// NoteSeen notes that a student has read all of it.
	NoteSeen(ctx context.Context, student string) error
	// CoachMessages counts the messages from coaches that fall due to a person
	// from a moment up to another.
	CoachMessages(ctx context.Context, person string, from, to time.Time) (int, error)
	// Deliver puts a direct message on the timetable for each of some people,
	// once.
	Deliver(ctx context.Context, due calendar.Due, to ...string) error
	// Looked notes that a coach looked at a student's things.
	Looked(ctx context.Context, coach, student, what string) error
	Looks(ctx context.Context, student string, most int) ([]tuning.Look, error)
	// Suggest keeps an advice as a coach's suggestion to the car's owner.
	Suggest(ctx context.Context, coach string, advice tuning.Advice, at tuning.Setting) (tuning.Advice, error)
	// Suggestions lists those that wait to be applied or declined.
	Suggestions(ctx context.Context, student string) ([]tuning.Suggestion, error)
	// Decline takes a suggestion to the owner off the list.
	Decline(ctx context.Context, owner string, advice int64) error
	// Feels lists the newest feels of a car, newest first.
	Feels(ctx context.Context, car tuning.Car, most int) ([]tuning.Feel, error)
}
