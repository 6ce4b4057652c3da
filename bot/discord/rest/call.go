package rest

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/textproto"
	"strings"
	"time"
)

// Call is one request. Again tells that making it twice does no harm. An attempt
// that takes longer than Patience, ten seconds where it is 0, is given up for
// the next.
type Call struct {
	Method, Path string
	Body         any // written as JSON, nil for none
	Files        []File
	Again        bool
	Patience     time.Duration
}

// File is sent along with a body.
type File struct {
	Name, Kind string // its media type
	Data       []byte
}

// patience is how long an attempt may take when nobody waits for it.
const patience = 10 * time.Second

// Encode writes a body as JSON, or as a form with the files beside it.
func Encode(body any, files []File) (data []byte, kind string, err error) {
	if body == nil {
		return nil, "", nil
	}
	data, err = json.Marshal(body)
	if err != nil || len(files) == 0 {
		return data, "application/json", err
	}
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	part := func(disposition, kind string, content []byte) {
		if err != nil {
			return
		}
		var p io.Writer
		if p, err = w.CreatePart(textproto.MIMEHeader{"Content-Disposition": {disposition}, "Content-Type": {kind}}); err == nil {
			_, err = p.Write(content)
		}
	}
	part(`form-data; name="payload_json"`, "application/json", data)
	for i, f := range files {
		part(fmt.Sprintf(`form-data; name="files[%d]"; filename=%q`, i, f.Name), f.Kind, f.Data)
	}
	err = errors.Join(err, w.Close())
	return b.Bytes(), w.FormDataContentType(), err
}

// byToken tells whether an interaction's token gives access to a path. Such a
// request needs no secret and does not count towards the bot's requests in a
// second.
func byToken(path string) bool {
	return strings.Contains(path, "/interactions/") || strings.Contains(path, "/webhooks/")
}
