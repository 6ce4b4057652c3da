package discordtest

import (
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"
)

// TestFileOption sends a file with a command: the bot fetches it from the
// platform's file host, until its address expires.
func TestFileOption(t *testing.T) {
	t.Parallel()
	p := New(t)
	alice := p.Guild("Apex").Member("alice")
	b := newBot(t, p)
	expired := make(chan int, 1)
	fetch := func(i *discordgo.Interaction) (int, string) {
		data := i.ApplicationCommandData()
		option := data.Options[0].GetOption("file")
		response, err := p.Client().Get(data.Resolved.Attachments[option.Value.(string)].URL)
		if err != nil {
			t.Error(err)
			return 0, ""
		}
		defer response.Body.Close()
		body, _ := io.ReadAll(response.Body)
		return response.StatusCode, string(body)
	}
	b.on(discordgo.InteractionApplicationCommand, func(i *discordgo.Interaction) {
		_, body := fetch(i)
		b.say(i, &discordgo.InteractionResponseData{Content: body})
		p.Advance(fileLife)
		status, _ := fetch(i)
		expired <- status
	})
	b.open()
	b.register("", carCommand)
	reply := alice.Type("/car add name:x drive:front file:t.csv member:alice", FileNamed("t.csv", []byte("1,2,3")))
	if got := reply.Content(); got != "1,2,3" {
		t.Errorf("got %q", got)
	}
	if got := <-expired; got != http.StatusNotFound {
		t.Errorf("an expired address answers %d", got)
	}
}

// TestFiles keeps, adds and renames files over edits.
func TestFiles(t *testing.T) {
	t.Parallel()
	w := newHTTPClub(t)
	reply, a := w.begin()
	w.answer(a, answerMessage, obj{"content": "x"})
	path := "/webhooks/" + w.app + "/" + a.Token + "/messages/@original"
	send := func(payload, name string) {
		t.Helper()
		contentType, body := multipartBody(t, quietText(t, payload), name, []byte(name))
		if status, code := w.askRaw("PATCH", path, contentType, body); status != 200 {
			t.Errorf("%d %d", status, code)
		}
	}
	names := func() string {
		var found []string
		for _, file := range reply.Files() {
			found = append(found, file.Name+"="+string(file.Data)+"="+file.Description)
		}
		return strings.Join(found, " ")
	}
	send(`{}`, "a.csv")
	send(`{}`, "b.csv")
	if got := names(); got != "a.csv=a.csv= b.csv=b.csv=" {
		t.Errorf("added: %s", got)
	}
	w.mu.Lock()
	second := reply.i.original.files[1].id
	w.mu.Unlock()
	send(`{"attachments":[{"id":"`+second+`"},{"id":"0","filename":"grip.png","description":"Grip"}]}`, "c.png")
	if got := names(); got != "b.csv=b.csv= grip.png=c.png=Grip" {
		t.Errorf("replaced: %s", got)
	}
}

// TestFalseFile sees that a person's client may lie about a file.
func TestFalseFile(t *testing.T) {
	t.Parallel()
	p := New(t)
	alice := p.Guild("Apex").Member("alice")
	b := newBot(t, p)
	b.on(discordgo.InteractionApplicationCommand, func(i *discordgo.Interaction) {
		for _, file := range i.ApplicationCommandData().Resolved.Attachments {
			b.say(i, &discordgo.InteractionResponseData{Content: file.URL + " " + file.Filename + " " + file.ContentType + " " + strings.Repeat("I", file.Size)})
		}
	})
	b.open()
	b.register("", carCommand)
	file := FileNamed("t.txt", []byte("1,2,3"))
	file.URL, file.Size = "http://127.0.0.1/secrets", 3
	if got, want := alice.Type("/car add name:x drive:front file:t.txt", file).Content(), "http://127.0.0.1/secrets t.txt text/plain; charset=utf-8 III"; got != want {
		t.Errorf("got %q", got)
	}
}
