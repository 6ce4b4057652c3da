package discord

import (
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"detent/bot"
	"detent/bot/discord/discordtest"
	"detent/tuning"
)

// pressed sends a button to somebody in a direct message and returns what
// pressing it is answered with.
func (w *adapterClub) pressed(who *discordtest.Member) *discordtest.Reply {
	w.t.Helper()
	reply := bot.Reply{Title: "How did it feel?", Actions: []bot.Action{{Label: "See the log", Ask: "/log"}}}
	inbox := who.Inbox().Messages()
	if len(inbox) == 0 {
		if err := w.bot.Direct(w.t.Context(), clubKey(w.club.ID), who.ID, reply, "nonce"); err != nil {
			w.t.Fatal(err)
		}
		inbox = who.Inbox().Messages()
	}
	return inbox[0].Press("See the log")
}

// TestDirectRoles sees roles in a direct message be those of the club.
func TestDirectRoles(t *testing.T) {
	t.Parallel()
	bothWays(t, func(t *testing.T, w *adapterClub) {
		club := tuning.Club{CoachRole: w.club.Role("coaches")}
		w.club.Grant("committee", discordtest.PermManageGuild)
		owner := w.club.Member("owner")
		w.club.Own(owner)
		for who, want := range map[*discordtest.Member]tuning.Role{
			w.alice: tuning.MemberRole,
			w.club.Member("ben", discordtest.Roles("coaches")):                           tuning.CoachRole,
			w.club.Member("cay", discordtest.Roles("committee", "coaches")):              tuning.OrganiserRole,
			w.club.Member("dot", discordtest.Permissions(discordtest.PermAdministrator)): tuning.OrganiserRole,
			owner: tuning.OrganiserRole,
		} {
			w.pressed(who)
			asks := w.asks()
			if got := asks[len(asks)-1].Who; got.RoleIn(club) != want || got.Person != who.ID || got.Club != clubKey(w.club.ID) {
				t.Errorf("%s asks as %+v, want %s", who.Name, got, want)
			}
		}
	})
}

// TestWhoLeftMayNotAct presses an old button after leaving the club, within the
// minute for which the answer is kept, after it, and after coming back.
func TestWhoLeftMayNotAct(t *testing.T) {
	t.Parallel()
	test := func(t *testing.T, begin func(*adapterClub)) {
		t.Parallel()
		w, later := newAdapterClub(t), atomic.Int64{}
		w.bot.config.Now = func() time.Time { return time.Now().Add(time.Duration(later.Load())) }
		begin(w.register())
		w.pressed(w.alice)
		w.pressed(w.alice)
		if got := len(w.Requests(discordtest.GetMember)); got != 1 || len(w.asks()) != 2 {
			t.Errorf("asked the platform %d times for %d presses in a minute", got, len(w.asks()))
		}
		w.alice.Leave()
		later.Add(int64(time.Minute))
		got := w.pressed(w.alice)
		if !strings.Contains(got.Content(), "not in that club's workspace any more") || !got.Private() || len(w.asks()) != 2 {
			t.Errorf("who has left is answered %q", got.Content())
		}
		w.club.Member("alice")
		if w.pressed(w.alice); len(w.asks()) != 3 {
			t.Error("who came back may not act")
		}
		w.club.Remove()
		later.Add(int64(time.Minute))
		if got := w.pressed(w.alice).Content(); !strings.Contains(got, "not in that club's workspace any more") || len(w.asks()) != 3 {
			t.Errorf("of a club that removed the bot it answers %q", got)
		}
	}
	t.Run("gateway", func(t *testing.T) { test(t, func(w *adapterClub) { w.join() }) })
	t.Run("posted", func(t *testing.T) { test(t, func(w *adapterClub) { w.post() }) })
}

// TestPlatformThatDoesNotTell is slow, or fails, when it is asked for a member
// or for the club: nobody acts.
func TestPlatformThatDoesNotTell(t *testing.T) {
	t.Parallel()
	for name, test := range map[string]struct {
		route discordtest.Route
		fault discordtest.Fault
	}{
		"no member, slow":   {discordtest.GetMember, discordtest.Hang()},
		"no member, broken": {discordtest.GetMember, discordtest.Status(500)},
		"no club, broken":   {discordtest.GetGuild, discordtest.Status(503)},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := newAdapterClub(t).register().join()
			w.bot.pace.standing, w.bot.pace.question = 500*time.Millisecond, 250*time.Millisecond
			w.bot.api.Backoff = 20 * time.Millisecond
			w.Break(test.route, discordtest.Times(10, test.fault)...)
			got := w.pressed(w.alice)
			if !strings.Contains(got.Content(), "does not tell me in time") || !got.Private() || len(w.asks()) != 0 {
				t.Errorf("answered %q, and the bot was asked %d times", got.Content(), len(w.asks()))
			}
		})
	}
}

// TestButtonsThatNameNoClub carry what is no number of a club.
func TestButtonsThatNameNoClub(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t)
	for _, club := range []string{"../users/@me", "1 2", "x"} {
		if err := w.bot.standing(t.Context(), &request{club: club, person: w.alice.ID}); err != errNotThere {
			t.Errorf("%q: %v", club, err)
		}
	}
	if got := w.Requests(discordtest.AnyRoute); len(got) != 0 {
		t.Errorf("the platform was asked for %s", got[0].Path)
	}
}
