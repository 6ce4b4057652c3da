package discord

import (
	"net/http"
	"net/url"
	"slices"
)

// hosts are the platform's, all that the bot talks to.
var hosts = append([]string{"discord.com"}, fileHosts...)

// Rehearse is a way to a stand-in for the platform's HTTP API and files; the
// stand-in names the address of its gateway itself.
func Rehearse(where *url.URL) http.RoundTripper { return rehearsal{where} }

type rehearsal struct{ where *url.URL }

func (s rehearsal) RoundTrip(r *http.Request) (*http.Response, error) {
	if slices.Contains(hosts, r.URL.Host) {
		r = r.Clone(r.Context())
		r.Host = r.URL.Host
		r.URL.Scheme, r.URL.Host = s.where.Scheme, s.where.Host
	}
	return http.DefaultTransport.RoundTrip(r)
}
