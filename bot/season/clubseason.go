package season

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"detent/bot"
	"detent/bot/chart"
	"detent/bot/phone"
	"detent/bot/say"
	"detent/bot/typeset"
	"detent/tuning"
	"detent/tuning/calendar"
	"detent/tuning/learn"
)

func clubSeasonCommand() bot.Command {
	return declare(bot.Command{Name: "club season", Help: "A year of the club on one page: events, cars, answers, what helped",
		Role: tuning.OrganiserRole}, showClubSeason)
}

type clubSeasonOptions struct {
	Year int `name:"year" help:"the year; this one when not said" min:"2000" max:"2100"`
}

// clubSeason is what the page of a club's year is made from.
type clubSeason struct {
	year   int
	season tuning.ClubSeason
	known  []learn.Together // of which enough cars of enough people know something
	zone   *time.Location
	made   time.Time
}

// showClubSeason shows the club's year to all. It names nobody, and tells nothing
// that too few stand behind.
func showClubSeason(ctx context.Context, call call, o clubSeasonOptions) (bot.Reply, error) {
	zone := call.Zone()
	y := clubSeason{year: cmp.Or(o.Year, call.Now().In(zone).Year()), zone: zone, made: call.Now()}
	from, to := calendar.Year(y.year, zone)
	var err error
	if y.season, err = call.Book.ClubSeason(ctx, from, to); err != nil {
		return bot.Reply{}, err
	}
	if len(y.season.Events) == 0 {
		return bot.Reply{}, y.nothing()
	}
	tries, err := call.Book.TriesIn(ctx, from, to)
	if err != nil {
		return bot.Reply{}, err
	}
	for _, t := range learn.TogetherOf(tries) {
		if t.Club.Cars > 0 {
			y.known = append(y.known, t)
		}
	}
	return y.reply()
}

// nothing refuses a year of which no event has begun, with a button for the nearest
// that has one.
func (y clubSeason) nothing() error {
	p := bot.Problemf(tuning.NotFound, "The club had no event in %d.", y.year)
	if len(y.season.Coming) > 0 {
		first := y.season.Coming[0]
		p = bot.Problemf(tuning.NotFound, "No event of %d has begun yet: the first is %s on %s.", y.year, first.Name, say.Time(first.Starts, y.zone))
	}
	if near := cmp.Or(y.season.Earlier, y.season.Later); !near.IsZero() {
		p.Actions = []bot.Action{y.button(near)}
	}
	return p
}

// button asks for the year of a moment.
func (y clubSeason) button(at time.Time) bot.Action {
	year := at.In(y.zone).Year()
	return bot.Button(fmt.Sprint(year), fmt.Sprintf("/club season year:%d", year))
}

// reply is the message with the year's picture and its page.
func (y clubSeason) reply() (bot.Reply, error) {
	return y.message().WithPage(fmt.Sprintf("club-season-%d.pdf", y.year), y.picture(), func(png []byte, pdf io.Writer) error { return y.page(png).Write(pdf) })
}

// message is the year in a few lines, with the years that are near.
func (y clubSeason) message() bot.Reply {
	cars := 0
	for _, t := range y.season.Events {
		cars += t.Cars
	}
	reply := bot.Reply{
		Title: fmt.Sprintf("%s: %s, %s", y.title(), say.Count(len(y.season.Events), "event", "events"), say.Count(cars, "entry", "entries")),
		View:  bot.View{Size: phone.List, Quiet: true, Picture: true},
	}
	for _, at := range []time.Time{y.season.Earlier, y.season.Later} {
		if !at.IsZero() {
			reply.Actions = append(reply.Actions, y.button(at))
		}
	}
	return y.told(reply)
}

// told puts into the message what matters most of the year, as far as it has room,
// and all else into the notes.
func (y clubSeason) told(reply bot.Reply) bot.Reply {
	last := "The page to print has it all."
	if n := len(y.season.Coming); n > 0 {
		last = say.Count(n, "event is", "events are") + " still to come. " + last
	}
	reply.Text = strings.Join(append(say.YearOfClub(y.season), last), "\n")
	helped := y.helped(true)
	first := min(len(helped), summaryLines)
	reply = reply.WithLines(helped[:first]...)
	reply.Notes = slices.Concat(reply.Notes, helped[first:], y.helped(false))
	return reply
}

// helped says what helped in the club, or what did not, those that helped most often
// first.
func (y clubSeason) helped(good bool) []string {
	var lines []string
	for _, t := range y.known {
		own := learn.Sums{Tries: t.Tries, Helped: t.Helped}
		if good == learn.Tell(nil, t.Estimate, own, t.Club).Helps() {
			lines = append(lines, say.Together(t)+".")
		}
	}
	return lines
}

// picture is who came to each event, or in a year of many to those of each month.
func (y clubSeason) picture() chart.Turnout {
	drawn := chart.Turnout{Title: y.title()}
	if len(y.season.Events) > chart.MostRows {
		drawn.Rows = y.months()
		return drawn
	}
	for _, t := range y.season.Events {
		drawn.Rows = append(drawn.Rows, chart.Attendance{Name: typeset.Name(t.Event.Name, "An event"), Day: say.Day(t.Event.Starts, y.zone), Cars: t.Cars, Felt: answered(t)})
	}
	return drawn
}

// months adds up the events of each month, of the answers those that may be told.
func (y clubSeason) months() []chart.Attendance {
	var rows []chart.Attendance
	count, last := 0, ""
	for _, t := range y.season.Events {
		month := t.Event.Starts.In(y.zone).Format("January")
		if month != last {
			rows, count, last = append(rows, chart.Attendance{Felt: -1}), 0, month
		}
		row := &rows[len(rows)-1]
		count++
		row.Name = month + ", " + say.Count(count, "event", "events")
		row.Cars += t.Cars
		if felt := answered(t); felt >= 0 {
			row.Felt = max(row.Felt, 0) + felt
		}
	}
	return rows
}

// answered is the number of cars at an event whose driver said how it felt, -1
// where too few did for it to be told.
func answered(t tuning.Turnout) int {
	if !t.Felt.Told() {
		return -1
	}
	return t.Felt.Cars + t.Event.GoneAnswers
}

// title heads the picture and the page.
func (y clubSeason) title() string { return fmt.Sprintf("The club in %d", y.year) }
