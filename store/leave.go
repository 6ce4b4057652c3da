package store

import (
	"context"
	"encoding/json"

	"github.com/jmoiron/sqlx/types"
)

// holdings are all tables that hold something about a person, and which of
// their rows belong to person $1. A test holds the list against the database.
var holdings = map[string]string{
	"members":       `person = $1`,
	"requests":      `person = $1`,
	"drafts":        `person = $1`,
	"cars":          `owner = $1`,
	"dampers":       ofCars,
	"curves":        ofCars,
	"positions":     ofCars,
	"changes":       ofCars + ` or person = $1`,
	"clicks":        ofCars + ` or change in (select id from changes where person = $1)`,
	"advice":        ofCars + ` or coach = $1`,
	"feels":         ofCars + ` or person = $1`,
	"car_notes":     ofCars + ` or person = $1`,
	"kept_settings": ofCars,
	"searches":      ofCars,
	"search_runs":   ofCars,
	"coachings":     ofCoaching,
	"coach_notes":   ofCoaching,
	"looks":         ofCoaching,
	"events":        `organiser = $1`,
	"refits":        ofCars,
	"tries":         ofCars,
	"try_sums":      ofCars,
	"entries":       ofCars,
	"due":           `person = $1`,

	"event_messages": `sender = $1 or id in (select about from due where person = $1 and kind = 'event-message')`,
}

const ofCoaching = `coach = $1 or student = $1`

const ofCars = `car in (select id from cars where owner = $1)`

// Export returns everything the club holds about a person, by table: rows of
// column and value. Only the replies kept with requests are left out: they are
// the program's own form of what the other tables say.
func (b *Book) Export(ctx context.Context, person string) (map[string][]map[string]any, error) {
	all := make(map[string][]map[string]any, len(holdings))
	for table, theirs := range holdings {
		var rows []types.JSONText
		if err := b.list(ctx, &rows, `select to_jsonb(held) - 'reply' from `+table+` as held where `+theirs, person); err != nil {
			return nil, err
		}
		for _, row := range rows {
			var columns map[string]any
			if err := json.Unmarshal(row, &columns); err != nil {
				return nil, problem(err)
			}
			all[table] = append(all[table], columns)
		}
	}
	return all, nil
}

// Erase removes everything about a person for good. What they did to other
// people's cars stays in those cars' logs without their name.
func (b *Book) Erase(ctx context.Context, person string) error {
	if person == b.who.Person {
		b.erased, b.member = true, nil
	}
	return b.exec(ctx, `select erase_person($1)`, person)
}
