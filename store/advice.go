package store

import (
	"context"
	"strconv"
	"time"

	"github.com/jmoiron/sqlx/types"

	"detent/tuning"
)

// given is the content of the column of that name. Older rows hold sentences
// for the checks, the cautions and what the remedies say, and have notes beside
// them.
type given struct {
	Remedies []remedyJSON     `json:"remedies,omitempty"`
	First    []tuning.Check   `json:"first,omitempty"`
	Cautions []tuning.Caution `json:"cautions,omitempty"`
}

// SaveAdvice keeps an advice given at a setting and returns it with its ID. Its
// facts and notes are of the moment, and not kept.
func (b *Book) SaveAdvice(ctx context.Context, advice tuning.Advice, at tuning.Setting) (tuning.Advice, error) {
	return b.saveAdvice(ctx, advice, at, "")
}

// saveAdvice keeps an advice; coach is who suggested it, "" for the bot's own.
func (b *Book) saveAdvice(ctx context.Context, advice tuning.Advice, at tuning.Setting, coach string) (tuning.Advice, error) {
	complaint, err := asJSON(complaintToJSON(&advice.Complaint))
	if err != nil {
		return advice, err
	}
	said, err := asJSON(&given{remediesToJSON(advice.Remedies), advice.First, advice.Cautions})
	if err != nil {
		return advice, err
	}
	stood := settingToJSON(at)
	setting, err := asJSON(&stood)
	if err != nil {
		return advice, err
	}
	err = b.get(ctx, &advice.ID, `
		insert into advice (car, at, complaint, given, setting, coach) values ($1, $2, $3, $4, $5, nullif($6, '')) returning id`,
		advice.Car, b.now, complaint, said, setting, coach)
	return advice, problem(err)
}

// NewestAdvice is the number of the newest advice given on a car, coaches'
// suggestions aside; 0 for none.
func (b *Book) NewestAdvice(ctx context.Context, car tuning.Car) (id int64, err error) {
	return id, b.get(ctx, &id, `
		select coalesce((select id from advice where car = $1 and coach is null order by id desc limit 1), 0)`, car.ID)
}

// Given finds an advice given on one of the owner's cars.
func (b *Book) Given(ctx context.Context, owner string, id int64) (tuning.Given, error) {
	var text types.NullJSONText
	if err := b.get(ctx, &text, `select given_advice($1, $2)`, id, owner); err != nil {
		return tuning.Given{}, problem(err)
	}
	if !text.Valid {
		return tuning.Given{}, tuning.Missing{What: tuning.AdviceThing, Name: strconv.FormatInt(id, 10)}
	}
	var row struct {
		Advice struct {
			Complaint complaintJSON
			Given     given
			Setting   settingJSON
			Coach     string
			Applied   int
			Declined  *time.Time
			Change    int64
		}
		Car     carRow
		Dampers []damperRow
		Stands  []standing
		Notes   string
	}
	if err := text.Unmarshal(&row); err != nil {
		return tuning.Given{}, problem(err)
	}
	b.saw(row.Car.ID, row.Car.Version)
	car := row.Car.car()
	for _, d := range row.Dampers {
		if err := d.fit(&car); err != nil {
			return tuning.Given{}, err
		}
	}
	stands, _ := stand(row.Stands)
	said := row.Advice.Given
	return tuning.Given{
		Advice: tuning.Advice{ID: id, Car: car.ID, Complaint: row.Advice.Complaint.complaint(),
			Remedies: remediesOf(said.Remedies), First: said.First, Cautions: said.Cautions},
		Setting: row.Advice.Setting.setting(), Coach: row.Advice.Coach,
		Applied: row.Advice.Applied, Declined: row.Advice.Declined != nil, Change: row.Advice.Change,
		Car: car, Stands: stands, Notes: row.Notes,
	}, nil
}
