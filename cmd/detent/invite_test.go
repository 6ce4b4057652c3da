package main

import (
	"encoding/base64"
	"os"
	"strings"
	"testing"

	"detent/bot/discord"
	"detent/bot/discord/discordtest"
)

// The address that is printed lets the bot in. That what it asks for is enough is
// seen by all that is played in a workspace: see leastInvited.
func TestInvite(t *testing.T) {
	t.Setenv("DETENT_DISCORD_TOKEN", "")
	p := discordtest.New(t)
	for _, args := range [][]string{{"invite", "--token", p.Token(), "--api", p.URL()}, {"invite", p.ApplicationID()}} {
		out, errs, code := execute(t, args...)
		if code != exitAnswered || errs != "" {
			t.Fatalf("%q leaves with %d: %s", args, code, errs)
		}
		address, words, _ := strings.Cut(out, "\n")
		p.Invite("Windy Hill", address)
		if want := "Open it as somebody who may manage the workspace. It asks for View Channel, Send Messages and Attach Files, and for nothing else.\n"; words != want {
			t.Errorf("below it says %q", words)
		}
	}
	out, _, _ := execute(t, "invite", "--threads", p.ApplicationID())
	if address, words, _ := strings.Cut(out, "\n"); !strings.Contains(words, "Send Messages in Threads") || p.Invite("Windy Hill", address) == nil {
		t.Errorf("for threads it says %q", words)
	}
}

// What cannot be told is said clearly, and what the platform does not tell is
// read off the token.
func TestInviteWithoutThePlatform(t *testing.T) {
	t.Setenv("DETENT_DISCORD_TOKEN", "")
	p := discordtest.New(t)
	p.Expect(discordtest.TokenWrong)
	token := base64.RawStdEncoding.EncodeToString([]byte("1152921504606846977")) + ".x.y"
	for _, test := range []struct {
		code  int
		words string
		args  []string
	}{
		{exitWrongUse, "detent invite NUMBER", nil},
		{exitWrongUse, "17 digits", []string{"windy hill"}},
		{exitWrongUse, "loopback", []string{"--token", token, "--api", "http://192.0.2.1"}},
		{exitRefused, "does not know this token", []string{"--token", "another.token", "--api", p.URL()}},
		{exitProblem, "copy it from the developer page", []string{"--token", p.Token(), "--api", "http://127.0.0.1:1"}},
		{exitAnswered, "read off the token", []string{"--token", token, "--api", "http://127.0.0.1:1"}},
	} {
		out, errs, code := execute(t, append([]string{"invite"}, test.args...)...)
		if code != test.code || !strings.Contains(errs, test.words) || strings.Contains(errs, p.Token()) || strings.Contains(errs, token) {
			t.Errorf("%q leaves with %d: %s%s", test.args, code, out, errs)
		}
		if test.code == exitAnswered && !strings.Contains(out, "client_id=1152921504606846977&") {
			t.Errorf("it prints %s", out)
		}
	}
}

// The README tells the same permissions.
func TestReadmeTellsThePermissions(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, threads := range []bool{false, true} {
		for _, name := range (discord.Invitation{Threads: threads}).Names() {
			if !strings.Contains(string(readme), "*"+name+"*") {
				t.Errorf("the README does not name %s", name)
			}
		}
	}
	if n := (discord.Invitation{}).Permissions(); n != 35840 || !strings.Contains(string(readme), " 35840") {
		t.Errorf("the README does not tell %d", n)
	}
}
