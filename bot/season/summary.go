package season

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
	"detent/tuning/learn"
)

// summaryLines is how many complaints and cures a summary lists.
const summaryLines = 5

func summariseCommand() bot.Command {
	return declare(bot.Command{Name: "event summary", Help: "What came of an event: entrants, answers, complaints, what helped",
		Role: tuning.OrganiserRole, Private: true}, summarise)
}

type summaryOptions struct {
	Name string `name:"name" help:"the event; the last when not said" source:"events"`
	bot.MoreOption
}

// summarise tells the organiser what came of an event. It names nobody.
func summarise(ctx context.Context, call call, o summaryOptions) (bot.Reply, error) {
	e, err := call.lastEvent(ctx, o.Name)
	if err != nil {
		return bot.Reply{}, err
	}
	if e.Starts.After(call.Now()) {
		return bot.Reply{}, bot.Problemf(tuning.Invalid, "%s has not begun: it starts on %s.", e.Name, say.Time(e.Starts, call.Zone()))
	}
	entrants, err := call.Book.Entrants(ctx, e)
	if err != nil {
		return bot.Reply{}, err
	}
	tried, err := call.Book.Tried(ctx, e)
	if err != nil {
		return bot.Reply{}, err
	}
	tries, err := call.Book.TriesAt(ctx, e)
	if err != nil {
		return bot.Reply{}, err
	}
	answers := e.GoneAnswers
	for _, entrant := range entrants {
		if entrant.Answered {
			answers++
		}
	}
	reply := bot.Reply{
		Title: fmt.Sprintf("%s: %s, %s in", e.Name, say.Count(len(entrants)+e.GoneCars, "car", "cars"), say.Count(answers, "answer", "answers")),
		Text:  say.Event(e, call.Zone()) + "\n" + sayComplaints(tried) + "\n" + sayHelped(tries),
	}
	reply.Actions = []bot.Action{bot.Button("Plan it again", "/event copy", bot.OfEvent(e))}
	if e.Ends.After(call.Now()) {
		reply.Notes = []string{"It is still under way."}
	}
	return o.Paged(reply, "/event summary", bot.OfEvent(e)), nil
}

// lastEvent is the event of a name, or the last that has begun.
func (c call) lastEvent(ctx context.Context, name string) (tuning.Event, error) {
	if name != "" {
		return c.FindEvent(ctx, c.Book, name)
	}
	events, err := c.Book.Events(ctx, c.Now().AddDate(-1, 0, 0))
	if err != nil {
		return tuning.Event{}, err
	}
	for _, e := range slices.Backward(events) {
		if !e.Cancelled && !e.Starts.After(c.Now()) {
			return e, nil
		}
	}
	return tuning.Event{}, bot.Problemf(tuning.NotFound, "No event has begun yet: /event list shows what is planned.")
}

// sayComplaints says the commonest complaints, by the cars that had them.
func sayComplaints(tried []tuning.Tried) string {
	cars := map[string]map[int64]bool{}
	for _, t := range tried {
		c := say.Complaint(t.Complaint)
		if cars[c] == nil {
			cars[c] = map[int64]bool{}
		}
		cars[c][t.Car] = true
	}
	if len(cars) == 0 {
		return "Nobody complained."
	}
	var words []string
	for _, c := range commonest(cars, func(of map[int64]bool) int { return len(of) }, summaryLines) {
		words = append(words, fmt.Sprintf("%s (%s)", c, say.Count(len(cars[c]), "car", "cars")))
	}
	return "Complaints: " + strings.Join(words, ", ") + "."
}

// sayHelped says what was turned for which complaint and how often it helped, by
// the tries that are learned from.
func sayHelped(tries []learn.Try) string {
	lines := []string{"What helped:"}
	for _, t := range learn.TogetherOf(tries) {
		if t.Helped > 0 && len(lines) <= summaryLines {
			lines = append(lines, say.Together(t))
		}
	}
	if len(lines) == 1 {
		return "Nothing that was turned has been felt as better yet."
	}
	return strings.Join(lines, "\n")
}

// commonest lists the keys that count most, at most so many of them, and of those
// that count alike the first by name.
func commonest[V any](of map[string]V, size func(V) int, most int) []string {
	keys := make([]string, 0, len(of))
	for k := range of {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b string) int {
		return cmp.Or(size(of[b])-size(of[a]), strings.Compare(a, b))
	})
	return keys[:min(len(keys), most)]
}
