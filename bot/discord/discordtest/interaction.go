package discordtest

import (
	"encoding/json"
	"fmt"
	"time"
)

const (
	firstAnswerWithin = 3 * time.Second
	tokenLife         = 15 * time.Minute
)

// The kinds of interaction.
const (
	kindPing = iota + 1
	kindCommand
	kindComponent
	kindAutocomplete
	kindForm
)

// interaction is one thing that a person did, and what came back.
type interaction struct {
	id, token string
	kind      int
	by        *Member
	data      map[string]any
	source    *message // that the button or select stands on
	born      time.Time
	failure   string // why the person sees that the bot did not respond

	answered  int // the kind of first answer
	after     time.Duration
	private   bool
	original  *message // what @original names
	editsAt   int      // edits of the original when it was answered
	followUps []*message
	choices   []Choice
	form      *formShape
}

// settled tells whether the person has an answer to read.
func (i *interaction) settled() bool {
	switch i.answered {
	case unanswered:
		return false
	case answerDeferred:
		return i.original.flags&flagLoading == 0 || i.original.deleted && len(i.followUps) > 0
	case answerUpdateLater:
		return i.original.edits > i.editsAt || len(i.followUps) > 0
	}
	return true
}

// lost tells whether the person was told that the bot did not respond; p.mu is held.
func (p *Platform) lost(i *interaction) bool {
	return i.failure != "" || i.answered == unanswered && !i.born.IsZero() && p.now().Sub(i.born) > p.deadline
}

// typing finds the type of the option that is being completed, if one is.
func (i *interaction) typing() (kind int, found bool) {
	if i.kind != kindAutocomplete {
		return 0, false
	}
	var search func(options any)
	search = func(options any) {
		list, _ := options.([]any)
		for _, o := range list {
			option := o.(map[string]any)
			if option["focused"] == true {
				kind, found = option["type"].(int), true
			}
			search(option["options"])
		}
	}
	search(i.data["options"])
	return kind, found
}

// String tells which interaction it is, for messages of failing tests.
func (i *interaction) String() string {
	what := i.data["name"]
	if what == nil {
		what = i.data["custom_id"]
	}
	return fmt.Sprintf("interaction of %s with %v", i.by.Name, what)
}

// interactionJSON is the interaction as it is delivered; p.mu is held.
func (p *Platform) interactionJSON(i *interaction) []byte {
	by := i.by
	body := map[string]any{
		"id": i.id, "application_id": p.app, "type": i.kind, "data": i.data, "token": i.token, "version": 1,
		"channel_id": by.channel.ID, "channel": by.channel.json(), "app_permissions": permissionText(by.channel.botPermissions()),
		"locale": by.locale, "entitlements": []any{}, "attachment_size_limit": maxAttachment,
	}
	if by.Guild != nil {
		body["guild_id"], body["guild_locale"], body["context"] = by.Guild.ID, "en-US", 0
		body["guild"] = map[string]any{"id": by.Guild.ID, "locale": "en-US", "features": []any{}}
		member := by.json()
		member["permissions"] = permissionText(by.permissions()) // told in interactions alone
		body["member"] = member
		body["authorizing_integration_owners"] = map[string]any{"0": by.Guild.ID}
	} else {
		body["user"], body["context"] = by.Person.json(), 1
		body["authorizing_integration_owners"] = map[string]any{"0": "0"}
	}
	if i.source != nil {
		body["message"] = p.json(i.source)
	}
	data, err := json.Marshal(body)
	if err != nil {
		p.tb.Fatalf("discordtest: %v", err)
	}
	return data
}
