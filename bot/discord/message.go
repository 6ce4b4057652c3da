package discord

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"detent/bot"
	"detent/bot/discord/rest"
)

// message is a message as the platform takes it: in an answer, an edit or a
// channel alike.
type message struct {
	Content     string       `json:"content"`
	Components  []component  `json:"components"`
	Attachments []attachment `json:"attachments,omitempty"`
	Mentions    mentions     `json:"allowed_mentions"`
	Flags       int          `json:"flags,omitempty"`
	Nonce       string       `json:"nonce,omitempty"`
	Once        bool         `json:"enforce_nonce,omitempty"`

	files []rest.File
}

// mentions are whom a message may notify: nobody, unless named.
type mentions struct {
	Parse []string `json:"parse"`
	Users []string `json:"users,omitempty"`
}

// attachment is what is said of a file that is sent along.
type attachment struct {
	ID          string `json:"id"` // the platform numbers files in text
	Filename    string `json:"filename"`
	Description string `json:"description,omitempty"`
}

// component is a row, a button or a text input.
type component struct {
	Type        int         `json:"type"`
	Components  []component `json:"components,omitempty"`
	CustomID    string      `json:"custom_id,omitempty"`
	Label       string      `json:"label,omitempty"`
	Style       int         `json:"style,omitempty"`
	Placeholder string      `json:"placeholder,omitempty"`
	Value       string      `json:"value,omitempty"`
	Required    *bool       `json:"required,omitempty"`
	MaxLength   int         `json:"max_length,omitempty"`
}

// The platform's numbers for them.
const (
	rowType    = 1
	buttonType = 2
	inputType  = 4

	primary   = 1 // styles of buttons
	secondary = 2

	oneLine   = 1 // styles of inputs
	manyLines = 2

	private = 1 << 6 // the flag of a message that one person sees
)

// The platform's limits, in characters.
const (
	maxContent  = 2000
	maxLabel    = 80
	maxCustomID = 100
	maxTitle    = 45 // of a form, and of the label of an input
	maxAlt      = 1024
	maxButtons  = 25
	rowButtons  = 5
	maxInputs   = 5
)

// brief is the words of a message alone: without buttons and files there is
// little that the platform can refuse.
func (m message) brief() message {
	return message{Content: clip(m.Content, maxContent/2), Components: []component{}, Mentions: m.Mentions, Flags: m.Flags}
}

func length(s string) int { return utf8.RuneCountInString(s) }

// clip shortens a text to n characters, at a space where there is one near,
// and shows that it did.
func clip(s string, n int) string {
	if length(s) <= n {
		return s
	}
	short := string([]rune(s)[:n-1])
	if i := strings.LastIndexAny(short, " \n"); i > len(short)*2/3 {
		short = short[:i]
	}
	return strings.TrimRight(short, " \n") + "…"
}

// plain keeps a text from being read as the platform's markup.
var plain = strings.NewReplacer(
	`\`, `\\`, `*`, `\*`, `_`, `\_`, `~`, `\~`, "`", "\\`", `|`, `\|`, `<`, `\<`, `[`, `\[`, `#`, `\#`,
).Replace

// named lets the platform show the names of the channels and roles whose ids a
// plain text tells. Nobody is called by it: see mentions.
func named(plain string) string {
	return idOfBadge.ReplaceAllString(idOfPlace.ReplaceAllString(plain, "<#$1>"), "<@&$1>")
}

// An id is 17 digits or more; either may have been typed as the platform writes
// it.
var (
	idOfPlace = regexp.MustCompile(`\\` + bot.PlaceMark + `(?:\\<\\#)?(\d{17,20})\b>?`)
	idOfBadge = regexp.MustCompile(bot.BadgeMark + `(?:\\<@&)?(\d{17,20})\b>?`)
)
