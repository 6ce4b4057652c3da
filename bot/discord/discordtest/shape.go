package discordtest

import (
	"encoding/json"
	"unicode/utf8"
)

// The shapes that travel, as far as the stand-in looks into them. They are its
// own, not the client library's, so that a mistake there is not shared here.

// Command is one registered command.
type Command struct {
	ID                       string   `json:"id"`
	Type                     int      `json:"type"`
	Name                     string   `json:"name"`
	Description              string   `json:"description"`
	Options                  []Option `json:"options"`
	DefaultMemberPermissions any      `json:"default_member_permissions"`
	Contexts                 []int    `json:"contexts"`
	DMPermission             *bool    `json:"dm_permission"`
}

// Option is one option, subcommand or group of subcommands.
type Option struct {
	Type         int      `json:"type"`
	Name         string   `json:"name"`
	Description  string   `json:"description"`
	Required     bool     `json:"required"`
	Autocomplete bool     `json:"autocomplete"`
	Choices      []Choice `json:"choices"`
	Options      []Option `json:"options"`
	MinValue     *float64 `json:"min_value"`
	MaxValue     *float64 `json:"max_value"`
	MinLength    *int     `json:"min_length"`
	MaxLength    *int     `json:"max_length"`
}

// The kinds of option.
const (
	optSubcommand = iota + 1
	optGroup
	optString
	optInteger
	optBoolean
	optUser
	optChannel
	optRole
	optMentionable
	optNumber
	optAttachment
)

// Choice is one ready value of an option; Value is a string or a float64.
type Choice struct {
	Name  string `json:"name"`
	Value any    `json:"value"`
}

// Embed is a framed block of text in a message.
type Embed struct {
	Title       string       `json:"title,omitempty"`
	Description string       `json:"description,omitempty"`
	URL         string       `json:"url,omitempty"`
	Color       int          `json:"color,omitempty"`
	Fields      []EmbedField `json:"fields,omitempty"`
	Footer      *EmbedFooter `json:"footer,omitempty"`
	Author      *EmbedAuthor `json:"author,omitempty"`
	Image       *EmbedImage  `json:"image,omitempty"`
	Thumbnail   *EmbedImage  `json:"thumbnail,omitempty"`
}

// EmbedField is a named part of an embed.
type EmbedField struct {
	Name   string `json:"name"`
	Value  string `json:"value"`
	Inline bool   `json:"inline,omitempty"`
}

// EmbedFooter is an embed's footer.
type EmbedFooter struct {
	Text string `json:"text"`
}

// EmbedAuthor is who an embed names at its top.
type EmbedAuthor struct {
	Name string `json:"name"`
}

// EmbedImage is a picture in an embed; "attachment://name" means a file of the same message.
type EmbedImage struct {
	URL string `json:"url"`
}

// Component is a row, a button, a select, a text input or a part of components v2.
type Component struct {
	Type        int            `json:"type"`
	CustomID    string         `json:"custom_id,omitempty"`
	Style       int            `json:"style,omitempty"`
	Label       string         `json:"label,omitempty"`
	Emoji       map[string]any `json:"emoji,omitempty"`
	URL         string         `json:"url,omitempty"`
	Disabled    bool           `json:"disabled,omitempty"`
	Placeholder string         `json:"placeholder,omitempty"`
	Value       string         `json:"value,omitempty"`
	Required    *bool          `json:"required,omitempty"`
	MinLength   int            `json:"min_length,omitempty"`
	MaxLength   int            `json:"max_length,omitempty"`
	MinValues   *int           `json:"min_values,omitempty"`
	MaxValues   int            `json:"max_values,omitempty"`
	Options     []SelectOption `json:"options,omitempty"`
	Components  []Component    `json:"components,omitempty"`
	Content     string         `json:"content,omitempty"`
	Accessory   *Component     `json:"accessory,omitempty"`
	Items       []GalleryItem  `json:"items,omitempty"`
	AccentColor *int           `json:"accent_color,omitempty"`
}

// SelectOption is one line of a select.
type SelectOption struct {
	Label       string `json:"label"`
	Value       string `json:"value"`
	Description string `json:"description,omitempty"`
	Default     bool   `json:"default,omitempty"`
}

// GalleryItem is one picture of a media gallery.
type GalleryItem struct {
	Media       EmbedImage `json:"media"`
	Description string     `json:"description,omitempty"`
}

// The kinds of component that are told apart.
const (
	compRow       = 1
	compButton    = 2
	compSelect    = 3
	compTextInput = 4
	compChannels  = 8 // the last of the selects of people, roles and channels
	compLabel     = 18
)

const (
	styleLink = 5 // a button that leads to an address

	flagPrivate = 1 << 6
	flagLoading = 1 << 7
	flagV2      = 1 << 15
)

// given is a key of a payload that may be absent, null or set: an edit treats
// the first as "leave it" and the others as "make it so".
type given[T any] struct {
	Set   bool
	Value T
}

func (g *given[T]) UnmarshalJSON(data []byte) error {
	g.Set = true
	return json.Unmarshal(data, &g.Value)
}

// draft is what a request wants a message to be.
type draft struct {
	Content         given[string]          `json:"content"`
	Embeds          given[[]Embed]         `json:"embeds"`
	Components      given[[]Component]     `json:"components"`
	Attachments     given[[]attachmentRef] `json:"attachments"`
	AllowedMentions *mentions              `json:"allowed_mentions"`
	Flags           given[int]             `json:"flags"`
	Nonce           any                    `json:"nonce"`
	EnforceNonce    bool                   `json:"enforce_nonce"`

	files []File // the parts files[n], in the order of n
	parts []int  // the n of each
}

type attachmentRef struct {
	ID, Filename, Description string
}

// UnmarshalJSON takes an id that is a number or a text of digits.
func (a *attachmentRef) UnmarshalJSON(data []byte) error {
	var raw struct {
		ID          any    `json:"id"`
		Filename    string `json:"filename"`
		Description string `json:"description"`
	}
	if err := json.Unmarshal(data, &raw); err != nil {
		return err
	}
	a.ID, a.Filename, a.Description = plain(raw.ID), raw.Filename, raw.Description
	return nil
}

type mentions struct {
	Parse []string `json:"parse"`
	Users []string `json:"users"`
	Roles []string `json:"roles"`
}

// length counts characters as the platform does.
func length(s string) int { return utf8.RuneCountInString(s) }
