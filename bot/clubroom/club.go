package clubroom

import (
	"context"
	"fmt"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/unit"
)

func showClubCommand() bot.Command {
	return declare(bot.Command{Name: "club show", Help: "The club's settings", Private: true}, showClub)
}

func setClubCommand() bot.Command {
	return bot.Suggesting(declare(bot.Command{Name: "club set", Help: "Change the club's settings", Role: tuning.OrganiserRole,
		Private: true, Writes: true}, setClub), "zone", suggestZones)
}

type setClubOptions struct {
	Zone        *string        `name:"zone" help:"the club's time zone, for example Europe/Berlin"`
	Channel     *string        `name:"channel" help:"where the club's posts go" kind:"place"`
	CoachRole   *string        `name:"coach-role" help:"the role that makes a coach" kind:"badge"`
	QuietFrom   *time.Duration `name:"quiet-from" help:"the time of day from which no one is written to" kind:"clock"`
	QuietTo     *time.Duration `name:"quiet-to" help:"the time of day until which no one is written to" kind:"clock"`
	RemindAfter *time.Duration `name:"remind-after" help:"from the end of an event to the question how it felt" kind:"length"`
	Units       *tuning.Units  `name:"units" help:"the units of members who choose none"`
	StepFew     *int           `name:"step-few" help:"clicks in a step, adjusters of up to 12 clicks" min:"1" max:"9"`
	StepSome    *int           `name:"step-some" help:"clicks in a step, adjusters of 13 to 19 clicks" min:"1" max:"9"`
	StepMany    *int           `name:"step-many" help:"clicks in a step, adjusters of 20 clicks and more" min:"1" max:"9"`
	Slight      *int           `name:"slight" help:"clicks in a slight step" min:"1" max:"9"`
	BackOffFew  *int           `name:"back-off-few" help:"clicks back once it hops, adjusters of up to 12 clicks" min:"1" max:"9"`
	BackOffMany *int           `name:"back-off-many" help:"clicks back once it hops, adjusters of 13 clicks and more" min:"1" max:"9"`
}

func showClub(_ context.Context, call call, _ struct{}) (bot.Reply, error) {
	return bot.Reply{Title: "The club's settings", Text: sayClub(call.Club, call.Now()), View: bot.View{Size: phone.Page}}, nil
}

func sayClub(c tuning.Club, now time.Time) string {
	quiet := "none"
	if c.QuietFrom != c.QuietTo {
		quiet = say.Clock(c.QuietFrom) + " to " + say.Clock(c.QuietTo)
	}
	or := func(mark, key, none string) string {
		if key == "" {
			return none
		}
		return mark + strings.TrimPrefix(key, mark)
	}
	s := c.Sizes
	return strings.Join([]string{
		fmt.Sprintf("Zone: %s, where it is %s now.", c.Zone, now.In(calendar.ClubZone(c)).Format("15:04")),
		"Posts go to: " + or(bot.PlaceMark, c.Channel, "no channel yet") + ". Coaches have the role: " + or(bot.BadgeMark, c.CoachRole, "none yet") + ".",
		"Quiet hours: " + quiet + ". After an event the question comes in " + unit.ShowDuration(c.RemindAfter) + ".",
		fmt.Sprintf("Steps: %d, %d or %d clicks (up to 12, 13 to 19, 20 and more), slight %d, back-off %d or %d (up to 12, 13 and more).",
			s.StepFew, s.StepSome, s.StepMany, s.Slight, s.BackOffFew, s.BackOffMany),
		"Units: " + string(c.Units) + ".",
	}, "\n")
}

func setClub(ctx context.Context, call call, o setClubOptions) (bot.Reply, error) {
	if bot.GivesNothing(o) {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "Say what to change, for example zone:Europe/Berlin or quiet-from:21:00.")
	}
	was := call.Club
	club, err := o.onto(was)
	if err != nil {
		return bot.Reply{}, err
	}
	if err := call.Book.SaveClub(ctx, club); err != nil {
		return bot.Reply{}, err
	}
	call.Club = club
	notes, err := call.planClub(ctx, was)
	return bot.Reply{Title: "The club's settings are saved", Text: sayClub(club, call.Now()), Notes: notes, View: bot.View{Size: phone.List}}, err
}

// onto puts what was said onto a club's settings.
func (o setClubOptions) onto(club tuning.Club) (tuning.Club, error) {
	if o.Zone != nil {
		zone, err := findZone(*o.Zone)
		if err != nil {
			return club, err
		}
		club.Zone = zone
	}
	bot.Overwrite(&club.Channel, o.Channel)
	bot.Overwrite(&club.CoachRole, o.CoachRole)
	bot.Overwrite(&club.Units, o.Units)
	bot.Overwrite(&club.QuietFrom, o.QuietFrom)
	bot.Overwrite(&club.QuietTo, o.QuietTo)
	bot.Overwrite(&club.RemindAfter, o.RemindAfter)
	bot.Overwrite(&club.Sizes.StepFew, o.StepFew)
	bot.Overwrite(&club.Sizes.StepSome, o.StepSome)
	bot.Overwrite(&club.Sizes.StepMany, o.StepMany)
	bot.Overwrite(&club.Sizes.Slight, o.Slight)
	bot.Overwrite(&club.Sizes.BackOffFew, o.BackOffFew)
	bot.Overwrite(&club.Sizes.BackOffMany, o.BackOffMany)
	return club, club.Sizes.Validate()
}

// askedAfter is how long after an event something of it may still be due.
const askedAfter = 3 * 24 * time.Hour

// planClub puts what is due of the club's events on the timetable anew when the
// club's hours have changed, and says how those to come read on other clocks.
func (c call) planClub(ctx context.Context, was tuning.Club) (notes []string, err error) {
	hours := func(c tuning.Club) [4]any { return [4]any{c.Zone, c.QuietFrom, c.QuietTo, c.RemindAfter} }
	if hours(was) == hours(c.Club) {
		return nil, nil
	}
	events, err := c.Book.Events(ctx, c.Now().Add(-askedAfter))
	if err != nil {
		return nil, err
	}
	for _, e := range events {
		entrants, err := c.Book.Entrants(ctx, e)
		if err != nil {
			return nil, err
		}
		if err := c.PlanEvent(ctx, c.Book, e, entrants); err != nil {
			return nil, err
		}
		if c.Club.Zone != was.Zone && !e.Cancelled && e.Ends.After(c.Now()) {
			notes = append(notes, fmt.Sprintf("%s keeps its moment, which now reads %s: /event edit moves it.", e.Name, say.Time(e.Starts, c.Zone())))
		}
	}
	return notes, nil
}
