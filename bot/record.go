package bot

import (
	"context"
	"time"

	"detent/tuning"
	"detent/tuning/learn"
)

// Records opens the club's book for one ask. Everything an ask reads and
// writes happens in one transaction, under one clock, for one club.
type Records interface {
	// Read runs fn on a book that cannot be written to.
	Read(ctx context.Context, who tuning.Who, now time.Time, fn func(Book) error) error
	// Once runs fn on a book that can be written to, and keeps its reply under
	// the request's id together with what fn wrote: all of it or nothing. When
	// fn returns a Refusal that is not Internal, the refusal is kept and
	// nothing of what fn wrote. Asked again with the same id by the same person
	// it returns the first reply and runs nothing.
	Once(ctx context.Context, who tuning.Who, now time.Time, id string, fn func(Book) (Reply, error)) (Reply, error)
}

// Book is what a command may read and write. A helper takes only the part that it
// needs. All methods return a Refusal of kind NotFound when the thing asked for is
// not there.
type Book interface {
	Garage
	Diary
	Notebook
	Shelf
	Advisory
	Learning
	Bench
	Desk
	Season
	CarSeasons
	ClubSeasons
	Timetable
	Coaches
	Roster
	Tellings
	Drafts
}

// Cars finds members' cars.
type Cars interface {
	// Cars lists a person's cars by name, retired ones last.
	Cars(ctx context.Context, owner string) ([]tuning.Car, error)
	// Car finds a person's car by name, whatever its case; "" is the main car,
	// or the only one.
	Car(ctx context.Context, owner, name string) (tuning.Car, error)
}

// Garage keeps members' cars and their dampers.
type Garage interface {
	Cars
	// SaveCar adds a car, or changes the one with the same ID. It does not
	// touch dampers. Making a car main makes the others not main; a name that
	// another car of the same owner has is a Conflict.
	SaveCar(ctx context.Context, car tuning.Car) (tuning.Car, error)
	// FitDampers keeps the car's dampers of one axle, drops the axle's force
	// table and positions, and starts the axle at the given moves, whose From
	// is -1.
	FitDampers(ctx context.Context, car tuning.Car, axle tuning.Axle, start []tuning.Move) error
	// SaveCurve keeps the force table of one axle.
	SaveCurve(ctx context.Context, car tuning.Car, axle tuning.Axle, table *tuning.ForceTable) error
}

// Cases reads cars with what is remembered of them.
type Cases interface {
	// Case reads a car with its setting and history at once; the name as for
	// Cars.Car.
	Case(ctx context.Context, owner, name string) (tuning.Case, error)
}

// Log reads what was changed and felt.
type Log interface {
	// Log returns one page of a car's log, its changes, feels and notes newest
	// first, pages counted from 1, and whether there are more.
	Log(ctx context.Context, car tuning.Car, page int) (entries []tuning.Logged, more bool, err error)
}

// Diary is the append-only log of changes, and how the car felt.
type Diary interface {
	Cases
	Log
	// Record appends a change and moves the clicks, or is Overtaken, with what
	// changed meanwhile, when a move does not start where the clicks
	// stand. The advice that the change came from is noted as applied; one that
	// was already is a Conflict. Moves with From -1 are for fittings only.
	Record(ctx context.Context, car tuning.Car, change tuning.Change) (tuning.Change, error)
	// SaveFeel keeps how the car felt, tied to its last change, and put to the
	// event it names, otherwise to the one the car is at.
	SaveFeel(ctx context.Context, feel tuning.Feel) (tuning.Feel, error)
}

// Notebook keeps what was on a car other than clicks.
type Notebook interface {
	// SaveCarNote keeps a note, put to the event the car is at.
	SaveCarNote(ctx context.Context, note tuning.CarNote) (tuning.CarNote, error)
}

// Advisory keeps the advice that was given, so that a button can name it.
type Advisory interface {
	// SaveAdvice keeps an advice given at a setting and returns it with its ID.
	SaveAdvice(ctx context.Context, advice tuning.Advice, at tuning.Setting) (tuning.Advice, error)
	// NewestAdvice is the number of the newest advice given on a car, coaches'
	// suggestions aside; 0 for none.
	NewestAdvice(ctx context.Context, car tuning.Car) (int64, error)
	// Given finds an advice given on one of the owner's cars, with the car as
	// it stands.
	Given(ctx context.Context, owner string, id int64) (tuning.Given, error)
}

// Learning reads what the record says a turn does.
type Learning interface {
	// LearnedCase is Case with what the club knows of the remedies for a
	// complaint, the car's own tries apart from those of the others.
	LearnedCase(ctx context.Context, owner, name string, complaint tuning.Complaint) (tuning.Case, learn.Evidence, error)
	// LearnedAll reads what the club knows of every complaint of which the car has
	// tries.
	LearnedAll(ctx context.Context, car tuning.Car) (learn.Evidence, error)
}

// Bench keeps grip searches.
type Bench interface {
	// Search finds the search under way on a car in a weather.
	Search(ctx context.Context, car tuning.Car, weather tuning.Weather) (tuning.Search, error)
	// SaveSearch adds a search, or changes the one with the same ID, its runs
	// with it.
	SaveSearch(ctx context.Context, search tuning.Search) (tuning.Search, error)
}

// Members finds members by their keys.
type Members interface {
	Member(ctx context.Context, person string) (tuning.Member, error)
}

// Desk keeps the club's and its members' settings.
type Desk interface {
	Members
	Club(ctx context.Context) (tuning.Club, error)
	SaveClub(ctx context.Context, club tuning.Club) error
	SaveMember(ctx context.Context, member tuning.Member) error
	// NoteCautions notes the day, 2026-05-16, on which a person last saw all
	// cautions.
	NoteCautions(ctx context.Context, person, day string) error
	// Export returns everything the club holds about a person, by table: rows
	// of column and value.
	Export(ctx context.Context, person string) (map[string][]map[string]any, error)
	// Erase removes everything about a person for good.
	Erase(ctx context.Context, person string) error
}
