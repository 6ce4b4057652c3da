package discordtest

import (
	"crypto/rand"
	"fmt"
	"net/http"
	"strings"
	"time"
)

// fileLife is how long the address of an attachment works.
const fileLife = 24 * time.Hour

// storedFile is a file that the platform keeps, with the address it has.
type storedFile struct {
	File
	id, path string
	key      string // what the platform signs an address with
	expires  time.Time
}

// newFile gives a file its address; p.mu is held. It can be fetched once it is in p.files.
func (p *Platform) newFile(file File, channel *Channel, private bool) *storedFile {
	stored := &storedFile{File: file, id: p.newID(), key: rand.Text(), expires: p.now().Add(fileLife)}
	folder := "attachments"
	if private {
		folder = "ephemeral-attachments"
	}
	stored.path = fmt.Sprintf("/%s/%s/%s/%s", folder, channel.ID, stored.id, file.Name)
	return stored
}

// json is the file as an attachment object.
func (f *storedFile) json() map[string]any {
	query := "?" + f.query()
	shown := map[string]any{
		"id": f.id, "filename": f.Name, "size": len(f.Data), "content_type": f.Type,
		"url": "https://cdn.discordapp.com" + f.path + query, "proxy_url": "https://media.discordapp.net" + f.path + query,
	}
	if f.Size != 0 {
		shown["size"] = f.Size
	}
	if f.URL != "" {
		shown["url"] = f.URL
	}
	if f.Description != "" {
		shown["description"] = f.Description
	}
	return shown
}

// query is what an address must end with: until when it works, since when, and
// the signature over both.
func (f *storedFile) query() string {
	return fmt.Sprintf("ex=%x&is=%x&hm=%s&", f.expires.Unix(), f.expires.Add(-fileLife).Unix(), f.key)
}

// serveFile is the file host: an address that expired, or that lacks its query,
// is gone.
func (p *Platform) serveFile(w http.ResponseWriter, r *http.Request) {
	fault := p.takeFault(GetFile)
	if !fault.wait(p, r) {
		panic(http.ErrAbortHandler)
	}
	p.mu.Lock()
	stored := p.files[r.PathValue("file")]
	c := &call{Request: r, route: GetFile}
	a := answer{status: http.StatusNotFound, raw: []byte("This content is no longer available.")}
	switch {
	case fault.answers():
		a = p.misbehave(c, fault)
	case r.Header.Get("Authorization") != "" || strings.Contains(r.URL.String(), p.token):
		a = p.refuse(TokenLeaked, "to the file host")
	case stored != nil && stored.path == r.URL.Path && r.URL.RawQuery != stored.query():
		p.violate(FileQuery, "%s is asked for with the query %q", r.URL.Path, r.URL.RawQuery)
	case stored != nil && stored.path == r.URL.Path && p.now().Before(stored.expires):
		a = answer{status: http.StatusOK, raw: stored.Data, header: http.Header{"Content-Type": {stored.Type}}}
	}
	p.requests = append(p.requests, Request{Route: GetFile, Path: r.URL.Path, At: p.now(), Status: a.status})
	p.changed.Broadcast()
	p.mu.Unlock()
	if fault.drop {
		panic(http.ErrAbortHandler)
	}
	a.write(w)
}
