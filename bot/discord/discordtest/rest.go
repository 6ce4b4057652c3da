package discordtest

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"mime"
	"mime/multipart"
	"net/http"
	"regexp"
	"sort"
	"strconv"
	"time"
)

// Route is a way of asking, as the platform's documentation writes it.
type Route string

// The routes that the stand-in knows.
const (
	AnyRoute          Route = ""
	GetGateway        Route = "GET /gateway"
	GetGatewayBot     Route = "GET /gateway/bot"
	GetMe             Route = "GET /users/@me"
	GetMyGuilds       Route = "GET /users/@me/guilds"
	LeaveGuild        Route = "DELETE /users/@me/guilds/{guild}"
	OpenDirect        Route = "POST /users/@me/channels"
	GetApplication    Route = "GET /applications/@me"
	GetOAuth          Route = "GET /oauth2/applications/@me"
	GetCommands       Route = "GET /applications/{app}/commands"
	PutCommands       Route = "PUT /applications/{app}/commands"
	GetGuildCommands  Route = "GET /applications/{app}/guilds/{guild}/commands"
	PutGuildCommands  Route = "PUT /applications/{app}/guilds/{guild}/commands"
	GetGuild          Route = "GET /guilds/{guild}"
	GetRoles          Route = "GET /guilds/{guild}/roles"
	GetMember         Route = "GET /guilds/{guild}/members/{user}"
	GetChannel        Route = "GET /channels/{channel}"
	PostMessage       Route = "POST /channels/{channel}/messages"
	GetMessage        Route = "GET /channels/{channel}/messages/{message}"
	EditMessage       Route = "PATCH /channels/{channel}/messages/{message}"
	DeleteMessage     Route = "DELETE /channels/{channel}/messages/{message}"
	PostCallback      Route = "POST /interactions/{interaction}/{token}/callback"
	PostFollowUp      Route = "POST /webhooks/{app}/{token}"
	GetReply          Route = "GET /webhooks/{app}/{token}/messages/{message}"
	EditReply         Route = "PATCH /webhooks/{app}/{token}/messages/{message}"
	DeleteReply       Route = "DELETE /webhooks/{app}/{token}/messages/{message}"
	GetFile           Route = "GET /attachments/{channel}/{file}/{name}"
	PostedInteraction Route = "POST (interaction to the bot)"
)

// byToken are the routes that an interaction's token opens: they need no bot
// token and do not count towards the requests of a second.
var byToken = map[Route]bool{PostCallback: true, PostFollowUp: true, GetReply: true, EditReply: true, DeleteReply: true}

// Request is one request that the bot made, kept for assertions.
type Request struct {
	Route   Route
	Path    string
	At      time.Time // on the platform's clock
	Payload json.RawMessage
	Files   []File
	Status  int
}

// File is a file on its way: as an option of a command, or in a message.
type File struct {
	Name        string
	Description string // alt text
	Type        string // media type
	Data        []byte

	// For files of a person, a client may be lied to: Size is what the option
	// says when it is not what Data has, URL where it points when not here.
	Size int
	URL  string
}

// Requests lists what the bot asked of a route so far, in order of arrival;
// AnyRoute means all.
func (p *Platform) Requests(route Route) []Request {
	p.mu.Lock()
	defer p.mu.Unlock()
	var found []Request
	for _, r := range p.requests {
		if route == AnyRoute || r.Route == route {
			found = append(found, r)
		}
	}
	return found
}

// AwaitRequests waits until a route was asked n times, and lists them.
func (p *Platform) AwaitRequests(route Route, n int) []Request {
	p.tb.Helper()
	p.await(fmt.Sprintf("%d requests of %s", n, route), func() bool {
		count := 0
		for _, r := range p.requests {
			if r.Route == route {
				count++
			}
		}
		return count >= n
	})
	return p.Requests(route)
}

// call is one request while it is answered; p.mu is held.
type call struct {
	*http.Request
	route Route
	body  []byte // the JSON of the payload
	files []File
	parts []int
	left  http.Header // what the route's limit leaves, nil for plenty
}

// answer is what goes back: a body to be encoded, or nothing at 204.
type answer struct {
	status int
	body   any
	header http.Header
	raw    []byte // instead of body, with its own Content-Type in header
}

func ok(body any) answer { return answer{status: http.StatusOK, body: body} }

var done = answer{status: http.StatusNoContent}

func (r refusal) answer() answer {
	return answer{status: r.status, body: map[string]any{"code": r.code, "message": r.message}}
}

func (p *Platform) api() http.Handler {
	mux := http.NewServeMux()
	for route, handle := range map[Route]func(*call) answer{
		GetGateway: p.gateway, GetGatewayBot: p.gateway,
		GetMe: p.getMe, GetMyGuilds: p.getMyGuilds, LeaveGuild: p.leaveGuild, OpenDirect: p.openDirect,
		GetApplication: p.getApplication, GetOAuth: p.getApplication,
		GetCommands: p.getCommands, PutCommands: p.putCommands,
		GetGuildCommands: p.getCommands, PutGuildCommands: p.putCommands,
		GetGuild: p.getGuild, GetRoles: p.getRoles, GetMember: p.getMember, GetChannel: p.getChannel,
		PostMessage: p.postMessage, GetMessage: p.getMessage, EditMessage: p.editMessage, DeleteMessage: p.deleteMessage,
		PostCallback: p.postCallback, PostFollowUp: p.postFollowUp,
		GetReply: p.getReply, EditReply: p.editReply, DeleteReply: p.deleteReply,
	} {
		mux.HandleFunc(string(route), func(w http.ResponseWriter, r *http.Request) { p.serve(w, r, route, handle) })
	}
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		p.serve(w, r, Route(r.Method+" (unknown)"), func(c *call) answer {
			return p.refuse(UnknownRoute, "%s %s", c.Method, c.URL.Path)
		})
	})
	return mux
}

// serve answers one request: faults first, then access and limits, then the
// route itself; and keeps it for assertions.
func (p *Platform) serve(w http.ResponseWriter, r *http.Request, route Route, handle func(*call) answer) {
	c, malformed := readCall(r, route)
	fault := p.takeFault(route)
	if !fault.wait(p, r) {
		panic(http.ErrAbortHandler)
	}
	a, dropped := p.respond(c, fault, malformed, handle)
	if dropped {
		panic(http.ErrAbortHandler)
	}
	a.write(w)
}

// respond computes the answer under the lock.
func (p *Platform) respond(c *call, fault Fault, malformed error, handle func(*call) answer) (a answer, dropped bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	defer p.changed.Broadcast()
	record := Request{Route: c.route, Path: c.URL.Path, At: p.now(), Payload: c.body, Files: c.files}
	switch limited, isLimited := p.limit(c); {
	case fault.answers() && !fault.after:
		a = p.misbehave(c, fault)
	case isLimited:
		a = limited
	case !byToken[c.route] && c.Header.Get("Authorization") != "Bot "+p.token:
		a = p.refuse(TokenWrong, "%s", c.route)
	case malformed != nil:
		a = p.refuse(MalformedBody, "%s: %v", c.route, malformed)
	default:
		a = handle(c)
		if a.header == nil {
			a.header = c.left
		}
		if fault.after {
			a = p.misbehave(c, fault)
		}
	}
	record.Status = a.status
	if fault.drop {
		record.Status = 0
	}
	p.requests = append(p.requests, record)
	return a, fault.drop
}

func (a answer) write(w http.ResponseWriter) {
	header := w.Header()
	if a.status != http.StatusTooManyRequests {
		maps.Copy(header, plentiful)
	}
	maps.Copy(header, a.header)
	body := a.raw
	if body == nil && a.body != nil {
		header.Set("Content-Type", "application/json")
		body, _ = json.Marshal(a.body) // maps and slices of plain values: cannot fail
	}
	w.WriteHeader(a.status)
	w.Write(body)
}

var filePart = regexp.MustCompile(`^files\[(\d+)\]$`)

// readCall reads a body, JSON or multipart with payload_json and files[n].
func readCall(r *http.Request, route Route) (*call, error) {
	c := &call{Request: r, route: route}
	data, err := io.ReadAll(r.Body)
	if err != nil {
		return c, err
	}
	c.body, c.files, c.parts, err = readPayload(r.Header.Get("Content-Type"), data)
	return c, err
}

func readPayload(contentType string, data []byte) (body []byte, files []File, parts []int, err error) {
	if len(data) == 0 {
		return nil, nil, nil, nil
	}
	kind, params, err := mime.ParseMediaType(contentType)
	if err != nil {
		return nil, nil, nil, err
	}
	switch kind {
	case "application/json":
		if !json.Valid(data) {
			return nil, nil, nil, fmt.Errorf("not JSON: %.80q", data)
		}
		return data, nil, nil, nil
	case "multipart/form-data":
		return readMultipart(multipart.NewReader(bytes.NewReader(data), params["boundary"]))
	}
	return nil, nil, nil, fmt.Errorf("a body of %s", kind)
}

func readMultipart(reader *multipart.Reader) (body []byte, files []File, parts []int, err error) {
	byNumber := map[int]File{}
	for {
		part, err := reader.NextPart()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, nil, nil, err
		}
		data, err := io.ReadAll(part)
		if err != nil {
			return nil, nil, nil, err
		}
		if number := filePart.FindStringSubmatch(part.FormName()); number != nil {
			n, _ := strconv.Atoi(number[1]) // digits by the pattern
			byNumber[n] = File{Name: part.FileName(), Type: part.Header.Get("Content-Type"), Data: data}
			parts = append(parts, n)
		} else if part.FormName() == "payload_json" && json.Valid(data) {
			body = data
		} else {
			return nil, nil, nil, fmt.Errorf("a part named %q that is neither files[n] nor payload_json with JSON", part.FormName())
		}
	}
	sort.Ints(parts)
	for _, n := range parts {
		files = append(files, byNumber[n])
	}
	return body, files, parts, nil
}

// plain is a JSON value as a text: digits without a fraction for whole numbers.
func plain(value any) string {
	switch value := value.(type) {
	case nil:
		return ""
	case string:
		return value
	case float64:
		return strconv.FormatFloat(value, 'f', -1, 64)
	}
	return fmt.Sprint(value)
}

// unknown answers what does not exist.
func unknown(code int, what string) answer {
	return refusal{http.StatusNotFound, code, "Unknown " + what}.answer()
}
