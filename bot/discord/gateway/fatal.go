package gateway

import (
	"errors"
	"fmt"
	"net/http"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"

	"detent/bot/discord/rest"
)

// Fatal is a refusal that no attempt can mend: what is wrong is in the
// configuration, and Say tells what. Code is the gateway's, or the status of an
// answer.
type Fatal struct {
	Code int
	Say  string
}

func (f *Fatal) Error() string { return fmt.Sprintf("%s (code %d)", f.Say, f.Code) }

// fatal are the codes that the gateway closes with for good. The library would
// go on for ever.
var fatal = map[int]string{
	4004: UnknownToken,
	4010: "The platform knows no such shard: check DETENT_DISCORD_SHARD",
	4011: "There are too many workspaces for one connection: raise DETENT_DISCORD_SHARDS",
	4012: "The platform no longer speaks this version of the gateway: update the program",
	4013: "The platform does not know what was asked to be sent: update the program",
	4014: "The bot may not be sent what it asked for: update the program",
}

// UnknownToken is what is wrong when the platform knows no such bot.
const UnknownToken = "The platform does not know this token: set DETENT_DISCORD_TOKEN to the bot's own"

// forGood tells whether an attempt to join was refused for good.
func forGood(err error) error {
	if closed, ok := errors.AsType[*websocket.CloseError](err); ok && fatal[closed.Code] != "" {
		return &Fatal{closed.Code, fatal[closed.Code]}
	}
	lib, ok := errors.AsType[*discordgo.RESTError](err)
	unknown := ok && lib.Response.StatusCode == http.StatusUnauthorized
	if r, ok := rest.AsRefusal(err); unknown || ok && r.Status == http.StatusUnauthorized {
		return &Fatal{http.StatusUnauthorized, UnknownToken}
	}
	return nil
}
