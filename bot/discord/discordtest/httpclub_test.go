package discordtest

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// recorder is a test that only notes what would have failed it.
type recorder struct {
	testing.TB
	mu     sync.Mutex
	errors []string
}

func (r *recorder) Errorf(format string, args ...any) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.errors = append(r.errors, fmt.Sprintf(format, args...))
}

// httpClub is a stand-in with one member and a bot that speaks plain HTTP, so that
// it can say what no library would.
type httpClub struct {
	*Platform
	t        *testing.T
	record   *recorder
	alice    *Member
	general  *Channel
	arrivals chan arrival
	endpoint string
}

// arrival is an interaction as the bot gets it.
type arrival struct {
	ID, Token string
	Type      int
}

func newHTTPClub(t *testing.T) *httpClub {
	w := &httpClub{t: t, record: &recorder{TB: t}, arrivals: make(chan arrival, 100)}
	w.Platform = New(w.record)
	guild := w.Guild("Apex")
	w.alice, w.general = guild.Member("alice"), guild.Channel("general")
	server := httptest.NewServer(http.HandlerFunc(w.receive))
	t.Cleanup(server.Close)
	w.endpoint = server.URL
	return w
}

// receive is the bot's address: it answers PING, believes no forged signature
// (the only one that the stand-in forges is on a PING) and says of everything
// else that the answer will follow.
func (w *httpClub) receive(rw http.ResponseWriter, r *http.Request) {
	body, _ := io.ReadAll(r.Body)
	if !genuine(w.PublicKey(), r, body) {
		rw.WriteHeader(http.StatusUnauthorized)
		return
	}
	var a arrival
	if err := json.Unmarshal(body, &a); err != nil {
		w.t.Error(err)
	}
	if a.Type == kindPing {
		io.WriteString(rw, `{"type":1}`)
		return
	}
	rw.WriteHeader(http.StatusAccepted)
	w.arrivals <- a
}

// ask makes a request and returns the status and the code of the error in it.
func (w *httpClub) ask(method, path string, body any) (status, code int) {
	w.t.Helper()
	if strings.Contains(path, "/messages") || strings.HasPrefix(path, "/webhooks/") {
		body = quiet(body)
	}
	data, ok := body.(string)
	if !ok && body != nil {
		encoded, err := json.Marshal(body)
		if err != nil {
			w.t.Fatal(err)
		}
		data = string(encoded)
	}
	return w.askRaw(method, path, "application/json", strings.NewReader(data))
}

// quiet adds to a message that it notifies nobody, unless it says something of
// that itself. It is the last thing that most tests here are about.
func quiet(message any) any {
	said, ok := message.(obj)
	if _, there := said["allowed_mentions"]; !ok || there {
		return message
	}
	said = maps.Clone(said)
	said["allowed_mentions"] = obj{"parse": list{}}
	return said
}

func (w *httpClub) askRaw(method, path, contentType string, body io.Reader) (status, code int) {
	w.t.Helper()
	request, err := http.NewRequest(method, "https://discord.com/api/v10"+path, body)
	if err != nil {
		w.t.Fatal(err)
	}
	request.Header.Set("Authorization", "Bot "+w.Token())
	request.Header.Set("Content-Type", contentType)
	response, err := w.Client().Do(request)
	if err != nil {
		return 0, 0
	}
	defer response.Body.Close()
	var problem struct{ Code int }
	text, _ := io.ReadAll(response.Body)
	if json.Unmarshal(text, &problem) != nil {
		problem.Code = 0 // a list, a page or nothing
	}
	return response.StatusCode, problem.Code
}

// post sends a message to the channel.
func (w *httpClub) post(body any) (status, code int) {
	w.t.Helper()
	return w.ask("POST", "/channels/"+w.general.ID+"/messages", body)
}

// postFile sends a message with one file.
func (w *httpClub) postFile(payload string, name string, data []byte) (status, code int) {
	w.t.Helper()
	contentType, body := multipartBody(w.t, quietText(w.t, payload), name, data)
	return w.askRaw("POST", "/channels/"+w.general.ID+"/messages", contentType, body)
}

// quietText is quiet for a message in JSON.
func quietText(t *testing.T, payload string) string {
	var said obj
	if err := json.Unmarshal([]byte(payload), &said); err != nil {
		t.Fatal(err)
	}
	return string(mustJSON(t, quiet(said)))
}

func multipartBody(t *testing.T, payload, name string, data []byte) (contentType string, body *bytes.Buffer) {
	body = &bytes.Buffer{}
	writer := multipart.NewWriter(body)
	if err := writer.WriteField("payload_json", payload); err != nil {
		t.Fatal(err)
	}
	part, err := writer.CreateFormFile("files[0]", name)
	if err != nil {
		t.Fatal(err)
	}
	part.Write(data)
	writer.Close()
	return writer.FormDataContentType(), body
}

// register registers commands for the guild.
func (w *httpClub) register(commands ...any) (status, code int) {
	w.t.Helper()
	return w.ask("PUT", "/applications/"+w.app+"/guilds/"+w.alice.Guild.ID+"/commands", commands)
}

// begin lets alice type /go and returns the interaction as the bot got it.
func (w *httpClub) begin() (*Reply, arrival) {
	w.t.Helper()
	w.mu.Lock()
	first := len(w.delivery.urls) == 0
	w.mu.Unlock()
	if first {
		w.register(obj{"name": "go", "description": "Go"})
		w.DeliverTo(w.endpoint)
	}
	return w.alice.Begin("/go"), <-w.arrivals
}

// answer gives a first answer.
func (w *httpClub) answer(a arrival, kind int, data any) (status, code int) {
	w.t.Helper()
	if kind == answerMessage || kind == answerUpdate {
		data = quiet(data)
	}
	return w.ask("POST", "/interactions/"+a.ID+"/"+a.Token+"/callback", obj{"type": kind, "data": data})
}

// follow says more in an interaction.
func (w *httpClub) follow(a arrival, body any) (status, code int) {
	w.t.Helper()
	return w.ask("POST", "/webhooks/"+w.app+"/"+a.Token+"?wait=true", body)
}

// dial connects to the gateway and reads HELLO.
func (w *httpClub) dial() *websocket.Conn {
	w.t.Helper()
	conn, _, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(w.URL(), "http")+"/gateway/?v=10", nil)
	if err != nil {
		w.t.Fatal(err)
	}
	w.t.Cleanup(func() { conn.Close() })
	if op, _ := w.hear(conn); op != opHello {
		w.t.Fatalf("the gateway greets with %d", op)
	}
	return conn
}

// identify says who it is, with what differs from the ordinary.
func (w *httpClub) identify(conn *websocket.Conn, differs obj) {
	w.t.Helper()
	data := obj{"token": w.Token(), "intents": intentGuilds, "properties": obj{}}
	for key, value := range differs {
		data[key] = value
	}
	w.tell(conn, opIdentify, data)
}

func (w *httpClub) tell(conn *websocket.Conn, op int, data any) {
	w.t.Helper()
	if err := conn.WriteJSON(obj{"op": op, "d": data}); err != nil {
		w.t.Fatal(err)
	}
}

// hear reads one message: its operation and its event's name, or minus the code
// that the gateway closed with.
func (w *httpClub) hear(conn *websocket.Conn) (op int, event string) {
	w.t.Helper()
	var message struct {
		Op   int    `json:"op"`
		Type string `json:"t"`
	}
	conn.SetReadDeadline(time.Now().Add(10 * time.Second))
	if err := conn.ReadJSON(&message); err != nil {
		if closed, ok := err.(*websocket.CloseError); ok {
			return -closed.Code, ""
		}
		return -1, err.Error()
	}
	return message.Op, message.Type
}

type (
	obj  = map[string]any
	list = []any
)

func mustJSON(t *testing.T, value any) []byte {
	t.Helper()
	data, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
