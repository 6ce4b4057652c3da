package discordtest

import (
	"fmt"
	"slices"
)

// Rule names one thing that the platform insists on, or that is held here as if
// it did: alt texts and closed mentions are good manners that it leaves to bots.
type Rule string

// The rules on commands.
const (
	CommandName            Rule = "command-name"             // lower case, 1-32 letters, digits, - _ '
	CommandDescription     Rule = "command-description"      // 1-100 characters
	CommandCount           Rule = "command-count"            // at most 100
	CommandSize            Rule = "command-size"             // 8,000 characters in all
	CommandTwice           Rule = "command-twice"            // one name, one command
	OptionCount            Rule = "option-count"             // at most 25
	OptionTwice            Rule = "option-twice"             // names are unique
	OptionOrder            Rule = "option-order"             // required ones first
	OptionNesting          Rule = "option-nesting"           // groups over subcommands over options, unmixed
	ChoiceCount            Rule = "choice-count"             // at most 25, in autocompletion too
	ChoiceText             Rule = "choice-text"              // name 1-100, text value at most 100
	ChoiceTwice            Rule = "choice-twice"             // names are unique
	ChoiceType             Rule = "choice-type"              // a value is of its option's type, in autocompletion too
	ChoicesAndAutocomplete Rule = "choices-and-autocomplete" // one or the other
	OptionTraits           Rule = "option-traits"            // choices and completion on texts and numbers, ranges on numbers, lengths on texts
	OptionRange            Rule = "option-range"             // the least is not above the most
)

// The rules on messages and forms.
const (
	MessageEmpty       Rule = "message-empty"
	ContentLength      Rule = "content-length"        // 2,000 characters
	ContentInV2        Rule = "content-in-v2"         // components v2 carry no content and no embeds
	EmbedCount         Rule = "embed-count"           // at most 10
	EmbedText          Rule = "embed-text"            // title 256, description 4,096, field 256/1,024, footer 2,048, author 256
	EmbedFields        Rule = "embed-fields"          // at most 25
	EmbedTotal         Rule = "embed-total"           // 6,000 characters over all embeds
	RowCount           Rule = "row-count"             // at most 5
	RowContent         Rule = "row-content"           // five buttons or one select
	ButtonLabel        Rule = "button-label"          // 80 characters, label or emoji
	ButtonLink         Rule = "button-link"           // a link has an address, another button a custom id
	CustomID           Rule = "custom-id"             // 1-100 characters
	CustomIDTwice      Rule = "custom-id-twice"       // unique in a message or form
	SelectOptions      Rule = "select-options"        // 1-25 options, texts of at most 100
	FormTitle          Rule = "form-title"            // 1-45 characters
	FormRows           Rule = "form-rows"             // 1-5 rows
	FormContent        Rule = "form-content"          // one text input a row, label 1-45
	AllowedMentions    Rule = "allowed-mentions"      // parse or list, not both
	MentionsOpen       Rule = "mentions-open"         // allowed_mentions is there and parses nothing
	AttachmentSize     Rule = "attachment-size"       // 10 MiB
	AttachmentRef      Rule = "attachment-reference"  // named files are there
	AttachmentAlt      Rule = "attachment-alt"        // alt text of at most 1,024 characters
	PictureAlt         Rule = "picture-alt"           // every picture has one
	EditFlags          Rule = "edit-flags"            // an edit carries no private flag
	NonceLength        Rule = "nonce-length"          // 25 characters
	PrivateStays       Rule = "private-stays-private" // what began private is not continued in the open
	PayloadSchema      Rule = "payload-schema"        // the published description refuses it
	UnknownKey         Rule = "unknown-key"           // a key that the published description does not have
	MalformedBody      Rule = "malformed-body"        // neither JSON nor multipart with payload_json
	DirectAfterRefusal Rule = "direct-after-refusal"  // a person who takes no direct messages is tried again
)

// The rules on answers, access and manners.
const (
	AnswerKind    Rule = "answer-kind" // the answer suits the interaction
	FormAfterForm Rule = "form-after-form"
	DeferralData  Rule = "deferral-data" // a deferral says nothing but that it is private
	AnswerLate    Rule = "answer-late"   // 10062: no first answer within 3 s
	AnswerTwice   Rule = "answer-twice"  // 40060
	AnswerFirst   Rule = "answer-first"  // no follow-up before the first answer
	TokenExpired  Rule = "token-expired" // 50027: 15 minutes are over
	TokenWrong    Rule = "token-wrong"   // 401
	RateGlobal    Rule = "rate-global"   // 50 requests a second
	RateChannel   Rule = "rate-channel"  // 5 messages in 5 s in one channel
	RateIgnored   Rule = "rate-ignored"  // sent again before retry_after was over
	ForeignHost   Rule = "foreign-host"
	UnknownRoute  Rule = "unknown-route"
	FileQuery     Rule = "file-query"     // an attachment is fetched with the query of its address
	TokenLeaked   Rule = "token-leaked"   // the file host is shown no token
	Heartbeat     Rule = "heartbeat"      // the gateway's client fell silent
	GatewayOrder  Rule = "gateway-order"  // identify once, and before anything else
	GatewayRate   Rule = "gateway-rate"   // 120 messages a minute
	DeafClient    Rule = "deaf-client"    // beats again although the last beat was not acknowledged
	StartsSpent   Rule = "starts-spent"   // identifies when no start is left
	StartsCrowded Rule = "starts-crowded" // identifies too soon after another of its bucket
	PingUnproved  Rule = "ping"           // the HTTP endpoint answers PING
	SignatureOpen Rule = "signature"      // and refuses what is not signed
)

// Violation is one broken rule.
type Violation struct {
	Rule     Rule
	Detail   string
	Expected bool // the test had announced or tolerated it
}

// Expect announces that the rule will be broken: it no longer fails the test,
// and its not being broken does.
func (p *Platform) Expect(rule Rule) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.expected[rule] = p.expected[rule] || false
}

// Tolerate lets the rules be broken, or not: for runs in which chance decides.
func (p *Platform) Tolerate(rules ...Rule) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, rule := range rules {
		p.expected[rule] = true
	}
}

// Violations lists what was broken so far, expected or not, in order.
func (p *Platform) Violations() []Violation {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]Violation(nil), p.violations...)
}

// AwaitViolation waits until the rule is broken.
func (p *Platform) AwaitViolation(rule Rule) {
	p.tb.Helper()
	p.await("a violation of "+string(rule), func() bool {
		return slices.ContainsFunc(p.violations, func(v Violation) bool { return v.Rule == rule })
	})
}

// violate notes a broken rule; p.mu is held.
func (p *Platform) violate(rule Rule, format string, args ...any) {
	if p.closed {
		return
	}
	p.tb.Helper()
	_, expected := p.expected[rule]
	v := Violation{Rule: rule, Detail: fmt.Sprintf(format, args...), Expected: expected}
	p.violations = append(p.violations, v)
	p.changed.Broadcast()
	if expected {
		p.expected[rule] = true
		return
	}
	p.tb.Errorf("discordtest: rule %s is broken: %s", rule, v.Detail)
}

// refusal is what the platform answers when a rule is broken.
type refusal struct {
	status, code int
	message      string
}

var refusals = map[Rule]refusal{
	MessageEmpty:       {400, 50006, "Cannot send an empty message"},
	AnswerLate:         {404, 10062, "Unknown interaction"},
	AnswerTwice:        {400, 40060, "Interaction has already been acknowledged."},
	AnswerFirst:        {404, 10015, "Unknown Webhook"},
	TokenExpired:       {401, 50027, "Invalid Webhook Token"},
	TokenWrong:         {401, 0, "401: Unauthorized"},
	UnknownRoute:       {404, 0, "404: Not Found"},
	AttachmentSize:     {413, 40005, "Request entity too large"},
	MalformedBody:      {400, 50109, "The request body contains invalid JSON."},
	DirectAfterRefusal: {403, 50007, "Cannot send messages to this user"},
}

// invalid is the answer to a body that breaks any other rule.
var invalid = refusal{400, 50035, "Invalid Form Body"}

// refuse notes the broken rule and gives the platform's answer; p.mu is held.
func (p *Platform) refuse(rule Rule, format string, args ...any) answer {
	p.tb.Helper()
	p.violate(rule, format, args...)
	r, ok := refusals[rule]
	if !ok {
		r = invalid
	}
	return r.answer()
}

// refuseAll notes every broken rule and answers as for the first.
func (p *Platform) refuseAll(b broken, what string) answer {
	first := p.refuse(b[0].Rule, "%s: %s", what, b[0].Detail)
	for _, v := range b[1:] {
		p.violate(v.Rule, "%s: %s", what, v.Detail)
	}
	return first
}

// broken collects the rules that one payload breaks.
type broken []Violation

func (b *broken) add(rule Rule, format string, args ...any) {
	*b = append(*b, Violation{Rule: rule, Detail: fmt.Sprintf(format, args...)})
}

// within adds the rule when a text's length lies outside min to max.
func (b *broken) within(rule Rule, what, text string, min, max int) {
	if n := length(text); n < min || n > max {
		b.add(rule, "%s has %d characters, %d to %d are allowed", what, n, min, max)
	}
}

// atMost adds the rule when there are more than max.
func (b *broken) atMost(rule Rule, what string, n, max int) {
	if n > max {
		b.add(rule, "%d %s, at most %d are allowed", n, what, max)
	}
}
