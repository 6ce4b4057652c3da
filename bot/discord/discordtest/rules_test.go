package discordtest

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"
)

func long(n int) string { return strings.Repeat("x", n) }

func many(n int, make func(i int) any) list {
	made := list{}
	for i := range n {
		made = append(made, make(i))
	}
	return made
}

func command(options ...any) obj {
	return obj{"name": "car", "description": "Cars", "options": options}
}

func option(kind int, name string) obj {
	return obj{"type": kind, "name": name, "description": "An option"}
}

func with(o obj, key string, value any) obj { o[key] = value; return o }

func button(id string) obj { return obj{"type": 2, "style": 1, "label": "Go", "custom_id": id} }

func row(parts ...any) obj { return obj{"type": 1, "components": parts} }

func menu(options list) obj {
	return obj{"type": 3, "custom_id": "menu", "options": options}
}

func input(id string) obj {
	return obj{"type": 4, "custom_id": id, "label": "Mass", "style": 1}
}

func embed(key string, value any) obj { return obj{"embeds": list{obj{key: value}}} }

func parts(components ...any) obj { return obj{"components": components} }

// badMessages breaks the rules on messages, one each.
var badMessages = map[Rule]any{
	MessageEmpty:    obj{"content": ""},
	ContentLength:   obj{"content": long(2001)},
	ContentInV2:     obj{"content": "x", "flags": flagV2},
	EmbedCount:      obj{"embeds": many(11, func(int) any { return obj{"title": "x"} })},
	EmbedText:       embed("title", long(257)),
	EmbedFields:     embed("fields", many(26, func(int) any { return obj{"name": "n", "value": "v"} })),
	EmbedTotal:      obj{"embeds": many(2, func(int) any { return obj{"description": long(3001)} })},
	RowCount:        obj{"components": many(6, func(i int) any { return row(button(fmt.Sprint(i))) })},
	RowContent:      parts(row(button("a"), menu(list{obj{"label": "x", "value": "x"}}))),
	ButtonLabel:     parts(row(with(button("a"), "label", long(81)))),
	ButtonLink:      parts(row(with(button("a"), "style", styleLink))),
	CustomID:        parts(row(button(long(101)))),
	CustomIDTwice:   parts(row(button("a"), button("a"))),
	SelectOptions:   parts(row(menu(many(26, func(i int) any { return obj{"label": fmt.Sprint(i), "value": fmt.Sprint(i)} })))),
	AllowedMentions: obj{"content": "x", "allowed_mentions": obj{"parse": list{"users"}, "users": list{"1"}}},
	MentionsOpen:    obj{"content": "x", "allowed_mentions": nil},
	AttachmentRef:   embed("image", obj{"url": "attachment://grip.png"}),
	NonceLength:     obj{"content": "x", "nonce": long(26)},
	PayloadSchema:   obj{"content": "x", "tts": "loud"},
	UnknownKey:      obj{"content": "x", "colour": "red"},
	MalformedBody:   "{",
}

// badCommands breaks the rules on commands, one each.
var badCommands = map[Rule]list{
	CommandName:        {with(command(), "name", "Car")},
	CommandDescription: {with(command(), "description", "")},
	CommandCount: many(101, func(i int) any {
		return with(command(), "name", fmt.Sprint("car", i))
	}),
	CommandSize: {command(many(25, func(i int) any {
		return with(option(3, fmt.Sprint("o", i)), "choices", many(25, func(i int) any {
			return obj{"name": fmt.Sprint("choice ", i), "value": fmt.Sprint("choice ", i)}
		}))
	})...)},
	CommandTwice:           {command(), command()},
	OptionCount:            {command(many(26, func(i int) any { return option(3, fmt.Sprint("o", i)) })...)},
	OptionTwice:            {command(option(3, "name"), option(3, "name"))},
	OptionOrder:            {command(option(3, "a"), with(option(3, "b"), "required", true))},
	OptionNesting:          {command(option(3, "a"), option(1, "b"))},
	ChoiceCount:            {command(with(option(3, "a"), "choices", many(26, func(i int) any { return obj{"name": fmt.Sprint(i), "value": fmt.Sprint(i)} })))},
	ChoiceText:             {command(with(option(3, "a"), "choices", list{obj{"name": "", "value": "x"}}))},
	ChoiceTwice:            {command(with(option(3, "a"), "choices", list{obj{"name": "x", "value": "x"}, obj{"name": "x", "value": "y"}}))},
	ChoiceType:             {command(with(option(4, "a"), "choices", list{obj{"name": "x", "value": "1"}}))},
	OptionTraits:           {command(with(option(3, "a"), "min_value", 1))},
	OptionRange:            {command(with(with(option(4, "a"), "min_value", 3), "max_value", 2))},
	ChoicesAndAutocomplete: {command(with(with(option(3, "a"), "choices", list{obj{"name": "x", "value": "x"}}), "autocomplete", true))},
}

// badForms breaks the rules on forms, one each.
var badForms = map[Rule]obj{
	FormTitle:   {"custom_id": "f", "title": long(46), "components": list{row(input("a"))}},
	FormRows:    {"custom_id": "f", "title": "Form", "components": many(6, func(i int) any { return row(input(fmt.Sprint(i))) })},
	FormContent: {"custom_id": "f", "title": "Form", "components": list{obj{"type": 18, "label": "Mass", "component": input("a")}}},
}

// badManners breaks the rules that need more than one payload.
var badManners = map[Rule]func(*httpClub){
	AttachmentSize: func(w *httpClub) { w.postFile(`{}`, "a.bin", make([]byte, maxAttachment+1)) },
	AttachmentAlt: func(w *httpClub) {
		w.postFile(`{"attachments":[{"id":"0","description":"`+long(1025)+`"}]}`, "a.png", []byte("x"))
	},
	PictureAlt: func(w *httpClub) { w.postFile(`{"attachments":[{"id":"0"}]}`, "a.png", []byte("x")) },
	DeferralData: func(w *httpClub) {
		_, a := w.begin()
		w.answer(a, answerDeferred, obj{"flags": flagPrivate | flagV2})
	},
	EditFlags: func(w *httpClub) {
		_, a := w.begin()
		w.answer(a, answerDeferred, obj{"flags": flagPrivate})
		w.ask("PATCH", "/webhooks/"+w.app+"/"+a.Token+"/messages/@original", obj{"content": "x", "flags": flagPrivate})
	},
	PrivateStays: func(w *httpClub) {
		_, a := w.begin()
		w.answer(a, answerMessage, obj{"content": "x", "flags": flagPrivate})
		w.follow(a, obj{"content": "for all"})
	},
	DirectAfterRefusal: func(w *httpClub) {
		w.alice.CloseDirect(50007)
		w.ask("POST", "/users/@me/channels", obj{"recipient_id": w.alice.ID})
		for range 2 {
			w.ask("POST", "/channels/"+w.alice.Inbox().ID+"/messages", obj{"content": "x"})
		}
	},
	AnswerKind: func(w *httpClub) {
		_, a := w.begin()
		w.answer(a, answerUpdate, obj{"content": "x"})
	},
	FormAfterForm: func(w *httpClub) {
		w.DeliverTo(w.endpoint)
		w.alice.SubmitStrange()
		w.answer(<-w.arrivals, answerForm, obj{"custom_id": "f", "title": "Again", "components": list{row(input("a"))}})
	},
	AnswerLate: func(w *httpClub) {
		_, a := w.begin()
		w.Advance(firstAnswerWithin + time.Millisecond)
		w.answer(a, answerMessage, obj{"content": "x"})
	},
	AnswerTwice: func(w *httpClub) {
		_, a := w.begin()
		w.answer(a, answerMessage, obj{"content": "x"})
		w.answer(a, answerMessage, obj{"content": "x"})
	},
	AnswerFirst: func(w *httpClub) {
		_, a := w.begin()
		w.follow(a, obj{"content": "x"})
	},
	TokenExpired: func(w *httpClub) {
		_, a := w.begin()
		w.answer(a, answerDeferred, nil)
		w.Advance(tokenLife + time.Second)
		w.ask("PATCH", "/webhooks/"+w.app+"/"+a.Token+"/messages/@original", obj{"content": "x"})
	},
	TokenWrong: func(w *httpClub) {
		response, err := w.Client().Get("https://discord.com/api/v10/users/@me")
		if err != nil || response.StatusCode != http.StatusUnauthorized {
			w.t.Errorf("without a token: %v, %v", response, err)
		}
	},
	RateGlobal: func(w *httpClub) {
		at := time.Now()
		w.clock = func() time.Time { return at }
		for range requestsASecond + 1 {
			w.ask("GET", "/users/@me", nil)
		}
	},
	RateChannel: func(w *httpClub) {
		at := time.Now()
		w.clock = func() time.Time { return at }
		for range channelMessages + 1 {
			w.post(obj{"content": "x"})
		}
	},
	RateIgnored: func(w *httpClub) {
		w.Break(GetMe, RateLimited(time.Hour))
		w.ask("GET", "/users/@me", nil)
		w.Advance(time.Second)
		w.ask("GET", "/users/@me", nil)
	},
	ForeignHost: func(w *httpClub) {
		if _, err := w.Client().Get("http://example.com/"); err == nil {
			w.t.Error("a foreign host answers")
		}
	},
	FileQuery: func(w *httpClub) { w.fetchFile(func(r *http.Request) { r.URL.RawQuery = "" }) },
	TokenLeaked: func(w *httpClub) {
		w.fetchFile(func(r *http.Request) { r.Header.Set("Authorization", "Bot "+w.Token()) })
	},
	UnknownRoute: func(w *httpClub) { w.ask("GET", "/guilds/1/bans", nil) },
	Heartbeat: func(w *httpClub) {
		w.Gateway.interval, w.Gateway.slack = 10*time.Millisecond, 0
		if op, _ := w.hear(w.dial()); op != -CloseTimedOut {
			w.t.Errorf("a silent client is closed with %d", -op)
		}
	},
	GatewayOrder: func(w *httpClub) {
		conn := w.dial()
		w.tell(conn, 3, obj{})
		if op, _ := w.hear(conn); op != -CloseNotAuthenticated {
			w.t.Errorf("closed with %d", -op)
		}
	},
	GatewayRate: func(w *httpClub) {
		conn := w.dial()
		for range gatewayMessages + 1 {
			w.tell(conn, opHeartbeat, 1)
		}
		for op := 0; op >= 0; {
			if op, _ = w.hear(conn); op < 0 && op != -CloseRateLimited {
				w.t.Errorf("closed with %d", -op)
			}
		}
	},
	DeafClient: func(w *httpClub) {
		w.Gateway.WithholdAcks(true)
		conn := w.dial()
		w.tell(conn, opHeartbeat, 1)
		w.tell(conn, opHeartbeat, 1)
		w.AwaitViolation(DeafClient)
	},
	StartsSpent: func(w *httpClub) {
		w.Gateway.LeaveStarts(0, time.Hour)
		conn := w.dial()
		w.identify(conn, nil)
		if op, _ := w.hear(conn); op != -CloseTokenWrong {
			w.t.Errorf("closed with %d", -op)
		}
	},
	StartsCrowded: func(w *httpClub) {
		w.Gateway.SpaceStarts(2, time.Hour)
		for shard, want := range map[int]int{0: opDispatch, 1: opDispatch} {
			conn := w.dial()
			w.identify(conn, obj{"shard": list{shard, 3}})
			if op, _ := w.hear(conn); op != want {
				w.t.Errorf("shard %d is answered with %d", shard, op)
			}
		}
		conn := w.dial()
		w.identify(conn, obj{"shard": list{2, 3}})
		if op, _ := w.hear(conn); op != opInvalidSession {
			w.t.Errorf("shard 2, of the bucket of shard 0, is answered with %d", op)
		}
	},
	PingUnproved:  func(w *httpClub) { w.DeliverTo(constant(w.t, http.StatusUnauthorized)) },
	SignatureOpen: func(w *httpClub) { w.DeliverTo(constant(w.t, http.StatusOK)) },
}

// fetchFile sends a file with a command and fetches it with a request that is
// changed before.
func (w *httpClub) fetchFile(change func(*http.Request)) {
	w.mu.Lock()
	stored := w.newFile(FileNamed("t.csv", []byte("1,2,3")), w.general, false)
	w.files[stored.id] = stored
	w.mu.Unlock()
	request, err := http.NewRequest("GET", stored.json()["url"].(string), nil)
	if err != nil {
		w.t.Fatal(err)
	}
	change(request)
	response, err := w.Client().Do(request)
	if err != nil || response.StatusCode < 400 {
		w.t.Errorf("it is answered with %v, %v", response, err)
	}
}

// constant is a bot's address that always answers PONG with a status.
func constant(t *testing.T, status int) string {
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.WriteHeader(status)
		fmt.Fprint(w, `{"type":1}`)
	}))
	t.Cleanup(server.Close)
	return server.URL
}

// breaker finds what breaks a rule.
func breaker(rule Rule) func(*httpClub) {
	if payload, ok := badMessages[rule]; ok {
		return func(w *httpClub) { w.post(payload) }
	}
	if commands, ok := badCommands[rule]; ok {
		return func(w *httpClub) { w.register(commands...) }
	}
	if form, ok := badForms[rule]; ok {
		return func(w *httpClub) {
			_, a := w.begin()
			w.answer(a, answerForm, form)
		}
	}
	return badManners[rule]
}

// TestRules breaks every rule that has a name, and sees that the test fails
// with that name and no other.
func TestRules(t *testing.T) {
	for _, rule := range ruleNames(t) {
		t.Run(string(rule), func(t *testing.T) {
			t.Parallel()
			violate := breaker(rule)
			if violate == nil {
				t.Fatal("nothing here breaks the rule")
			}
			w := newHTTPClub(t)
			if w.spec == nil && (rule == PayloadSchema || rule == UnknownKey) {
				return // TestDescription tells that the description is missing
			}
			violate(w)
			for _, v := range w.Violations() {
				if v.Rule != rule || v.Expected {
					t.Errorf("violation %+v", v)
				}
			}
			w.record.mu.Lock()
			defer w.record.mu.Unlock()
			if len(w.record.errors) == 0 || !strings.Contains(w.record.errors[0], "rule "+string(rule)+" is broken") {
				t.Errorf("the test fails with %q", w.record.errors)
			}
		})
	}
}

// ruleNames reads the names out of the source, so that none is forgotten here.
func ruleNames(t *testing.T) (names []Rule) {
	file, err := parser.ParseFile(token.NewFileSet(), "rules.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, decl := range file.Decls {
		group, ok := decl.(*ast.GenDecl)
		if !ok || group.Tok != token.CONST {
			continue
		}
		for _, spec := range group.Specs {
			value := spec.(*ast.ValueSpec).Values[0].(*ast.BasicLit).Value
			names = append(names, Rule(strings.Trim(value, `"`)))
		}
	}
	if len(names) < 50 {
		t.Fatalf("only %d rules found", len(names))
	}
	return names
}

// TestRefusals sees that broken rules are answered with the platform's codes.
func TestRefusals(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	for _, test := range []struct {
		rule         Rule
		status, code int
		ask          func() (int, int)
	}{
		{MessageEmpty, 400, 50006, func() (int, int) { return w.post(obj{"content": ""}) }},
		{ContentLength, 400, 50035, func() (int, int) { return w.post(obj{"content": long(2001)}) }},
		{MalformedBody, 400, 50109, func() (int, int) { return w.post("{") }},
		{UnknownRoute, 404, 0, func() (int, int) { return w.ask("GET", "/nowhere", nil) }},
		{AnswerTwice, 400, 40060, func() (int, int) {
			_, a := w.begin()
			w.answer(a, answerMessage, obj{"content": "x"})
			return w.answer(a, answerMessage, obj{"content": "x"})
		}},
		{AnswerLate, 404, 10062, func() (int, int) {
			_, a := w.begin()
			w.Advance(4 * time.Second)
			return w.answer(a, answerMessage, obj{"content": "x"})
		}},
		{TokenExpired, 401, 50027, func() (int, int) {
			_, a := w.begin()
			w.answer(a, answerMessage, obj{"content": "x"})
			w.Advance(16 * time.Minute)
			return w.follow(a, obj{"content": "x"})
		}},
	} {
		w.Expect(test.rule)
		if status, code := test.ask(); status != test.status || code != test.code {
			t.Errorf("%s: %d %d, want %d %d", test.rule, status, code, test.status, test.code)
		}
	}
	if len(w.record.errors) > 0 {
		t.Errorf("expected violations fail the test: %q", w.record.errors)
	}
}

// TestExpectUnmet sees that an announced violation must come.
func TestExpectUnmet(t *testing.T) {
	t.Parallel()
	record := &recorder{TB: t}
	t.Run("inner", func(t *testing.T) {
		record.TB = t
		New(record).Expect(RateGlobal)
	})
	if len(record.errors) != 1 || !strings.Contains(record.errors[0], string(RateGlobal)) {
		t.Errorf("errors %q", record.errors)
	}
}

// TestCompletionTypes sees values held to the type of the option that is being
// completed.
func TestCompletionTypes(t *testing.T) {
	t.Parallel()
	for kind, values := range map[int][2]list{ // good ones, and others
		3:  {{"a", "12"}, {12, true}},
		4:  {{12, -3}, {"12", 1.5}},
		10: {{12, 1.5}, {"1.5"}},
	} {
		for good, list := range map[bool]list{true: values[0], false: values[1]} {
			for _, value := range list {
				w := newHTTPClub(t)
				w.DeliverTo(w.endpoint)
				w.register(obj{"name": "go", "description": "Go", "options": []any{with(option(kind, "a"), "autocomplete", true)}})
				w.alice.begin(kindAutocomplete, 0, "/go a:1", nil)
				status, _ := w.answer(<-w.arrivals, answerChoices, obj{"choices": []any{obj{"name": "One", "value": value}}})
				if broken := slices.ContainsFunc(w.Violations(), func(v Violation) bool { return v.Rule == ChoiceType }); broken == good || status == 204 != good {
					t.Errorf("%v for an option of type %d: %d, %v", value, kind, status, w.Violations())
				}
			}
		}
	}
}
