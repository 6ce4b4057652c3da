package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord/discordtest"
	"detent/tuning"
)

func TestTypedLineReachesTheBot(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		r := w.alice.Type(`/car add name:"Blue hatch" drive:front engine:front mass:1080kg`)
		if !strings.Contains(r.Content(), "**You said /car add") {
			t.Errorf("answered %q", r.Content())
		}
		ask := w.asks()[0]
		if got := ask.Line.String(); got != `/car add name:"Blue hatch" drive:front engine:front mass:1080kg` {
			t.Errorf("asked %s", got)
		}
		want := tuning.Who{Club: "discord:" + w.club.ID, Person: w.alice.ID, Name: "alice", Role: tuning.MemberRole}
		if !reflect.DeepEqual(ask.Who, want) || ask.ID == "" || ask.At.IsZero() {
			t.Errorf("asked by %+v at %v as %q", ask.Who, ask.At, ask.ID)
		}
	})
}

func TestNumbersAndWordsOfOneCommand(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.alice.Type(`/feel grip:7 entry:-2 better:yes`)
		if got := w.asks()[0].Line.String(); got != `/feel grip:7 entry:-2 better:yes` {
			t.Errorf("asked %s", got)
		}
	})
}

func TestRoles(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().join()
	club := tuning.Club{CoachRole: "<@&" + w.club.Role("coaches") + ">"}
	for name, test := range map[string]struct {
		option []discordtest.MemberOption
		want   tuning.Role
	}{
		"ann": {nil, tuning.MemberRole},
		"ben": {[]discordtest.MemberOption{discordtest.Roles("coaches")}, tuning.CoachRole},
		"cay": {[]discordtest.MemberOption{discordtest.Roles("drivers")}, tuning.MemberRole},
		"dot": {[]discordtest.MemberOption{discordtest.Permissions(discordtest.PermManageGuild)}, tuning.OrganiserRole},
		"eve": {[]discordtest.MemberOption{discordtest.Permissions(discordtest.PermAdministrator), discordtest.Roles("coaches")}, tuning.OrganiserRole},
	} {
		w.club.Member(name, test.option...).Type("/help")
		asks := w.asks()
		if got := asks[len(asks)-1].Who.RoleIn(club); got != test.want {
			t.Errorf("%s is %s, want %s", name, got, test.want)
		}
	}
}

func TestPrivateReplies(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.answer = func(_ context.Context, ask bot.Ask) bot.Reply {
			return bot.Reply{Title: "Here", Private: ask.Line.Words[0] != "baseline"}
		}
		if !w.alice.Type("/log").Private() || w.alice.Type("/baseline").Private() {
			t.Error("what is private is not what was declared")
		}
	})
}

// TestSlowAnswers sees that an answer that takes its time is announced, with
// the privacy that the command declares or the person chose, and then put in its
// place.
func TestSlowAnswers(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.share = true
		w.bot.pace.deferral = time.Millisecond
		go_on := make(chan struct{})
		w.answer = func(_ context.Context, ask bot.Ask) bot.Reply {
			<-go_on
			return bot.Reply{Title: "At last", Private: ask.Line.Words[0] == "log", Picture: &bot.Picture{Alt: "the window", PNG: []byte("\x89PNG")}}
		}
		hidden, open := w.alice.Begin("/log"), w.alice.Begin("/baseline")
		hidden.WaitFirst()
		open.WaitFirst()
		if !hidden.Private() || open.Private() || !hidden.Deferred() || !open.Deferred() {
			t.Error("the announcement has another privacy than the command")
		}
		close(go_on)
		if got := hidden.Wait(); got.Content() != "**At last**" || !got.Private() || got.Files()[0].Description != "the window" {
			t.Errorf("the answer that followed: %+v", got.Message())
		}
		open.Wait()
	})
}

// TestSlowRefusalsArePrivate sees an answer that was announced to everybody,
// and then is for the person alone, leave no trace in the channel.
func TestSlowRefusalsArePrivate(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.bot.pace.deferral = time.Millisecond
		w.share = true
		refused := make(chan struct{})
		w.answer = func(context.Context, bot.Ask) bot.Reply {
			<-refused
			return bot.Refuse(bot.Problemf(tuning.Forbidden, "That is not yours."))
		}
		r := w.alice.Begin("/baseline")
		r.WaitFirst()
		if r.Private() {
			t.Fatal("it is announced in private and shows nothing here")
		}
		w.Break(discordtest.DeleteReply, discordtest.Drop().Done()) // deleted, and the answer lost
		close(refused)
		if got := r.Wait(); !got.Private() || got.Content() != "**That is not yours.**" {
			t.Errorf("everybody reads %q", got.Content())
		}
		if left := w.club.Channel("general").Messages(); len(left) != 0 {
			t.Errorf("in the channel stays %+v", left)
		}
	})
}

func TestButtonsAndForms(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.answer = func(_ context.Context, ask bot.Ask) bot.Reply {
			return bot.Reply{Title: ask.Line.String(), Actions: []bot.Action{
				{Label: "Done", Ask: "/apply advice:7 remedy:1"},
				{Label: "Done again", Ask: "/apply advice:7 remedy:1"},
				{Label: "Worse", Ask: `/feel better:no car:"Blue hatch"`},
			}}
		}
		first := w.alice.Type("/symptom what:understeer")
		if got := first.Buttons(); !slices.Equal(got, []string{"Done", "Worse"}) {
			t.Errorf("buttons %q", got)
		}
		if got := first.Press("Done").Content(); got != "**/apply advice:7 remedy:1**" {
			t.Errorf("pressed: %q", got)
		}
		form := first.Press("Worse").Form()
		if len(form.Inputs()) != 5 || form.Title() == "" {
			t.Errorf("the form %q has %d inputs", form.Title(), len(form.Inputs()))
		}
		got := form.Fill(map[string]string{"grip": "4", "exit": "-2", "notes": "pushes\nwide"}).Submit()
		if want := "/feel better:no car:\"Blue hatch\" grip:4 exit:-2 notes:\"pushes\nwide\""; w.asks()[2].Line.String() != want {
			t.Errorf("filled in: %s", w.asks()[2].Line)
		}
		if got.Content() == "" {
			t.Error("the form is not answered")
		}
	})
}

// TestOldButton presses a button that another process, gone since, has made.
func TestOldButton(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().post()
	w.answer = func(_ context.Context, ask bot.Ask) bot.Reply {
		return bot.Reply{Title: ask.Line.String(), Actions: []bot.Action{{Label: "Done", Ask: "/apply advice:7"}}}
	}
	old := w.alice.Type("/symptom what:hops")
	w.bot.Stop(t.Context())
	w.bot = w.adapter()
	w.post()
	if got := old.Press("Done").Content(); got != "**/apply advice:7**" {
		t.Errorf("an old button says %q", got)
	}
}

// TestDirectMessages sees that commands are not offered where the club is not
// known, and that a button that stands there without one says so.
func TestDirectMessages(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.bot.config.TestClub = ""
		w.register()
		for _, c := range w.Commands(nil) {
			if !slices.Equal(c.Contexts, []int{inClubs}) {
				t.Errorf("/%s can be typed in %v", c.Name, c.Contexts)
			}
		}
		reply := bot.Reply{Title: "How did it feel?", Actions: []bot.Action{{Label: "See the log", Ask: "/log"}}}
		for club, want := range map[string]string{"": "your club's workspace", w.club.ID: "You said /log"} {
			if err := w.bot.Direct(t.Context(), "discord:"+club, w.alice.ID, reply, "nonce"+club); err != nil {
				t.Fatal(err)
			}
			inbox := w.alice.Inbox().Messages()
			if got := inbox[len(inbox)-1].Press("See the log").Content(); !strings.Contains(got, want) {
				t.Errorf("a button that carries %q answers %q", club, got)
			}
		}
		if asks := w.asks(); len(asks) != 1 || asks[0].Who.Club != "discord:"+w.club.ID {
			t.Errorf("the bot was asked %+v", asks)
		}
	})
}

func TestSuggestions(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		w.suggest = func(ask bot.Ask, option, typed string) []bot.Suggestion {
			if ask.Line.String() == "/clicks set at:front adjuster:rebound" && option == "to" && typed == "12" {
				return []bot.Suggestion{{Value: "12", Label: "12 from hard"}, {Value: "13", Label: "13 from hard"}}
			}
			long := []bot.Suggestion{{Value: option + typed, Label: strings.Repeat("long ", 40)}}
			for n := range 40 {
				long = append(long, bot.Suggestion{Value: "x", Label: fmt.Sprint(n, strings.Repeat(" long", 40))})
			}
			return slices.Insert(long, 1, long[0])
		}
		got := w.alice.Autocomplete("/clicks set at:front adjuster:rebound to:12")
		if len(got) != 2 || got[0].Name != "12 from hard" || got[0].Value != "12" {
			t.Errorf("offered %+v", got)
		}
		if got := w.alice.Autocomplete("/log car:b"); len(got) != bot.MaxSuggestions-1 || got[0].Value != "carb" {
			t.Errorf("offered %d, first %+v", len(got), got[:1])
		}
	})
}

func TestRegistrationOnlyWhenChanged(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register().register()
	if got := len(w.Requests(discordtest.PutGuildCommands)); got != 1 {
		t.Errorf("registered %d times", got)
	}
	w.bot.config.TestClub = ""
	w.register().register()
	if got := len(w.Requests(discordtest.PutCommands)); got != 1 {
		t.Errorf("registered globally %d times", got)
	}
	for _, c := range lines.Commands() {
		word, second, grouped := strings.Cut(c.Name, " ")
		at := slices.IndexFunc(w.Commands(nil), func(r discordtest.Command) bool { return r.Name == word })
		if at < 0 {
			t.Errorf("/%s is not registered", c.Name)
			continue
		}
		there := w.Commands(nil)[at]
		options := there.Options
		if grouped {
			at := slices.IndexFunc(options, func(o discordtest.Option) bool { return o.Name == second })
			options = options[at].Options
		}
		if len(options) != len(c.Options) {
			t.Errorf("/%s has %d options of %d", c.Name, len(options), len(c.Options))
		}
	}
}

// TestRangesThatEndAtNothing are sent as they are: the library leaves out a
// largest value of 0.
func TestRangesThatEndAtNothing(t *testing.T) {
	t.Parallel()
	text, err := json.Marshal(optionOf(bot.Option{Name: "step", Help: "a step", Kind: bot.Whole, Min: -3, Max: 0}))
	if err != nil || !strings.Contains(string(text), `"min_value":-3,"max_value":0`) {
		t.Errorf("%s, %v", text, err)
	}
}
