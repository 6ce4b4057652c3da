package clubroom

import (
	"fmt"
	"slices"
	"strings"

	"detent/bot"
	"detent/bot/say"
	"detent/tuning"
)

// helpPart is a part of the help, which a button leads to.
type helpPart string

// The parts that list lines, and those that are of use beside the car.
const (
	carPart      helpPart = "car"
	trackPart    helpPart = "track"
	eventsPart   helpPart = "events"
	coachingPart helpPart = "coaching"
	clubPart     helpPart = "club"
	checksPart   helpPart = "checks"
	cautionsPart helpPart = "cautions"
	modelPart    helpPart = "model"
)

// helpParts lists the parts in the order of their buttons, with the first words
// of the lines that they list. Lines that none lists stand in the club's.
var helpParts = []struct {
	part  helpPart
	label string
	words []string
}{
	{carPart, "Your car", []string{"car", "damper", "baseline", "window"}},
	{trackPart, "At the track", []string{"symptom", "apply", "why", "clicks", "undo", "log", "note", "feel", "sweep", "learned"}},
	{eventsPart, "Events", []string{"event"}},
	{coachingPart, "Coaching", []string{"coach"}},
	{clubPart, "Club and you", nil},
	{checksPart, "Checks", nil},
	{cautionsPart, "Cautions", nil},
	{modelPart, "The model", nil},
}

// Choices lists the parts.
func (helpPart) Choices() []string {
	words := make([]string, len(helpParts))
	for i, p := range helpParts {
		words[i] = string(p.part)
	}
	return words
}

// partButtons lead to the parts.
func partButtons() []bot.Action {
	var actions []bot.Action
	for _, p := range helpParts {
		actions = append(actions, bot.Button(p.label, "/help part:"+string(p.part)))
	}
	return actions
}

// partOf is the part that lists a line.
func partOf(name string) helpPart {
	word, _, _ := strings.Cut(name, " ")
	for _, p := range helpParts {
		if slices.Contains(p.words, word) {
			return p.part
		}
	}
	return clubPart
}

// helpWith shows a part of the help.
func helpWith(call call, o helpOptions) bot.Reply {
	var reply bot.Reply
	switch o.Part {
	case checksPart:
		reply = bot.Reply{Title: "Check these before any click", Text: "- " + strings.Join(say.Checks(tuning.Checks), "\n- ")}
	case cautionsPart:
		all := say.Cautions([]tuning.Caution{tuning.Hot, tuning.Gently, tuning.EaseIn, tuning.Closed, tuning.TooStiff, tuning.Broken, tuning.Estimate})
		reply = bot.Reply{Title: "Safety", Text: "- " + strings.Join(all, "\n- ") + "\nOne change at a time; your own feel decides.", Cautions: all}
	case modelPart:
		reply = bot.Reply{Title: "What the model lacks", Text: say.ModelLacks}
	default:
		reply.Title = "Lines: " + string(o.Part)
		reply.Text = strings.Join(linesOf(call, o.Part), "\n")
	}
	return o.Paged(reply, "/help part:"+string(o.Part))
}

// linesOf lists the lines of a part that the person may ask, "" for all.
func linesOf(call call, part helpPart) []string {
	var lines []string
	for _, c := range call.Catalogue.Commands() {
		if call.Ask.Who.Role.Allows(c.Role) && (part == "" || partOf(c.Name) == part) {
			lines = append(lines, fmt.Sprintf("/%s: %s", c.Name, c.Help))
		}
	}
	return lines
}
