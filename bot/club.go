package bot

import (
	"context"
	"fmt"
	"strings"
	"time"

	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/calendar"
)

func clubCommands() []Command {
	size := func(name, help string) Option { return Option{Name: name, Help: help, Kind: Whole, Min: 1, Max: 9} }
	return []Command{
		{Name: "club show", Help: "The club's settings", Private: true, Answer: showClub},
		{Name: "club set", Help: "Change the club's settings", Role: tuning.OrganiserRole, Private: true, Writes: true, Answer: setClub, Options: []Option{
			{Name: "zone", Help: "the club's time zone, for example Europe/Berlin", Source: FromZones},
			{Name: "channel", Help: "where the club's posts go", Kind: Place},
			{Name: "coach-role", Help: "the role that makes a coach", Kind: Badge},
			{Name: "quiet-from", Help: "the time of day from which no one is written to", Kind: TimeOfDay},
			{Name: "quiet-to", Help: "the time of day until which no one is written to", Kind: TimeOfDay},
			{Name: "remind-after", Help: "from the end of an event to the question how it felt", Kind: Length},
			{Name: "units", Help: "the units of members who choose none", Kind: Choice, Choices: []string{string(tuning.Metric), string(tuning.Imperial)}},
			size("step-few", "clicks in a step, adjusters of up to 12 clicks"),
			size("step-some", "clicks in a step, adjusters of 13 to 19 clicks"),
			size("step-many", "clicks in a step, adjusters of 20 clicks and more"),
			size("slight", "clicks in a slight step"),
			size("back-off-few", "clicks back once it hops, adjusters of up to 12 clicks"),
			size("back-off-many", "clicks back once it hops, adjusters of 13 clicks and more"),
		}},
	}
}

func showClub(_ context.Context, call Call) (Reply, error) {
	return Reply{Title: "The club's settings", Text: sayClub(call.Club, call.now())}, nil
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
		"Posts go to: " + or(PlaceMark, c.Channel, "no channel yet") + ". Coaches have the role: " + or(BadgeMark, c.CoachRole, "none yet") + ".",
		"Quiet hours: " + quiet + ". After an event the question comes in " + say.Length(c.RemindAfter) + ".",
		fmt.Sprintf("Steps: %d, %d or %d clicks (up to 12, 13 to 19, 20 and more), slight %d, back-off %d or %d (up to 12, 13 and more).",
			s.StepFew, s.StepSome, s.StepMany, s.Slight, s.BackOffFew, s.BackOffMany),
		"Units: " + string(c.Units) + ".",
	}, "\n")
}

func setClub(ctx context.Context, call Call) (Reply, error) {
	a := call.Args
	if len(a) == 0 {
		return Reply{}, tuning.Problemf(tuning.Invalid, "Say what to change, for example zone:Europe/Berlin or quiet-from:21:00.")
	}
	was := call.Club
	club, err := describeClub(was, a)
	if err != nil {
		return Reply{}, err
	}
	if err := call.Book.SaveClub(ctx, club); err != nil {
		return Reply{}, err
	}
	call.Club = club
	notes, err := call.planClub(ctx, was)
	return Reply{Title: "The club's settings are kept", Text: sayClub(club, call.now()), Notes: notes}, err
}

// describeClub puts what was said onto a club's settings.
func describeClub(club tuning.Club, a Args) (tuning.Club, error) {
	if a.Has("zone") {
		zone, err := findZone(a.Text("zone"))
		if err != nil {
			return club, err
		}
		club.Zone = zone
	}
	put(&club.Channel, a, "channel")
	put(&club.CoachRole, a, "coach-role")
	put(&club.Units, a, "units")
	for option, to := range map[string]*time.Duration{"quiet-from": &club.QuietFrom, "quiet-to": &club.QuietTo, "remind-after": &club.RemindAfter} {
		if a.Has(option) {
			*to = a.Duration(option)
		}
	}
	for option, to := range map[string]*int{
		"step-few": &club.Sizes.StepFew, "step-some": &club.Sizes.StepSome, "step-many": &club.Sizes.StepMany,
		"slight": &club.Sizes.Slight, "back-off-few": &club.Sizes.BackOffFew, "back-off-many": &club.Sizes.BackOffMany,
	} {
		if a.Has(option) {
			*to = a.Whole(option)
		}
	}
	return club, club.Sizes.Validate()
}

// askedAfter is how long after an event something of it may still be due.
const askedAfter = 3 * 24 * time.Hour

// planClub puts what is due of the club's events on the timetable anew when the
// club's hours have changed, and says how those to come read on other clocks.
func (c Call) planClub(ctx context.Context, was tuning.Club) (notes []string, err error) {
	hours := func(c tuning.Club) [4]any { return [4]any{c.Zone, c.QuietFrom, c.QuietTo, c.RemindAfter} }
	if hours(was) == hours(c.Club) {
		return nil, nil
	}
	events, err := c.Book.Events(ctx, c.now().Add(-askedAfter))
	if err != nil {
		return nil, err
	}
	for _, e := range events {
		entrants, err := c.Book.Entrants(ctx, e)
		if err != nil {
			return nil, err
		}
		if err := c.planAll(ctx, e, entrants); err != nil {
			return nil, err
		}
		if c.Club.Zone != was.Zone && !e.Cancelled && e.Ends.After(c.now()) {
			notes = append(notes, fmt.Sprintf("%s keeps its moment, which now reads %s: /event edit moves it.", e.Name, say.Time(e.Starts, calendar.ClubZone(c.Club))))
		}
	}
	return notes, nil
}
