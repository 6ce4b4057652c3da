package discord

import (
	"context"
	"net/http"
	"strconv"

	"detent/bot/discord/rest"
)

// sweep removes the commands that workspaces have of their own: a workspace
// where the bot was tried out would show every command twice once all have
// them. Each process looks at its part of the workspaces, one after the other.
// One that does not let its commands be seen has none.
func (b *Bot) sweep(ctx context.Context, app string) error {
	return b.eachGuild(ctx, func(id string) error {
		if shardOf(id, b.config.Shards) != b.config.Shard {
			return nil
		}
		path := "/applications/" + app + "/guilds/" + id + "/commands"
		var own []command
		err := b.api.Do(ctx, rest.Call{Method: http.MethodGet, Path: path, Again: true}, &own)
		if err == nil && len(own) > 0 {
			b.log.Info("removing the commands of one workspace", "guild", id, "commands", len(own))
			err = b.api.Do(ctx, rest.Call{Method: http.MethodPut, Path: path, Body: []command{}, Again: true}, nil)
		}
		if r, refused := rest.AsRefusal(err); refused && (r.Status == http.StatusForbidden || r.Status == http.StatusNotFound) {
			return nil
		}
		return err
	})
}

// shardOf is the shard that a workspace belongs to, as the platform counts.
func shardOf(guild string, shards int) int {
	id, err := strconv.ParseUint(guild, 10, 64)
	if err != nil {
		return 0
	}
	return int(id >> 22 % uint64(shards))
}
