package bot

import (
	"context"
	"time"

	"detent/tuning"
	"detent/tuning/calendar"
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

// Book is what a command may read and write. A helper takes only the part that
// it needs. All methods return a Refusal of kind NotFound when the
// thing asked for is not there.
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

// Events reads events and who is in them.
type Events interface {
	// Events lists the club's events that end after from, soonest first, those
	// that were cancelled among them.
	Events(ctx context.Context, from time.Time) ([]tuning.Event, error)
	// Event finds an event by name, whatever its case; "" is the one under way
	// or the next.
	Event(ctx context.Context, name string) (tuning.Event, error)
	// Entrants lists the cars entered in an event, in the order they entered.
	Entrants(ctx context.Context, event tuning.Event) ([]tuning.Entrant, error)
}

// Entries keeps the cars entered in events.
type Entries interface {
	// Enter enters a car. A car that is in already, an event that is cancelled
	// and one with no place left are Conflicts.
	Enter(ctx context.Context, event tuning.Event, entrant tuning.Entrant) error
	// Remind keeps whether messages about the event are wanted for a car.
	Remind(ctx context.Context, event tuning.Event, car tuning.Car, wanted bool) error
	// Leave takes a car's entry back.
	Leave(ctx context.Context, event tuning.Event, car tuning.Car) error
}

// Season keeps events and the cars entered in them. Changes, advice, searches
// and feel belong to the event the car is at that day: the book sees to that.
type Season interface {
	Events
	Entries
	// SaveEvent adds an event, or changes the one with the same ID. One that
	// runs at the same time as another, or a name that another event to come
	// has, is a Conflict.
	SaveEvent(ctx context.Context, event tuning.Event) (tuning.Event, error)
	// EntriesOf lists a person's own cars in an event, in the order they
	// entered, and tells how many are in it of everybody's.
	EntriesOf(ctx context.Context, event tuning.Event, person string) (own []tuning.Entrant, all int, err error)
	// WantSheet keeps whether a car's sheet for the event is wanted.
	WantSheet(ctx context.Context, event tuning.Event, car tuning.Car, wanted bool) error
	// Tried lists the complaints made at an event, and what was turned for each.
	Tried(ctx context.Context, event tuning.Event) ([]tuning.Tried, error)
	// TriesAt lists the tries that were judged at an event, oldest first.
	TriesAt(ctx context.Context, event tuning.Event) ([]learn.Try, error)
	// AtPlace reads what is on record of a car at the events at a place that have
	// begun, and the tries that were judged there, oldest first. Where nothing is
	// the record has no visits.
	AtPlace(ctx context.Context, car tuning.Car, place string) (tuning.PlaceRecord, []learn.Try, error)
}

// CarSeasons reads a year of a car.
type CarSeasons interface {
	// CarSeason reads what the record holds of a car from a moment to another, and
	// where its adjusters stood before.
	CarSeason(ctx context.Context, car tuning.Car, from, to time.Time) (tuning.CarSeason, error)
	// TriesOf lists the tries of a car that were judged in that time, oldest first.
	TriesOf(ctx context.Context, car tuning.Car, from, to time.Time) ([]learn.Try, error)
}

// ClubSeasons reads a year of the club.
type ClubSeasons interface {
	// ClubSeason counts what the record holds of the club from a moment to another.
	// It names nobody.
	ClubSeason(ctx context.Context, from, to time.Time) (tuning.ClubSeason, error)
	// TriesIn lists the club's tries that were judged in that time, oldest first.
	TriesIn(ctx context.Context, from, to time.Time) ([]learn.Try, error)
}

// Timetable keeps what is due.
type Timetable interface {
	// Schedule replaces what is due of an event for a person ("" for the
	// club's channel); nothing given takes it off the timetable. What people
	// wrote stays on it.
	Schedule(ctx context.Context, event int64, person string, due []calendar.Due) error
}

// Tellings keeps what organisers told those who are in an event.
type Tellings interface {
	// EventMessages lists those of an event from a moment on, oldest first.
	EventMessages(ctx context.Context, event tuning.Event, from time.Time) ([]tuning.EventMessage, error)
	// SaveEventMessage keeps one more. Of two at once the later knows of the
	// earlier.
	SaveEventMessage(ctx context.Context, message tuning.EventMessage) (tuning.EventMessage, error)
	// Deliver puts a direct message on the timetable for each of some people,
	// once.
	Deliver(ctx context.Context, due calendar.Due, to ...string) error
}

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
