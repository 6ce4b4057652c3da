package gateway

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// TestEventsAreShownBare sees of an event only what is handled.
func TestEventsAreShownBare(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ event, data, want string }{
		{guildEvent, `{"id":"7","channels":[null],"unavailable":false}`, `{"op":0,"d":{"id":"7","unavailable":false},"s":3,"t":"GUILD_CREATE"}`},
		{removalEvent, `{"id":"7","unavailable":true}`, `{"op":0,"d":{"id":"7","unavailable":true},"s":3,"t":"GUILD_DELETE"}`},
		{readyEvent, `{"v":9,"session_id":"s","guilds":[null]}`, `{"op":0,"d":{"v":9,"session_id":"s"},"s":3,"t":"READY"}`},
		{interactionEvent, `{"id":"7","token":"x"}`, `{"op":0,"d":{"id":"7","token":"x"},"s":3,"t":"INTERACTION_CREATE"}`},
		{"PRESENCE_UPDATE", `{"user":null}`, `{"op":0,"d":null,"s":3,"t":""}`},
	} {
		f, fits := frame{Type: test.event, Seq: 3, Data: []byte(test.data)}.bearable()
		if got := string(f.text()); got != test.want || !fits {
			t.Errorf("%s becomes %s", test.event, got)
		}
	}
}

// FuzzFrames sees that whatever the gateway sends is passed on as what the
// library can bear, or not at all.
func FuzzFrames(f *testing.F) {
	for _, text := range []string{
		`null`, `{"op":0,"t":"GUILD_CREATE","s":3,"d":null}`, `{"op":0,"t":"READY","d":{"session_id":"s","guilds":[null]}}`,
		`{"op":10,"d":{"heartbeat_interval":0}}`, `{"op":0,"t":"INTERACTION_CREATE","d":{"id":"1","token":"t","data":null}}`,
		`{"op":9,"d":true}`, `{"op":11}`, `{"op":1,"d":7}`, `{"op":0,"t":"VOICE_STATE_UPDATE","s":9,"d":null}`,
	} {
		f.Add(text)
	}
	handled := []string{"", readyEvent, resumedEvent, guildEvent, removalEvent, interactionEvent}
	f.Fuzz(func(t *testing.T, text string) {
		read, err := readFrame(websocket.TextMessage, []byte(text))
		if err != nil {
			return
		}
		out, pass, err := (&wire{s: &session{g: quiet()}}).sift(read)
		if err != nil || !pass {
			return
		}
		var shown *discordgo.Event
		if err := json.Unmarshal(out.text(), &shown); err != nil || shown == nil {
			t.Fatalf("the library cannot read %s: %v", out.text(), err)
		}
		if shown.Operation == opEvent && !slices.Contains(handled, shown.Type) {
			t.Errorf("it is shown %s", shown.Type)
		}
		if g := (&discordgo.GuildCreate{}); shown.Type == guildEvent && (json.Unmarshal(shown.RawData, g) != nil || g.Guild == nil || g.ID == "" || len(g.Channels) > 0) {
			t.Errorf("it is shown the workspace %s", shown.RawData)
		}
	})
}
