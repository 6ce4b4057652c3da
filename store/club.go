package store

import (
	"context"
	"time"

	"detent/tuning"
)

// clubRow is a row of clubs; times of day and spans in minutes.
type clubRow struct {
	Zone        string
	Channel     string
	CoachRole   string `json:"coach_role"`
	QuietFrom   int    `json:"quiet_from"`
	QuietTo     int    `json:"quiet_to"`
	RemindAfter int    `json:"remind_after"`
	Units       tuning.Units
	StepFew     int `json:"step_few"`
	StepSome    int `json:"step_some"`
	StepMany    int `json:"step_many"`
	Slight      int
	BackOffFew  int `json:"back_off_few"`
	BackOffMany int `json:"back_off_many"`
}

// settings are the row as a Club.
func (r clubRow) settings(key string) tuning.Club {
	return tuning.Club{
		Key: key, Zone: r.Zone, Channel: r.Channel, CoachRole: r.CoachRole, Units: r.Units,
		QuietFrom: time.Duration(r.QuietFrom) * time.Minute, QuietTo: time.Duration(r.QuietTo) * time.Minute,
		RemindAfter: time.Duration(r.RemindAfter) * time.Minute,
		Sizes: tuning.Sizes{StepFew: r.StepFew, StepSome: r.StepSome, StepMany: r.StepMany, Slight: r.Slight,
			BackOffFew: r.BackOffFew, BackOffMany: r.BackOffMany},
	}
}

// Club returns the club's settings, the usual ones while it has set nothing.
func (b *Book) Club(context.Context) (tuning.Club, error) {
	if b.club == nil {
		return tuning.DefaultClub(b.who.Club), nil
	}
	return b.club.settings(b.who.Club), nil
}

// SaveClub keeps the club's settings.
func (b *Book) SaveClub(ctx context.Context, c tuning.Club) error {
	row := clubRow{
		Zone: c.Zone, Channel: c.Channel, CoachRole: c.CoachRole, Units: c.Units,
		QuietFrom: int(c.QuietFrom.Minutes()), QuietTo: int(c.QuietTo.Minutes()), RemindAfter: int(c.RemindAfter.Minutes()),
		StepFew: c.Sizes.StepFew, StepSome: c.Sizes.StepSome, StepMany: c.Sizes.StepMany, Slight: c.Sizes.Slight,
		BackOffFew: c.Sizes.BackOffFew, BackOffMany: c.Sizes.BackOffMany,
	}
	query, args, err := b.named(`
		insert into clubs (zone, channel, coach_role, quiet_from, quiet_to, remind_after, units,
			step_few, step_some, step_many, slight, back_off_few, back_off_many)
		values (:zone, :channel, :coach_role, :quiet_from, :quiet_to, :remind_after, :units,
			:step_few, :step_some, :step_many, :slight, :back_off_few, :back_off_many)
		on conflict (club) do update set
			(zone, channel, coach_role, quiet_from, quiet_to, remind_after, units,
			step_few, step_some, step_many, slight, back_off_few, back_off_many) =
			(:zone, :channel, :coach_role, :quiet_from, :quiet_to, :remind_after, :units,
			:step_few, :step_some, :step_many, :slight, :back_off_few, :back_off_many)`, row)
	if err != nil {
		return err
	}
	if err := b.exec(ctx, query, args...); err != nil {
		return err
	}
	b.club = &row
	return nil
}
