package discord

import (
	"testing"

	"detent/bot/discord/discordtest"
	"detent/bot/discord/rest"
)

// TestGoingGlobalRemovesOtherCommands sees a workspace where the bot was tried
// out show every command once, though the platform fails meanwhile.
func TestGoingGlobalRemovesOtherCommands(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register()
	w.Guild("Never tried")
	w.bot.config.TestClub = ""
	w.Break(discordtest.GetGuildCommands, discordtest.Times(rest.Attempts+1, discordtest.Status(500))...)
	w.register()
	if got := len(w.Commands(w.club)); got != 0 || len(w.Commands(nil)) == 0 {
		t.Errorf("%d commands stay in the test club, %d are global", got, len(w.Commands(nil)))
	}
	w.register()
	if got := len(w.Requests(discordtest.PutGuildCommands)); got != 2 {
		t.Errorf("a workspace's commands are written %d times, want once to try out and once to remove", got)
	}
}

// TestSweepingOnesOwnPart leaves the workspaces of other shards alone, and goes
// on where a workspace shows no commands.
func TestSweepingOnesOwnPart(t *testing.T) {
	t.Parallel()
	w := newAdapterClub(t).register()
	w.bot.config.TestClub, w.bot.config.Shards = "", 2
	w.bot.config.Shard = 1 - shardOf(w.club.ID, 2)
	w.register()
	if len(w.Commands(w.club)) == 0 {
		t.Error("the commands of a workspace that is another process's are removed")
	}
	w.bot.config.Shard = 1 - w.bot.config.Shard
	w.Break(discordtest.GetGuildCommands, discordtest.Status(403))
	w.register()
	if w.register(); len(w.Commands(w.club)) != 0 {
		t.Error("the commands stay")
	}
}
